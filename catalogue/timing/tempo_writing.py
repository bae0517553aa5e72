"""Writes a tempo map in its canonical form: what it reads back as is equal to what was written."""

from __future__ import annotations

from fractions import Fraction

from catalogue.timing.tempo_maps import (
    Attacca,
    Cut,
    Free,
    Gap,
    Line,
    Measured,
    MovementMark,
    Repeat,
    Statement,
    Tempo,
    TempoMap,
    Upbeat,
)


def write_tempo_map(tempo_map: TempoMap) -> str:
    """Return the text of a map, its lines and comments in their order, the columns under each other."""
    return "".join(f"{_line(line)}\n" for line in tempo_map.lines)


def _line(line: Line) -> str:
    parts = [_statement(line.statement)] if line.statement else []
    if line.comment:
        parts.append(f"# {line.comment}")
    return "  ".join(parts)


def _statement(statement: Statement) -> str:  # one line a kind of statement
    match statement:
        case Measured():
            return f"{bars(statement.first, statement.last):<7} {_motion(statement)}"
        case Free():
            return f"{bars(statement.first, statement.last):<7} free {number(statement.seconds)}"
        case Upbeat():
            return f"upbeat  {_motion(statement.passage)}"
        case Repeat():
            return _repeat(statement)
        case Cut():
            return f"cut {bars(statement.first, statement.last)}"
        case MovementMark():
            return f'movement "{statement.name}"' if statement.name else "movement"
        case Attacca():
            return "attacca"
        case Gap():
            return f"gap {number(statement.seconds)}"


def _motion(passage: Measured) -> str:
    parts = [f"{passage.metre!s:<5}", tempo(passage.tempo)]
    if passage.change and passage.towards:
        parts += [passage.change.value, tempo(passage.towards)]
    if passage.hold:
        parts.append(f" hold {number(passage.hold)}")
    return " ".join(parts)


def _repeat(repeat: Repeat) -> str:
    times = f" x{repeat.times}" if repeat.times != 2 else ""
    ending = f" last {bars(*repeat.ending)}" if repeat.ending else ""
    return f"repeat {bars(repeat.first, repeat.last)}{times}{ending}"


def bars(first: int, last: int) -> str:
    return str(first) if first == last else f"{first}-{last}"


def tempo(one: Tempo) -> str:
    return f"{one.note}={number(one.count)}"


def number(value: Fraction) -> str:
    """Return a number of at most six decimals, as maps have them, without needless noughts.

    >>> number(Fraction(145, 2)), number(Fraction(45))
    ('72.5', '45')
    """
    whole, millionths = divmod(int(value * 1_000_000), 1_000_000)
    return f"{whole}.{millionths:06}".rstrip("0").rstrip(".")
