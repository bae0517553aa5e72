"""Which performances a document speaks of: those that were given or are certain, with the claims reckoned for them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from catalogue.facts import CatalogueFacts, PerformanceFacts, ProgrammedFacts
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
    def reckoned(self) -> tuple[str, ...]:
        return self.claim.reckoned if self.claim else ()

    @property
    def proved(self) -> bool:
        return self.claim is None or self.claim.proved


def hearings(catalogue: CatalogueFacts, claims: Claims) -> dict[int, tuple[Hearing, ...]]:
    """The dated public performances of each work by its id, earliest first; a work without any has no key."""
    found: dict[int, list[Hearing]] = defaultdict(list)
    for performance in catalogue.performances:
        if performance.date is None or not public(performance):
            continue
        for programmed in performance.programme:
            hearing = Hearing(performance, programmed, performance.date, claims.get(programmed.id))
            found[programmed.work_id].append(hearing)
    return {work: tuple(sorted(heard, key=in_order)) for work, heard in found.items()}


def public(performance: PerformanceFacts) -> bool:
    return performance.status in CERTAIN and performance.kind in PERFORMED and performance.audience is Audience.PUBLIC


def in_order(hearing: Hearing) -> tuple[PartialDate, int, int]:
    return (hearing.date, hearing.performance.id, hearing.programmed.id)


def premiere(heard: tuple[Hearing, ...]) -> Hearing | None:
    """The first performance of the work, or of this version of it, as reckoned."""
    for code in ("world", "version"):
        for hearing in heard:
            if code in hearing.reckoned:
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
    """First performances in other countries, in order of date."""
    return tuple(hearing for hearing in heard if "national" in hearing.reckoned and hearing is not first)
