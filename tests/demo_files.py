"""The files of the invented demo house, read for tests."""

from __future__ import annotations

import tomllib
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from catalogue.timing import PartialDate, read_date

FOLDER = Path(__file__).resolve().parents[1] / "fixtures" / "demo"
FILES = {
    "composers": "composer",
    "people": "person",
    "organisations": "organisation",
    "venues": "venue",
    "works": "work",
    "performances": "performance",
    "calls": "call",
}
MAIN = "nevena-haldoreva"
LOADED = date(2027, 1, 15)  # any day will do; what is told from the day of loading is reckoned from this one

Row = dict[str, Any]


def read(name: str) -> list[Row]:
    table: dict[str, list[Row]] = tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))
    return table[FILES[name]]


COMPOSERS, PEOPLE, ORGANISATIONS, VENUES, WORKS, PERFORMANCES, CALLS = (read(name) for name in FILES)
WORK = {work["slug"]: work for work in WORKS}
VENUE = {venue["slug"]: venue for venue in VENUES}
ENTRIES = [(performance, entry) for performance in PERFORMANCES for entry in performance["programme"]]


def slugs(rows: list[Row]) -> set[str]:
    return {row["slug"] for row in rows}


def composers_of(performance: Row) -> set[str]:
    return {WORK[entry["work"]]["composer"] for entry in performance["programme"]}


def when(performance: Row) -> PartialDate:
    if "date" in performance:
        return read_date(performance["date"])
    day = LOADED + timedelta(days=int(performance["day"]))
    return PartialDate(day.year, day.month, day.day)
