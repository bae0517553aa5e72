"""The durations of a work, kept apart: published, reckoned from the tempo map, performed, recorded.

Hire fees and royalties are reckoned from one of them, so each is named (common practice). Movements are added in
seconds and rounded once. Only complete playings that took place say how long a work lasts.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.facts import PerformanceFacts, RecordingFacts, WorkFacts
from catalogue.terms import Extent, PerformanceStatus
from catalogue.timing import Disagreement, Duration, map_disagrees, movements_disagree

TOOK_PLACE = (PerformanceStatus.GIVEN, PerformanceStatus.CONFIRMED, PerformanceStatus.OLD_STYLE_DATE)


@dataclass(frozen=True, slots=True)
class Lasted:
    """How long something lasted, of several the shortest and the longest."""

    shortest: Duration
    longest: Duration
    times: int

    @classmethod
    def of(cls, durations: Iterable[Duration]) -> Lasted | None:
        known = sorted(durations)
        return cls(known[0], known[-1], len(known)) if known else None


@dataclass(frozen=True, slots=True)
class WorkDurations:
    """Every duration that is known of a work; ``movements`` is their sum where each has one.

    ``reckoned`` is the tempo map's. Of an open form ``published`` is the usual duration.
    """

    published: Duration | None
    least: Duration | None
    most: Duration | None
    movements: Duration | None
    reckoned: Duration | None
    performed: Lasted | None
    recorded: Lasted | None

    @property
    def warnings(self) -> tuple[str, ...]:
        """Say where the movements differ by more than 5 %, or the tempo map by more than 10 %, from that."""
        if self.published is None:
            return ()
        of_movements = self.movements and movements_disagree(self.published, [self.movements])
        found = ((of_movements, "the movements"), (self.map_disagreement, "the tempo map"))
        return tuple(one.in_words(source) for one, source in found if one)

    @property
    def map_disagreement(self) -> Disagreement | None:
        """The published duration beside the tempo map's; none where that lies within what an open form allows."""
        if self.published is None or self.reckoned is None:
            return None
        least, most = self.least or self.published, self.most or self.published
        if least.seconds <= self.reckoned.seconds <= most.seconds:
            return None
        return map_disagrees(self.published, self.reckoned)


def durations_of(
    work: WorkFacts,
    *,
    reckoned: Duration | None = None,
    performances: Iterable[PerformanceFacts] = (),
    recordings: Iterable[RecordingFacts] = (),
) -> WorkDurations:
    """Return what is known of how long a work lasts."""
    return WorkDurations(
        published=work.duration,
        least=work.least_duration,
        most=work.most_duration,
        movements=sum_of_movements(work),
        reckoned=reckoned,
        performed=Lasted.of(performed(work, performances)),
        recorded=Lasted.of(one.duration for one in recordings if one.work_id == work.id and one.duration),
    )


def sum_of_movements(work: WorkFacts) -> Duration | None:
    """Return the sum in seconds, none where a movement has no duration."""
    known = [movement.duration for movement in work.movements if movement.duration]
    return sum(known, Duration(0)) if known and len(known) == len(work.movements) else None


def performed(work: WorkFacts, performances: Iterable[PerformanceFacts]) -> list[Duration]:
    return [
        item.duration
        for performance in performances
        if performance.status in TOOK_PLACE
        for item in performance.programme
        if item.work_id == work.id and item.duration and item.extent is Extent.COMPLETE
    ]
