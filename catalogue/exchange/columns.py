"""Which column of a spreadsheet is which, by its header; ``columns.toml`` lists what people write."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from catalogue.exchange.tables import Table, TableError, filled_rows
from catalogue.rules.search import fold

ROWS_ABOVE_HEADER = 15
LINES = ("movements", "commissioned_by")
LEFT_OUT = "-"


class Kind(StrEnum):
    """What the rows of a table are."""

    WORKS = "works"
    PERFORMANCES = "performances"


READ_ONLY = {"place"}
# Written only where some record has one.
WHERE_NEEDED = {Kind.WORKS: "version", Kind.PERFORMANCES: "country_then"}

# One of these has to be there, or there is nothing to keep.
NEEDED = {Kind.WORKS: ("title",), Kind.PERFORMANCES: ("work", "date")}
# What one kind of table has and the other has not.
TELLING = {
    Kind.WORKS: {"instrumentation", "duration", "movements", "catalogue_number", "category", "year", "text_author"},
    Kind.PERFORMANCES: {
        "venue",
        "place",
        "city",
        "performers",
        "timezone",
        "presenter",
        "extent",
        "audience",
        "country",
    },
}


@dataclass(frozen=True, slots=True)
class Heading:
    """A header row: which column stands at which position, as it is written, and what is not known.

    What stands at the positions ``left_out`` is not taken in at all.
    """

    kind: Kind
    row: int
    known: dict[int, str]
    written: dict[str, str]
    unknown: dict[int, str]
    left_out: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Row:
    """One row below the header: what stands in its known columns, and in the others under their headers."""

    number: int
    cells: dict[str, str]
    extra: tuple[tuple[str, str], ...]


def exported_columns(kind: Kind, *, all_of_them: bool) -> tuple[str, ...]:
    """Return the columns in their order, with or without the one that is written only where it is needed."""
    left_out = READ_ONLY if all_of_them else READ_ONLY | {WHERE_NEEDED[kind]}
    return tuple(column for column in column_names(kind) if column not in left_out)


def column_names(kind: Kind) -> tuple[str, ...]:
    """Return the columns of a kind in the order of the table."""
    return tuple(dict.fromkeys(headers_of(kind).values()))


@cache
def headers_of(kind: Kind) -> dict[str, str]:
    """Return the columns by every header that means them."""
    table = tomllib.loads((files("catalogue.exchange") / "columns.toml").read_text(encoding="utf-8"))[kind]
    return {header: column for column, headers in table.items() for header in (bare(column), *headers)}


def bare(header: str) -> str:
    """Return a header as it is compared: folded, words only.

    >>> bare("Catalogue_No.")
    'catalogue no'
    """
    return " ".join(re.findall(r"[^\W_]+", fold(header)))


def find_heading(table: Table, kind: Kind | None) -> Heading:
    """Return the header row of a table, which may have titles above it. Raises TableError."""
    first_rows = [(number, row) for number, row in filled_rows(table) if number <= ROWS_ABOVE_HEADER]
    kinds = [kind] if kind else list(Kind)
    headings = [heading_of(number, row, one) for number, row in first_rows for one in kinds]
    usable = [one for one in headings if is_usable(one)]
    if not usable:
        wanted = " or ".join(f"“{NEEDED[one][0]}”" for one in kinds)
        raise TableError(f"No column is called {wanted}; the first row has to name the columns.", 1)
    return max(usable, key=lambda one: (weight(one), -one.row))


def heading_of(number: int, row: Sequence[str], kind: Kind) -> Heading:
    names = headers_of(kind)
    known: dict[int, str] = {}
    unknown: dict[int, str] = {}
    for position, header in enumerate(row):
        column = names.get(bare(header), "")
        if column and column not in known.values():
            known[position] = column
        elif header.strip():
            unknown[position] = header.strip()
    written = {column: row[position].strip() for position, column in known.items()}
    return Heading(kind, number, known, written, unknown)


def rearranged(heading: Heading, row: Sequence[str], chosen: Mapping[int, str]) -> Heading:
    """Return the heading with columns chosen by hand: by position a column, nothing for a note, or ``LEFT_OUT``."""
    columns = {**{place: heading.known.get(place, "") for place in range(len(row))}, **chosen}
    names = column_names(heading.kind)
    known: dict[int, str] = {}
    for place in sorted(columns, key=lambda one: (one not in chosen, one)):
        if columns[place] in names and columns[place] not in known.values():
            known[place] = columns[place]
    left_out = frozenset(place for place, column in columns.items() if column == LEFT_OUT)
    headers = {place: row[place].strip() if place < len(row) else "" for place in columns}
    unknown = {place: header for place, header in headers.items() if header and place not in {*known, *left_out}}
    written = {column: headers[place] or f"Column {letters(place)}" for place, column in known.items()}
    return Heading(heading.kind, heading.row, known, written, unknown, left_out)


def is_usable(heading: Heading) -> bool:
    return any(column in heading.known.values() for column in NEEDED[heading.kind])


def weight(heading: Heading) -> tuple[int, int, int]:
    """Return how well a row serves as the header of a kind: columns known, those by their own names, telling ones."""
    columns = set(heading.known.values())
    by_own_name = sum(bare(written) == bare(column) for column, written in heading.written.items())
    return len(columns), by_own_name, len(columns & TELLING[heading.kind])


def rows_below(table: Table, heading: Heading) -> Iterator[Row]:
    """Give the rows that are not empty; cells under no header are extra ones, named by their letter."""
    for number, cells in filled_rows(table):
        if number <= heading.row:
            continue
        text = [cell.strip() for cell in cells]
        known = {column: text[place] for place, column in heading.known.items() if place < len(text) and text[place]}
        # A line break at its end tells a list of lines, in which semicolons divide nothing.
        known |= {name: f"{known[name]}\n" for name in LINES if name in known and cells_end(cells, heading, name)}
        taken = {*heading.known, *heading.left_out}
        others = ((place, cell) for place, cell in enumerate(text) if cell and place not in taken)
        extra = tuple((heading.unknown.get(place) or f"Column {letters(place)}", cell) for place, cell in others)
        yield Row(number, known, extra)


def cells_end(cells: Sequence[str], heading: Heading, column: str) -> bool:
    place = next(place for place, name in heading.known.items() if name == column)
    return cells[place].rstrip(" \t").endswith("\n")


def letters(position: int) -> str:
    """Return the letters of a column counted from 0, as spreadsheet programs show them.

    >>> letters(0), letters(27)
    ('A', 'AB')
    """
    text, rest = "", position + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        text = chr(ord("A") + letter) + text
    return text
