"""Writes an instrumentation with the chairs by figure in round brackets: ``3(2picc,3afl+picc).2.2(2bcl).2 – 4.2.3.1``.

A figure before an instrument is the chair that doubles it. Where a chair plays nothing else, or where the figures
could be taken for numbers of players, the bracket lists all chairs, a point before the next one and a slash before a
doubling: ``3(1.2/picc.picc)`` (common practice). Everything
else is written as in the canonical shorthand.
"""

from __future__ import annotations

from catalogue.instrumentation.chair_lists import OF_SEVERAL_SIZES
from catalogue.instrumentation.item_writing import chairs
from catalogue.instrumentation.model import Chair, Instrumentation, Line
from catalogue.instrumentation.senses import clear_name
from catalogue.instrumentation.vocabulary import instrument
from catalogue.instrumentation.writing import by_line_up


def write_chairs(instrumentation: Instrumentation) -> str:
    """Return the forces in this dress; reading it gives the same lines.

    >>> from catalogue.instrumentation.reading import read
    >>> write_chairs(read("2(II=picc).2.2.2"))
    '2(2picc).2.2.2'
    """
    return by_line_up(instrumentation, by_figure)


def by_figure(line: Line) -> str:
    """Return the doublings of a line in one bracket, nothing where nobody doubles."""
    told = [chair for chair in line.chairs if chair.plays != (line.instrument,)]
    if not told:
        return ""
    if line.note or any(chair.chair is None or chair.note for chair in line.chairs):
        return chairs(line)
    section = instrument(line.instrument).section
    if line.players == (1, 1) and told[0].plays[0] == line.instrument:
        return f"({','.join(clear_name(slug, section) for slug in told[0].plays[1:])})"
    if any(chair.plays[0] != line.instrument for chair in told) or add_up(told, line):
        return f"({'.'.join(listed(chair, line) for chair in line.chairs)})"
    return f"({','.join(f'{chair.chair}{plays(chair.plays[1:], section)}' for chair in told)})"


def add_up(told: list[Chair], line: Line) -> bool:
    """Whether the chairs' figures would be taken for numbers of players that add up to the section."""
    if line.players is None:
        return False
    figures = sum(chair.chair or 0 for chair in told)
    names = sum(len(chair.plays) - 1 for chair in told)
    bare = names - len(told) if line.instrument in OF_SEVERAL_SIZES else 0
    return (len(told) > 1 or bare > 0) and line.players[1] in (figures, figures + bare)


def listed(chair: Chair, line: Line) -> str:
    own = chair.plays[0] == line.instrument
    section = instrument(line.instrument).section
    first = str(chair.chair) if own else clear_name(chair.plays[0], section)
    return "/".join([first, *(clear_name(slug, section) for slug in chair.plays[1:])])


def plays(slugs: tuple[str, ...], section: str) -> str:
    return "+".join(clear_name(slug, section) for slug in slugs)
