"""How many strings a set is made up for, and who says so."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.facts import PerformanceFacts, WorkFacts


@dataclass(frozen=True, slots=True)
class Strengths:
    """The players of each section, first violins to basses, and their ``source``: set, performance, work, default."""

    players: tuple[int, ...]
    source: str


def strengths_of(
    work: WorkFacts,
    performances: Iterable[PerformanceFacts] = (),
    *,
    of_set: tuple[int, ...] = (),
    usual: tuple[int, ...] = (),
) -> Strengths:
    """Return the strengths that hold, and from where; of several performances the first that states any.

    What the composer usually reckons with holds only where the forces leave the number of strings open.
    """
    if of_set:
        return Strengths(of_set, "set")
    stated = next((one.string_strengths for one in performances if one.string_strengths), ())
    if stated:
        return Strengths(stated, "performance")
    if work.string_strengths:
        return Strengths(work.string_strengths, "work")
    forces = work.instrumentation
    is_open = forces is not None and any(line.family == "strings" and line.players is None for line in forces.lines)
    return Strengths(usual, "default") if is_open else Strengths((), "work")
