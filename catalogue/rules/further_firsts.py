"""What a playing was besides a premiere: the first on its continent, the first broadcast, the second performance.

These are told beside what :mod:`catalogue.rules.premieres` reckons and change nothing in it. The rules are the same:
only complete, public playings that took place count, overlapping dates leave the order unknown, and since other
performances may be missing from a catalogue all of them mean "in these records".
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from catalogue.facts import CatalogueFacts
from catalogue.rules.continents import continent_of
from catalogue.rules.firsts import Contest, contest, contest_by
from catalogue.rules.playings import NO_DATE, Playing, Standing, playings_of
from catalogue.rules.premiere_terms import premiere_term
from catalogue.terms import PerformanceKind


class Further(StrEnum):
    CONTINENT = "continent"
    BROADCAST = "broadcast"
    SECOND = "second"


@dataclass(frozen=True, slots=True)
class FurtherFirst:
    """``place`` is the continent where it was the first there."""

    what: Further
    place: str = ""

    def in_words(self, language: str) -> str:
        return premiere_term(self.what, language, place=self.place)


def further_firsts(catalogue: CatalogueFacts, *, today: date) -> dict[int, tuple[FurtherFirst, ...]]:
    """Return what each playing was besides, by the id of the programmed work; playings without any are left out."""
    families: dict[int, list[Playing]] = defaultdict(list)
    for playing in playings_of(catalogue, today=today):
        if playing.complete:
            families[playing.family].append(playing)
    found: dict[int, list[FurtherFirst]] = defaultdict(list)
    for family in families.values():
        past = [one for one in family if one.standing is Standing.HAPPENED]
        for id_, first in firsts_of_family(past, undated=any(one.why_not == NO_DATE for one in family)):
            found[id_].append(first)
    return {id_: tuple(firsts) for id_, firsts in found.items()}


def firsts_of_family(family: Sequence[Playing], *, undated: bool) -> list[tuple[int, FurtherFirst]]:
    """Return what playings that took place were; ``undated`` where the work was also played on an unknown day."""
    opening = contest(family)
    by_continent = contest_by(family, lambda one: continent_of(one.event.country))
    broadcasts = contest(one for one in family if one.event.kind is PerformanceKind.BROADCAST)
    continents = [
        (one.item.id, FurtherFirst(Further.CONTINENT, continent_of(one.event.country)))
        for one in family
        if one.item.id in by_continent.holders - opening.holders
    ]
    told = (
        (Further.BROADCAST, broadcasts.holders - opening.holders),
        (Further.SECOND, frozenset[int]() if undated else seconds(family, opening)),
    )
    return [*continents, *((id_, FurtherFirst(what)) for what, ids in told for id_ in sorted(ids))]


def seconds(family: Sequence[Playing], opening: Contest) -> frozenset[int]:
    """Return who came next after one settled first performance; nobody where two share it or an order is unknown."""
    if opening.undecided or len(opening.holders) != 1:
        return frozenset()
    later = contest(one for one in family if one.item.id not in opening.holders)
    return later.holders if len(later.holders) == 1 and not later.undecided else frozenset()
