"""Which performances a document speaks of: those that were given or are certain, with the claims reckoned for them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.facts import CatalogueFacts, PerformanceFacts, ProgrammedFacts
from catalogue.rules.overrides import Override
from catalogue.rules.premieres import Claim
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus
from catalogue.timing import PartialDate

Claims = Mapping[int, Claim]
"""The claim of each programmed work, by the id of its :class:`ProgrammedFacts`; most have none."""

CERTAIN = (PerformanceStatus.GIVEN, PerformanceStatus.CONFIRMED)
PERFORMED = (
    PerformanceKind.CONCERT,
    PerformanceKind.STAGE,
    PerformanceKind.BROADCAST,
    PerformanceKind.STUDENT_RECITAL,
    PerformanceKind.INSTALLATION,
)


@dataclass(frozen=True, slots=True)
class Hearing:
    """One work in one event, with its claim."""

    performance: PerformanceFacts
    programmed: ProgrammedFacts
    date: PartialDate
    claim: Claim | None

    @property
    def titles(self) -> tuple[str, ...]:
        return self.claim.titles if self.claim else ()

    @property
    def override(self) -> Override | None:
        return self.claim.overridden if self.claim else None

    @property
    def proved(self) -> bool:
        return self.claim is None or self.override is not None or self.claim.proved


def hearings(catalogue: CatalogueFacts, claims: Claims) -> dict[int, tuple[Hearing, ...]]:
    """The dated public performances of each work by its id, earliest first; a work without any has no key.

    One that was not public stands among them where somebody has set by hand what it was the first of.
    """
    found: dict[int, list[Hearing]] = defaultdict(list)
    for performance in catalogue.performances:
        if performance.date is None or performance.status not in CERTAIN:
            continue
        for programmed in performance.programme:
            hearing = Hearing(performance, programmed, performance.date, claims.get(programmed.id))
            if public(performance) or (hearing.override and hearing.override.claims_a_first):
                found[programmed.work_id].append(hearing)
    return {work: tuple(sorted(heard, key=in_order)) for work, heard in found.items()}


def public(performance: PerformanceFacts) -> bool:
    return performance.kind in PERFORMED and performance.audience is Audience.PUBLIC


def in_order(hearing: Hearing) -> tuple[PartialDate, int, int]:
    return (hearing.date, hearing.performance.id, hearing.programmed.id)


def premiere(heard: tuple[Hearing, ...]) -> Hearing | None:
    """The first performance of the work, or of this version of it: set by hand, else as reckoned."""
    by_hand_first = sorted(heard, key=lambda hearing: hearing.override is None)
    for code in ("world", "version"):
        for hearing in by_hand_first:
            if code in hearing.titles:
                return hearing
    return None


def first_in_public(heard: tuple[Hearing, ...], broadcast: Hearing) -> Hearing | None:
    """The first performance before an audience in the room, where the premiere was a broadcast."""
    return next(
        (
            hearing
            for hearing in heard
            if hearing.performance.kind is not PerformanceKind.BROADCAST
            and hearing.programmed.extent is Extent.COMPLETE
            and hearing.date > broadcast.date
        ),
        None,
    )


def later_firsts(heard: tuple[Hearing, ...], first: Hearing | None) -> tuple[Hearing, ...]:
    """First performances in other countries, and what else was set by hand as a first, in order of date."""
    told = (hearing for hearing in heard if hearing is not first)
    return tuple(
        hearing
        for hearing in told
        if (hearing.override.claims_a_first if hearing.override else "national" in hearing.titles)
    )
