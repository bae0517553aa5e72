"""A row of a performance history as what is to be stored: one work at one event.

An empty cell says nothing. A word that is not known for status or audience is never taken for "given" or "public": the
event is kept, the word as a note, and it counts for no premiere until somebody says what it was.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date, time, timedelta
from typing import Any

from catalogue.exchange.cell_dates import read_cell_date
from catalogue.exchange.cell_words import choose
from catalogue.exchange.columns import Row
from catalogue.exchange.performer_lists import Performer, read_performers
from catalogue.exchange.problems import Problems
from catalogue.exchange.work_rows import Reading, remark
from catalogue.rules.countries import is_country
from catalogue.rules.states import country_told, is_part_of_kingdom, state_name
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from catalogue.timing import DateError, MomentError, PartialDate, read_clock_time, zone_named

# What a word stands for that the list does not know.
OTHERWISE = {
    "kind": PerformanceKind.CONCERT.value,
    "audience": Audience.INVITED.value,
    "status": PerformanceStatus.WITHDRAWN.value,
    "extent": Extent.COMPLETE.value,
}
# Days since the end of 1899 (ISO/IEC 29500-1, 18.17.4.1), of the years 1927 to 2119.
DAY_NUMBER = re.compile(r"[1-7][0-9]{4}(?:[.][0-9]+)?")
FIRST_DAY = date(1899, 12, 30)
LISTS = {"kind": "kind", "audience": "audience", "status": "performance_status", "extent": "extent"}


@dataclass(frozen=True, slots=True)
class PerformanceRow:
    """``event`` are columns of the performance, ``item`` of the programmed work; what the row does not say is absent.

    ``remarks`` are lines for the notes of the event.
    """

    row: Row
    work: str
    version: str
    venue: str
    event: dict[str, Any]
    item: dict[str, str]
    performers: tuple[Performer, ...] = ()
    remarks: tuple[str, ...] = ()
    notes: str = ""


@dataclass(slots=True)
class Cells:
    """A row while it is read."""

    row: Row
    reading: Reading
    problems: Problems
    remarks: list[str] = field(default_factory=list)

    def text(self, name: str) -> str:
        return self.row.cells.get(name, "")

    def warn(self, name: str, message: str) -> None:
        self.problems.warn(self.row, name, message)

    def fail(self, name: str, message: str) -> None:
        self.problems.fail(self.row, name, message)

    def keep(self, name: str, text: str) -> None:
        self.remarks.append(remark(name, text))


def read_performance_row(row: Row, reading: Reading, problems: Problems) -> PerformanceRow | None:
    """Return what a row says, or None where it has an error."""
    before = len(problems.errors)
    cells = Cells(row, reading, problems)
    event: dict[str, Any] = {}
    if not cells.text("work"):
        cells.fail("work", "Which work was played? The row names none.")
    event |= when(cells) | where(cells) | {name: cells.text(name) for name in ("series",) if cells.text(name)}
    if cells.text("presenter"):
        event["presenter_name"] = cells.text("presenter")
    words = {name: chosen_word(cells, name) for name in LISTS if cells.text(name)}
    event |= {name: word for name, (word, _) in words.items() if name != "extent"}
    extra = [remark(header, text) for header, text in row.extra]
    if len(problems.errors) > before:
        return None
    return PerformanceRow(
        row=row,
        work=cells.text("work"),
        version=cells.text("version"),
        venue=event.pop("venue", ""),
        event=event,
        item=item_of(cells, words.get("extent")),
        performers=read_performers(cells.text("performers")),
        remarks=(*cells.remarks, *extra),
        notes=cells.text("notes"),
    )


def when(cells: Cells) -> dict[str, PartialDate | time | str]:
    """Return date, time and time zone; a date with a clock time in one cell gives both."""
    found: dict[str, PartialDate | time | str] = {}
    day, _, clock = cells.text("date").partition(" ")
    is_moment = len(day) == 10 and ":" in clock and not cells.text("time")
    if cells.text("date"):
        try:
            told = read_cell_date(day if is_moment else cells.text("date"), cells.reading.language)
            found["date"] = told.date
            if told.says_more:
                cells.warn("date", f"“{cells.text('date')}” is kept as {told.date}, and as it is written as a note.")
                cells.keep("date", cells.text("date"))
        except DateError as mistake:
            cells.fail("date", day_number_told(cells.text("date")) or mistake.reason)
    for name, text in (("date", clock), ("time", "")) if is_moment else (("time", cells.text("time")),):
        if text:
            try:
                found["time"] = read_clock_time(text)
            except MomentError as mistake:
                cells.fail(name, mistake.reason)
    if cells.text("timezone"):
        try:
            found["zone"] = zone_named(cells.text("timezone")).key
        except MomentError as mistake:
            cells.fail("timezone", mistake.reason)
    return found


def day_number_told(text: str) -> str:
    """Return what to say of a number in which a spreadsheet program counts days, nothing of any other text.

    >>> day_number_told("43613")
    '“43613” is how a spreadsheet program counts days: 2019-05-28. Give the column the format of a date.'
    """
    if not DAY_NUMBER.fullmatch(text):
        return ""
    told = FIRST_DAY + timedelta(days=int(text[:5]))
    return f"“{text}” is how a spreadsheet program counts days: {told}. Give the column the format of a date."


def where(cells: Cells) -> dict[str, str]:
    """Return venue, city, country and the state of the time, from their own columns or from one that holds all."""
    hall, city, country = cells.text("venue"), cells.text("city"), cells.text("country")
    if cells.text("place"):
        told = divided_place(cells.text("place"), has_city=bool(city))
        hall, city, country = (own or other for own, other in zip((hall, city, country), told, strict=True))
    found = {"venue": hall, "city": city, "country_then": cells.text("country_then")}
    code = country_told(country)
    if is_country(code):
        found["country"] = code
        if is_part_of_kingdom(country):
            cells.keep("country", country)
    elif country and not found["country_then"]:
        cells.warn("country", f"“{country}” is no country of today; kept as the state of the time.")
        found["country_then"] = state_name(country)
    elif country:
        cells.warn("country", f"“{country}” is no country of today; kept as a note.")
        cells.keep("country", country)
    return {name: text for name, text in found.items() if text}


def divided_place(text: str, *, has_city: bool) -> tuple[str, str, str]:
    """Return hall, city and country of "Hall, City, Country", whose last parts may be missing.

    >>> divided_place("Kornspeicher, Linz, Austria", has_city=False)
    ('Kornspeicher', 'Linz', 'Austria')
    """
    parts = [part.strip() for part in text.split(",") if part.strip()]
    country = parts.pop() if len(parts) > 1 and country_told(parts[-1]) else ""
    city = parts.pop() if parts and not has_city else ""
    return ", ".join(parts), city, country


def chosen_word(cells: Cells, name: str) -> tuple[str, str]:
    """Return the word of a list, and the part that was played; any other remark becomes a note."""
    text = cells.text(name)
    chosen = choose(LISTS[name], text)
    if not chosen.word:
        cells.warn(name, f"“{text}” is no {name} that the catalogue knows; kept as a note.")
        cells.keep(name, text)
        return OTHERWISE[name], ""
    if chosen.remark and (name != "extent" or chosen.word == Extent.COMPLETE):
        cells.keep(name, text)
        return chosen.word, ""
    return chosen.word, chosen.remark


def item_of(cells: Cells, extent: tuple[str, str] | None) -> dict[str, str]:
    item = {"billing": cells.text("billing")}
    if extent is not None:
        item |= {"extent": extent[0], "part": extent[1]}
    return {name: text for name, text in item.items() if text or name == "part"}
