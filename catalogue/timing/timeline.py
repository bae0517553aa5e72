"""The bars of a map in the order in which they sound, each with its moment.

Everything that needs to know when a bar sounds asks here: places and cues, clicks, MIDI files, durations. The silence
that a ``gap`` asks for between movements is no part of the duration; a timeline leaves it out, unless it is made with
``gaps=True``, for a clock that runs on through it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise
from math import floor

from catalogue.timing.durations import Duration
from catalogue.timing.motion import Motion, motion_of
from catalogue.timing.tempo_maps import Free, Gap, Measured, Metre, Movement, Passage, TempoMap
from catalogue.timing.tempo_structure import played_bars


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar as it is written: how long it lasts and when its beats come, counted from its own beginning.

    It lies ``offset`` whole notes, or ``before`` seconds, into its passage's motion. A hold stretches the last beat
    evenly. A free bar has no metre, motion or beats.
    """

    number: int
    seconds: Fraction
    metre: Metre | None = None
    beat: Fraction = Fraction(0)
    motion: Motion | None = None
    offset: Fraction = Fraction(0)
    before: Fraction = Fraction(0)
    hold: Fraction = Fraction(0)

    @property
    def length(self) -> Fraction:
        """Whole notes; nothing for a free bar."""
        return self.metre.length if self.metre else Fraction(0)

    @property
    def beats(self) -> int:
        """How many beats begin in the bar."""
        return -floor(-self.length / self.beat) if self.beat else 0

    @property
    def last_beat(self) -> Fraction:
        """Where the last beat begins, in whole notes."""
        return self.beat * (self.beats - 1) if self.beats else Fraction(0)

    def moment(self, position: Fraction) -> Fraction:
        """Return the seconds from the beginning of the bar to a position in whole notes."""
        if not position:
            return position
        unheld = self._unheld(position)
        if not self.hold or position <= self.last_beat:
            return unheld
        begins, ends = self._unheld(self.last_beat), self._unheld(self.length)
        return unheld + self.hold * (unheld - begins) / (ends - begins)

    def _unheld(self, position: Fraction) -> Fraction:
        if self.motion is None:
            return Fraction(0)
        if self.motion.steady:
            return self.motion.seconds(position)
        return self.motion.seconds(self.offset + position) - self.before

    def position(self, moment: Fraction) -> Fraction:
        """Return the position in whole notes at seconds from the beginning of the bar."""
        if self.motion is None:
            return Fraction(0)
        if self.hold:
            begins, ends = self._unheld(self.last_beat), self._unheld(self.length)
            if moment > begins:
                moment = begins + (moment - begins) * (ends - begins) / (ends - begins + self.hold)
        return self.motion.position(self.before + moment) - self.offset


@dataclass(frozen=True, slots=True)
class PlayedBar:
    """A bar as it sounds: in which movement (from 1), for which time (from 1), and when."""

    movement: int
    bar: Bar
    time: int
    start: Fraction

    @property
    def end(self) -> Fraction:
        return self.start + self.bar.seconds


@dataclass(frozen=True, slots=True)
class Timeline:
    """All bars of a map as they sound, and how long each movement lasts."""

    bars: tuple[PlayedBar, ...]
    movements: tuple[Fraction, ...]
    by_number: dict[tuple[int, int], list[PlayedBar]] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        by_number: dict[tuple[int, int], list[PlayedBar]] = {}
        for one in self.bars:
            by_number.setdefault((one.movement, one.bar.number), []).append(one)
        object.__setattr__(self, "by_number", by_number)

    def playings(self, movement: int, number: int) -> Sequence[PlayedBar]:
        """Return a bar of a movement, both counted from 1, each time that it sounds; nothing where it never does."""
        return self.by_number.get((movement, number), ())

    @property
    def end(self) -> Fraction:
        """When the last bar ends, gaps counted where the timeline has them."""
        return self.bars[-1].end if self.bars else Fraction(0)

    @property
    def seconds(self) -> Fraction:
        """How long the music lasts: the sum of its movements, without gaps."""
        return sum(self.movements, Fraction(0))

    def at(self, seconds: Fraction) -> PlayedBar | None:
        """Return the bar that sounds at a time, the last one at the very end; none in a gap or outside."""
        index = bisect_right(self.bars, seconds, key=lambda played: played.start) - 1
        if index < 0 or seconds > self.bars[index].end:
            return None
        return self.bars[index]


def timeline(tempo_map: TempoMap, *, gaps: bool = False) -> Timeline:
    """Return the bars of a map in order of sounding, with their times in exact fractions of a second."""
    played: list[PlayedBar] = []
    movements: list[Fraction] = []
    now = Fraction(0)
    for number, movement in enumerate(tempo_map.movements, start=1):
        now += _gap_before(movement) if gaps else 0
        begun = now
        bars = {bar.number: bar for bar in written_bars(movement)}
        times: dict[int, int] = {}
        for bar_number in played_bars(movement):
            times[bar_number] = times.get(bar_number, 0) + 1
            played.append(PlayedBar(number, bars[bar_number], times[bar_number], now))
            now = played[-1].end
        movements.append(now - begun)
    return Timeline(tuple(played), tuple(movements))


def _gap_before(movement: Movement) -> Fraction:
    return movement.before.seconds if isinstance(movement.before, Gap) else Fraction(0)


def written_bars(movement: Movement) -> list[Bar]:
    """Return the bars of a movement as written, the upbeat first."""
    passages = ((movement.upbeat,) if movement.upbeat else ()) + movement.passages
    return [bar for passage in passages for bar in _bars(passage)]


def _bars(passage: Passage) -> list[Bar]:
    numbers = range(passage.first, passage.last + 1)
    if isinstance(passage, Free):
        return [Bar(number, passage.seconds / len(numbers)) for number in numbers]
    motion = motion_of(passage)
    bars = _steady_bars(passage, motion) if motion.steady else _changing_bars(passage, motion)
    if passage.hold:
        bars[-1] = replace(bars[-1], seconds=bars[-1].seconds + passage.hold, hold=passage.hold)
    return bars


def _steady_bars(passage: Measured, motion: Motion) -> list[Bar]:
    """Return bars that all last as long as the first."""
    metre, beat, length = passage.metre, passage.beat, passage.metre.length
    seconds = motion.seconds(length)
    return [
        Bar(number, seconds, metre, beat, motion, length * index, seconds * index)
        for index, number in enumerate(range(passage.first, passage.last + 1))
    ]


def _changing_bars(passage: Measured, motion: Motion) -> list[Bar]:
    numbers, length, beat = range(passage.first, passage.last + 1), passage.metre.length, passage.beat
    offsets = [length * index for index in range(len(numbers) + 1)]
    written = zip(numbers, offsets, pairwise(motion.seconds(offset) for offset in offsets), strict=False)
    return [
        Bar(number, until - begins, passage.metre, beat, motion, offset, begins)
        for number, offset, (begins, until) in written
    ]


def duration_of(seconds: Fraction) -> Duration:
    """Return a reckoned time as a duration, to the nearest second."""
    return Duration(floor(seconds + Fraction(1, 2)))
