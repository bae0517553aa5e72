"""What an instrumentation leaves in the index: the rows and numbers by which works are found."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import TypedDict

from catalogue.instrumentation import Instrumentation, Line, family_of


class Row(TypedDict):
    """The columns of an ``InstrumentationLine``."""

    instrument: str
    family: str
    role: str
    least_players: int | None
    most_players: int | None
    is_doubling: bool


def forces_of(reading: Instrumentation | None) -> tuple[int | None, int | None, str]:
    """Return the least and the most instrumentalists, unknown where a line is open, and the electronics."""
    if reading is None:
        return None, None, ""
    least, most = reading.players or (None, None)
    return least, most, reading.electronics


def rows_of(reading: Instrumentation | None) -> list[Row]:
    """Return the rows by which a work is found by its instruments; none where its text cannot be read."""
    return [] if reading is None else [row for line in reading for row in rows_of_line(line)]


def rows_of_line(line: Line) -> Iterator[Row]:
    """Give the section, then the chairs that play something else only, the doublings and the alternatives.

    The rows that are no doublings add up to the line's players; an alternative may be left out, so its least is none.
    """
    own = Counter(chair.plays[0] for chair in line.chairs if chair.plays and chair.plays[0] != line.instrument)
    doubled = Counter(slug for chair in line.chairs for slug in chair.plays[1:])
    elsewhere = own.total()
    least, most = line.players or (None, None)
    yield row_of(line, line.instrument, less(least, elsewhere), less(most, elsewhere))
    for slug, chairs in own.items():
        yield row_of(line, slug, chairs, chairs)
    for slug, chairs in doubled.items():
        yield row_of(line, slug, chairs, chairs, is_doubling=True)
    for slug in line.alternatives:
        yield row_of(line, slug, 0, most)


def less(players: int | None, elsewhere: int) -> int | None:
    return None if players is None else max(0, players - elsewhere)


def row_of(line: Line, slug: str, least: int | None, most: int | None, *, is_doubling: bool = False) -> Row:
    return Row(
        instrument=slug,
        family=line.family if slug == line.instrument else family_of(slug),
        role=line.role,
        least_players=least,
        most_players=most,
        is_doubling=is_doubling,
    )
