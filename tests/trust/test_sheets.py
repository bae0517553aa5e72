"""The sheets of threats, goals and requirements: each row names what is there and what holds it.

``threats_and_goals.csv`` lists what is to be held off and what is promised; ``asvs.csv`` the requirements of the OWASP
Application Security Verification Standard 5.0.0 by their numbers, in words of our own: all of level 1 except those of
self-contained tokens and OAuth, which there are none of (chapters 9 and 10), and of the higher levels what is met;
``calendar.csv`` what a calendar keeps to so that the programs people subscribe with show it rightly (RFC 5545 and 7986,
and what is known of these programs).
``state`` is met, part, no, not measured, none here (there is nothing of the kind) or outside (another's to meet).
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

import pytest

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
SHEETS = ("threats_and_goals.csv", "asvs.csv", "calendar.csv")
STATES = {"met", "part", "no", "not measured", "none here", "outside"}
LEVEL_1 = {
    "1.2": (1, 2, 3, 4, 5), "1.3": (1, 2), "1.5": (1,), "2.1": (1,), "2.2": (1, 2), "2.3": (1,), "3.2": (1, 2),
    "3.3": (1,), "3.4": (1, 2), "3.5": (1, 2, 3), "4.1": (1,), "4.4": (1,), "5.2": (1, 2), "5.3": (1, 2), "6.1": (1,),
    "6.2": (1, 2, 3, 4, 5, 6, 7, 8), "6.3": (1, 2), "6.4": (1, 2), "7.2": (1, 2, 3, 4), "7.4": (1, 2), "8.1": (1,),
    "8.2": (1, 2), "8.3": (1,), "11.3": (1, 2), "11.4": (1,), "12.1": (1,), "12.2": (1, 2), "13.4": (1,),
    "14.2": (1,), "14.3": (1,), "15.1": (1,), "15.2": (1,), "15.3": (1,),
}  # fmt: skip


def rows_of(sheet: str) -> list[dict[str, str]]:
    with open(HERE / sheet, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def pointers(sheet: str) -> Iterator[tuple[str, str, str]]:
    for row in rows_of(sheet):
        for pointer in row["where"].split():
            path, _colons, test = pointer.partition("::")
            yield row["id"], path, test


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_pointer_leads_somewhere(sheet: str) -> None:
    missing = [
        (number, path, test)
        for number, path, test in pointers(sheet)
        if not (ROOT / path).exists() or (test and f"def {test}(" not in (ROOT / path).read_text(encoding="utf-8"))
    ]

    assert missing == []


def test_everything_that_calendars_keep_to_is_held_by_tests_that_are_named() -> None:
    assert [(number, path) for number, path, test in pointers("calendar.csv") if not test] == []


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_row_says_how_it_stands_and_what_is_met_names_where(sheet: str) -> None:
    rows = rows_of(sheet)

    assert {row["state"] for row in rows} <= STATES
    assert [row["id"] for row in rows if row["state"] in {"met", "part"} and not row["where"]] == []
    assert len(rows) == len({row["id"] for row in rows})


def test_nothing_is_left_out() -> None:
    asked = {f"{section}.{number}" for section, numbers in LEVEL_1.items() for number in numbers}
    threats_and_goals = {row["id"] for row in rows_of("threats_and_goals.csv")}

    assert len(asked) == 61
    assert asked - {row["id"] for row in rows_of("asvs.csv")} == set()
    assert {row["id"] for row in rows_of("calendar.csv")} == {f"C{number}" for number in range(1, 35)}
    assert threats_and_goals == {f"T{number}" for number in range(1, 41)} | {f"G{number}" for number in range(1, 26)}
