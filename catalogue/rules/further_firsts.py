"""What a playing was besides a premiere: the first on its continent or in its region, by broadcast, the second.

These are told beside what :mod:`catalogue.rules.premieres` reckons and change nothing in it. The rules are the same:
only complete, public playings that took place count, overlapping dates leave the order unknown, and since other
performances may be missing from a catalogue all of them mean "in these records". What was the first of its country is
not told as the first of a region there too; a region is the one that the hall names.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from catalogue.facts import CatalogueFacts
from catalogue.rules.billing import Scope
from catalogue.rules.continents import continent_of
from catalogue.rules.firsts import Contest, contest, contest_by
from catalogue.rules.playings import NO_DATE, Playing, Standing, playings_of
from catalogue.rules.premiere_terms import premiere_term
from catalogue.rules.premiere_wording import billing_of
from catalogue.rules.search import fold
from catalogue.terms import PerformanceKind

STEM = 4  # letters that a region and what belongs to it share: Scotland, Scottish


class Further(StrEnum):
    CONTINENT = "continent"
    REGION = "region"
    BROADCAST = "broadcast"
    SECOND = "second"


@dataclass(frozen=True, slots=True)
class FurtherFirst:
    """``place`` is the continent or the region where it was the first there; ``billed`` where it was called so."""

    what: Further
    place: str = ""
    billed: bool = False

    def in_words(self, language: str) -> str:
        return premiere_term(f"{self.what}_billed" if self.billed else self.what, language, place=self.place)


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
    regional = regional_firsts(family)
    regions = [
        (one.item.id, FurtherFirst(Further.REGION, one.region, is_billed_so(one)))
        for one in family
        if one.item.id in regional
    ]
    told = (
        (Further.BROADCAST, broadcasts.holders - opening.holders),
        (Further.SECOND, frozenset[int]() if undated else seconds(family, opening)),
    )
    return [*continents, *regions, *((id_, FurtherFirst(what)) for what, ids in told for id_ in sorted(ids))]


def regional_firsts(family: Sequence[Playing]) -> frozenset[int]:
    """Return who came first in a region, but not in its country."""
    nationally = contest_by(family, lambda one: one.state)
    return contest_by(family, lambda one: one.region_key).holders - nationally.holders


def is_billed_so(playing: Playing) -> bool:
    """Say whether the billing claims this very region: by its name, or a word of the same stem ("Scottish")."""
    billing = billing_of(playing)
    stem = fold(playing.region)[:STEM]
    named = any(word.startswith(stem) for word in fold(playing.item.billing).split())
    return billing is not None and billing.scope is Scope.REGION and named


def seconds(family: Sequence[Playing], opening: Contest) -> frozenset[int]:
    """Return who came next after one settled first performance; nobody where two share it or an order is unknown."""
    if opening.undecided or len(opening.holders) != 1:
        return frozenset()
    later = contest(one for one in family if one.item.id not in opening.holders)
    return later.holders if len(later.holders) == 1 and not later.undecided else frozenset()
