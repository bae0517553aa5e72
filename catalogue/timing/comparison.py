"""Compares durations that ought to agree: movements and their total, tempo map and published duration.

Durations by metronome are a lower bound, performances are commonly 5 to 15 % longer (common practice), so a published
duration is doubted only where it differs by more than a tenth.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.timing.durations import Duration, write_duration

SUM_PERCENT = 5
MAP_PERCENT = 10


@dataclass(frozen=True, slots=True)
class Disagreement:
    """Two durations of one work that differ by more than they may."""

    stated: Duration
    reckoned: Duration

    @property
    def percent(self) -> int:
        """By how many hundredths of the stated duration the reckoned one differs, to the nearest whole; signed."""
        return round(100 * (self.reckoned.seconds - self.stated.seconds) / self.stated.seconds)

    def in_words(self, reckoned_from: str) -> str:
        """Say it in an English sentence, ``reckoned_from`` being what the duration was reckoned from.

        >>> Disagreement(Duration(600), Duration(750)).in_words("the tempo map")
        'The duration from the tempo map is 12′30″, 25 % longer than the stated 10′.'
        """
        how = "longer" if self.percent > 0 else "shorter"
        reckoned, stated = write_duration(self.reckoned), write_duration(self.stated)
        return f"The duration from {reckoned_from} is {reckoned}, {abs(self.percent)} % {how} than the stated {stated}."


def movements_disagree(stated: Duration, movements: Iterable[Duration | None]) -> Disagreement | None:
    """Return the disagreement where all movements have durations and their sum differs by more than 5 %."""
    known = list(movements)
    parts = [one for one in known if one is not None]
    if not parts or len(parts) < len(known):
        return None
    return _beyond(stated, sum(parts, Duration(0)), SUM_PERCENT)


def map_disagrees(published: Duration, reckoned: Duration) -> Disagreement | None:
    """Return the disagreement where the duration from the map differs from the published one by more than 10 %."""
    return _beyond(published, reckoned, MAP_PERCENT)


def _beyond(stated: Duration, reckoned: Duration, percent: int) -> Disagreement | None:
    difference = abs(reckoned.seconds - stated.seconds)
    return Disagreement(stated, reckoned) if 0 < stated.seconds * percent < 100 * difference else None
