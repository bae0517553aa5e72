"""A tempo map that has been read, with the timeline reckoned from it: what everything that needs times is given."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from catalogue.timing.durations import Duration
from catalogue.timing.tempo_maps import TempoMap
from catalogue.timing.tempo_reading import read_tempo_map
from catalogue.timing.timeline import Timeline, duration_of, timeline


@dataclass(frozen=True, slots=True)
class Reckoned:
    """A map and its bars as they sound."""

    tempo_map: TempoMap
    line: Timeline

    @property
    def duration(self) -> Duration:
        """How long the music lasts: exact sums, rounded once to the second."""
        return duration_of(self.line.seconds)

    @property
    def has_several_movements(self) -> bool:
        return len(self.tempo_map.movements) > 1


@lru_cache(maxsize=32)
def reckon(text: str, *, gaps: bool = False) -> Reckoned | None:
    """Read a map and reckon its times; nothing where it holds no passages. Raises TempoError.

    ``gaps`` counts the silence between movements, as a clock that runs on through it does.

    >>> found = reckon("1-16  4/4  q=72")
    >>> str(found.duration) if found else ""
    '53″'
    """
    if not any(line.partition("#")[0].strip() for line in text.split("\n")):
        return None
    tempo_map = read_tempo_map(text)
    return Reckoned(tempo_map, timeline(tempo_map, gaps=gaps))
