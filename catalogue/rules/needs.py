"""What a performance that is to come still lacks, and by when it is usually asked for.

The lead times are in ``needs.toml``.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import cache
from importlib.resources import files

from catalogue.facts import PerformanceFacts
from catalogue.instrumentation import Instrumentation
from catalogue.terms import PerformanceStatus


class Need(StrEnum):
    """What is not known yet; STRENGTHS are the numbers of string players where the score leaves them open."""

    CONFIRMATION = "confirmation"
    DAY = "day"
    PLACE = "place"
    PROGRAMME = "programme"
    PERFORMERS = "performers"
    TIME = "time"
    CLOCKS = "clocks"
    STRENGTHS = "strengths"


@dataclass(frozen=True, slots=True)
class Due:
    """A need, and the day by which it is usually met."""

    need: Need
    day: date


def needs_of(event: PerformanceFacts, *, strings_are_open: bool = False) -> tuple[Due, ...]:
    """Return what a dated event lacks, the most urgent first; nothing of an event without a date.

    ``strings_are_open`` says that a work on its programme leaves the number of string players to the house.
    """
    if event.date is None:
        return ()
    first = event.date.first
    found = (Due(need, first - timedelta(weeks=weeks_before()[need])) for need in lacking(event, strings_are_open))
    return tuple(sorted(found, key=lambda due: due.day))


def lacking(event: PerformanceFacts, strings_are_open: bool) -> Iterator[Need]:
    known = {
        Need.CONFIRMATION: event.status is not PerformanceStatus.PLANNED,
        Need.DAY: event.date is not None and event.date.exact is not None,
        Need.PLACE: bool(event.city and (event.venue or event.event_title)),
        Need.PROGRAMME: bool(event.programme),
        Need.PERFORMERS: bool(event.performers),
        Need.TIME: event.time is not None,
        Need.CLOCKS: event.time is None or bool(event.zone),
        Need.STRENGTHS: not strings_are_open or bool(event.string_strengths),
    }
    return (need for need in Need if not known[need])


def has_open_strings(forces: Instrumentation | None) -> bool:
    """Say whether the score leaves the number of string players open."""
    return forces is not None and any(line.family == "strings" and line.players is None for line in forces.lines)


@cache
def weeks_before() -> dict[Need, int]:
    """Return how many weeks before the performance each need is usually asked for, from ``needs.toml``."""
    table = tomllib.loads((files("catalogue.rules") / "needs.toml").read_text(encoding="utf-8"))
    return {Need(word): weeks for word, weeks in table["weeks"].items()}
