"""Bowed strings and choirs as bodies: which lines belong together, and whether they are a section or single players.

A section is many to a part; its figures say how strong it should be. Single players (a quartet, one to a part in an
ensemble) are chairs like any other. The trade writes both with the same figures, so the size decides: a body whose
largest part has four players or more is a section (common practice; ``5.4.3.2.1`` is the smallest usual one). So many
of one instrument alone, eight cellos, are single players.
"""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.instrumentation.model import Line

BOWED = ("violin-1", "violin-2", "violin", "viola", "cello", "double-bass")
SMALLEST_SECTION = 4


def is_bowed(line: Line) -> bool:
    """Whether the line belongs to a body of bowed strings: not a soloist, not an early or electric instrument."""
    return line.instrument in BOWED and line.role in ("ensemble", "offstage")


def is_choir(line: Line) -> bool:
    """Whether the line is a part of a choir."""
    return line.instrument == "choir" or line.instrument.startswith("choir-")


def body_of(line: Line, lines: Iterable[Line]) -> tuple[Line, ...]:
    """Return the lines of bowed strings that stand in the same group and role as this one."""
    return tuple(one for one in lines if is_bowed(one) and (one.group, one.role) == (line.group, line.role))


def is_section(line: Line, lines: Iterable[Line]) -> bool:
    """Whether the line is many to a part, judged with the rest of its body.

    >>> quartet = tuple(Line(slug, "strings", unit="players") for slug in ("violin-1", "violin-2", "viola", "cello"))
    >>> is_section(quartet[0], quartet)
    False
    """
    if is_choir(line):
        return True
    body = body_of(line, lines) if is_bowed(line) else ()
    return any(map(is_said_to_be, body)) or (len(body) > 1 and any(map(has_the_size, body)))


def is_said_to_be(line: Line) -> bool:
    """Whether the way in which a number is given, or left open, is that of a section."""
    return line.players is None or line.unit == "desks" or line.strength in ("preferred", "least")


def has_the_size(line: Line) -> bool:
    if line.players is None:
        return True
    largest = line.players[1] // 2 if line.instrument == "violin" else line.players[1]
    return line.unit is not None and largest >= SMALLEST_SECTION
