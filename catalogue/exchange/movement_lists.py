"""Movements as people list them: one a line, the title first, then its duration and ``attacca`` where there is one.

``I. Spring 4:05`` and ``Weir (5′15″, attacca)`` are read; a line that is nothing but a duration is a movement without
a title. What stands at the end of a line is a duration only where its unit is written.
"""

from __future__ import annotations

import re

from catalogue.facts import MovementFacts
from catalogue.timing import Duration, DurationError, Mistake, read_duration, write_duration

LONGEST_TITLE, MOST = 500, 999
ATTACCA = re.compile(r"[\s,;(\[]*\battacca\b[)\].]*\s*$", re.IGNORECASE)
DASH = re.compile(r"\s+[–—-]$")
TRIMMINGS = re.compile(r"(?:[\s,;:–—\-…(\[]|\.{2,})+$")


class MovementListError(Mistake):
    """A list of movements with a line that cannot be kept."""


def read_movements(text: str) -> tuple[MovementFacts, ...]:
    """Return the movements of a typed list, numbered from 1; empty lines are passed over. Raises MovementListError.

    >>> read_movements("I. Spring 4:05 attacca")
    (MovementFacts(number=1, title='I. Spring', duration=Duration(seconds=245, approximate=False), attacca=True),)
    """
    movements: list[MovementFacts] = []
    start = 0
    for line in text.splitlines(keepends=True):
        if line.strip():
            movements.append(read_line(line.strip(), len(movements) + 1, text, start))
        start += len(line)
    return tuple(movements)


def read_line(line: str, number: int, text: str, start: int) -> MovementFacts:
    attacca = ATTACCA.search(line)
    title, duration = split_duration(without_join(line, attacca))
    if len(title) > LONGEST_TITLE:
        raise MovementListError(f"The title of movement {number} is too long.", text, start, start + len(line))
    if number > MOST:
        raise MovementListError(f"There are more than {MOST} movements.", text, start, start + len(line))
    return MovementFacts(number, title, duration, attacca is not None)


def split_duration(line: str) -> tuple[str, Duration | None]:
    """Split off the longest end of a line that reads as a duration."""
    for gap in re.finditer(r"^|(?<=[\s(\[–—])", line):
        end = line[gap.start() :].strip(" \t,;()[]")
        try:
            duration = read_duration(end)
        except DurationError:
            continue
        if duration.seconds:
            return TRIMMINGS.sub("", line[: gap.start()]), duration
    return line.strip(), None


def without_join(line: str, attacca: re.Match[str] | None) -> str:
    """Return a line without its *attacca* and the dash before it."""
    return DASH.sub("", line[: attacca.start()]) if attacca else line


def write_movements(movements: tuple[MovementFacts, ...]) -> str:
    """Write the list as it can be typed again, one movement a line."""
    return "\n".join(write_line(movement) for movement in movements)


def write_line(movement: MovementFacts) -> str:
    duration = write_duration(movement.duration) if movement.duration else ""
    return " ".join(part for part in (movement.title, duration, "attacca" if movement.attacca else "") if part)
