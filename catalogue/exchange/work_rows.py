"""A row of a works list as what is to be stored of a work.

An empty cell says nothing and changes nothing. What cannot be read as instrumentation, duration, category, status or
number is kept as it was typed, with a warning; a date that cannot be read is an error.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from catalogue.exchange.cell_dates import read_cell_date, without_revision
from catalogue.exchange.cell_words import choose
from catalogue.exchange.columns import Row
from catalogue.exchange.movement_lists import MovementListError, read_movements
from catalogue.exchange.problems import Problems
from catalogue.facts import MovementFacts
from catalogue.instrumentation import InstrumentationError, read, write_shorthand
from catalogue.rules.identifiers import Identifier, as_typed, doubt_about
from catalogue.timing import DateError, Duration, DurationError, PartialDate, read_duration
from catalogue.timing.durations import Bare

COPIED = {
    "title": "title",
    "original_title": "original_title",
    "translated_title": "translated_title",
    "subtitle": "subtitle",
    "catalogue_number": "catalogue_number",
    "text_author": "text_author",
    "text_language": "text_language",
    "dedication": "dedication",
    "publisher": "publisher",
    "version": "version_label",
}
DATES = {"year": "completed", "revised": "revised"}
NUMBERS = {"iswc": Identifier.ISWC, "ismn": Identifier.ISMN}
WORDS = {"category": "category", "status": "work_status"}
BARE_NUMBER = re.compile(r"\s*[0-9]+(?:[.,][0-9]+)?\s*")


@dataclass(frozen=True, slots=True)
class Reading:
    """How cells are read: figures of dates in the order of a language, bare numbers as minutes or seconds or not."""

    language: str = "en-GB"
    bare_durations: Bare | None = None


@dataclass(frozen=True, slots=True)
class WorkRow:
    """``columns`` are those of the record; ``None`` for movements or commissions says nothing about them.

    ``remarks`` are lines for the notes.
    """

    row: Row
    title: str
    columns: dict[str, Any]
    movements: tuple[MovementFacts, ...] | None = None
    commissions: tuple[str, ...] | None = None
    remarks: tuple[str, ...] = ()


def read_work_row(row: Row, reading: Reading, problems: Problems) -> WorkRow | None:
    """Return what a row says, or None where it has an error."""
    before = len(problems.errors)
    cells = row.cells
    columns: dict[str, Any] = {column: cells[name] for name, column in COPIED.items() if name in cells}
    if "title" not in cells:
        problems.fail(row, "title", "A work needs a title.")
    columns |= dates_in(row, reading, problems) | words_in(row, problems) | numbers_in(row, problems)
    columns |= instrumentation_in(row, problems) | duration_in(row, reading, problems)
    if "notes" in cells:
        columns["notes"] = cells["notes"]
    movements = movements_in(row, problems)
    if len(problems.errors) > before:
        return None
    return WorkRow(
        row=row,
        title=cells["title"],
        columns=columns,
        movements=movements,
        commissions=tuple(several(cells["commissioned_by"])) if "commissioned_by" in cells else None,
        remarks=tuple(remarks_of(row, columns, reading)),
    )


def dates_in(row: Row, reading: Reading, problems: Problems) -> dict[str, PartialDate]:
    found = {}
    for name, text in date_cells(row).items():
        try:
            told = read_cell_date(text, reading.language)
        except DateError as mistake:
            problems.fail(row, name, mistake.reason)
            continue
        found[DATES[name]] = told.date
        if told.says_more:
            problems.warn(row, name, f"“{text}” is kept as {told.date}, and as it is written as a note.")
    return found


def date_cells(row: Row) -> dict[str, str]:
    """Return the cells of dates; a year that tells the revision as well gives both, unless that has its own cell."""
    cells = {name: row.cells[name] for name in DATES if name in row.cells}
    if "year" in cells and "revised" not in cells:
        year, revised = without_revision(cells["year"])
        cells |= {"year": year, "revised": revised} if revised else {}
    return cells


def words_in(row: Row, problems: Problems) -> dict[str, str]:
    """Return category and status; a word that is not known is left to the notes."""
    found = {}
    for name, listed in WORDS.items():
        if name in row.cells:
            chosen = choose(listed, row.cells[name])
            if chosen.word:
                found[name] = chosen.word
            else:
                problems.warn(row, name, f"“{row.cells[name]}” is no {name} that the catalogue knows; kept as a note.")
    return found


def numbers_in(row: Row, problems: Problems) -> dict[str, str]:
    """Return the numbers as they are written."""
    found = {}
    for name, kind in NUMBERS.items():
        if name in row.cells:
            found[name] = as_typed(row.cells[name])
            doubt = doubt_about(kind, row.cells[name])
            if doubt:
                problems.warn(row, name, f"{doubt} Kept as it is written.")
    return found


def instrumentation_in(row: Row, problems: Problems) -> dict[str, str]:
    """Return the canonical text, empty where the typed one cannot be read, and the typed one."""
    text = row.cells.get("instrumentation", "")
    if not text:
        return {}
    try:
        canonical = write_shorthand(read(text))
    except InstrumentationError as mistake:
        problems.warn(row, "instrumentation", f"{mistake.reason} Kept as it is written.")
        canonical = ""
    return {"instrumentation": canonical, "instrumentation_typed": text}


def duration_in(row: Row, reading: Reading, problems: Problems) -> dict[str, Duration | str | None]:
    """Return the duration, None where it cannot be read, and the typed text."""
    text = row.cells.get("duration", "")
    if not text:
        return {}
    try:
        duration = read_duration(text, bare=reading.bare_durations)
        if duration.seconds:
            return {"duration": duration, "duration_typed": text}
        reason = "A duration is longer than nothing."
    except DurationError as mistake:
        reason = mistake.reason
    if not is_asked_about(text, reading):
        problems.warn(row, "duration", f"{reason} Kept as it is written.")
    return {"duration": None, "duration_typed": text}


def is_asked_about(text: str, reading: Reading) -> bool:
    """Say whether a duration is a bare number, about which is asked once for the whole column."""
    return reading.bare_durations is None and BARE_NUMBER.fullmatch(text) is not None


def movements_in(row: Row, problems: Problems) -> tuple[MovementFacts, ...] | None:
    text = row.cells.get("movements", "")
    if not text:
        return None
    try:
        return read_movements(text if "\n" in text else re.sub(r"\s*;\s*", "\n", text))
    except MovementListError as mistake:
        problems.fail(row, "movements", mistake.reason)
        return None


def several(text: str) -> Iterable[str]:
    """Give the names in a cell, semicolons or line breaks between them; where it ends with a break, a line each.

    So a name that holds a semicolon is read back as it was written.
    """
    return (name.strip() for name in re.split(r"\n" if text.endswith("\n") else r"[;\n]", text) if name.strip())


def remarks_of(row: Row, columns: dict[str, Any], reading: Reading) -> Iterable[str]:
    """Give a line for each cell that no column of the catalogue takes, or that says more than its column holds."""
    for name, text in date_cells(row).items():
        if read_cell_date(text, reading.language).says_more:
            yield remark(name, text)
    for name in WORDS:
        if name in row.cells and name not in columns:
            yield remark(name, row.cells[name])
    for header, text in row.extra:
        yield remark(header, text)


def remark(header: str, text: str) -> str:
    """Return a line of the notes: the header and what stood below it."""
    return f"{header}: {' '.join(text.split())}"
