"""Tempo maps: how fast each bar of a work goes, in which metre, and in which order the bars are played.

A map is its lines in order, with their comments, and the movements that they make up. Lengths are parts of a whole
note, rates are whole notes a minute, times are seconds; all of them are fractions, so sums are exact. Reading is in
:mod:`catalogue.timing.tempo_reading`, time in :mod:`catalogue.timing.timeline`.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

NOTE_LENGTHS = {"w": Fraction(1), "h": Fraction(1, 2), "q": Fraction(1, 4), "e": Fraction(1, 8), "s": Fraction(1, 16)}


@dataclass(frozen=True, slots=True)
class Metre:
    """A metre such as 4/4 or, with several groups, 3+2/8."""

    groups: tuple[int, ...]
    unit: int

    @property
    def beats(self) -> int:
        return sum(self.groups)

    @property
    def length(self) -> Fraction:
        return Fraction(self.beats, self.unit)

    def __str__(self) -> str:
        return f"{'+'.join(map(str, self.groups))}/{self.unit}"


@dataclass(frozen=True, slots=True)
class Tempo:
    """So many notes of one value a minute: ``q.`` = 60."""

    note: str
    count: Fraction

    @property
    def length(self) -> Fraction:
        """The length of the note value, in whole notes."""
        return NOTE_LENGTHS[self.note[0]] * (Fraction(3, 2) if self.dotted else 1)

    @property
    def dotted(self) -> bool:
        return self.note.endswith(".")

    @property
    def rate(self) -> Fraction:
        """Whole notes a minute."""
        return self.count * self.length


class Change(Enum):
    """How a tempo turns into another: evenly over the notated beats, or evenly in time."""

    OVER_BEATS = ">"
    IN_TIME = ">>"


@dataclass(frozen=True, slots=True)
class Measured:
    """Bars in a metre at a tempo, which may change to another; ``hold`` seconds are added to the last beat."""

    first: int
    last: int
    metre: Metre
    tempo: Tempo
    change: Change | None = None
    towards: Tempo | None = None
    hold: Fraction = Fraction(0)

    @property
    def beat(self) -> Fraction:
        """The length of a beat: the metre's unit, or the dotted note that the tempo names where it fills the bar."""
        dotted = self.tempo.dotted and (self.metre.length / self.tempo.length).denominator == 1
        return self.tempo.length if dotted else Fraction(1, self.metre.unit)


@dataclass(frozen=True, slots=True)
class Free:
    """Bars by the clock: ``seconds`` for all of them together."""

    first: int
    last: int
    seconds: Fraction


Passage = Measured | Free


@dataclass(frozen=True, slots=True)
class Upbeat:
    """A pickup before bar 1, counted as bar 0."""

    passage: Measured


@dataclass(frozen=True, slots=True)
class Repeat:
    """Bars played ``times`` times in all; ``ending`` are the bars left out the last time.

    Two lines about the same bars say one repeat together: one its times, the other its ending.
    """

    first: int
    last: int
    times: int = 2
    ending: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Cut:
    """Bars that are not played."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class MovementMark:
    """The beginning of a movement; what follows counts its bars afresh."""

    name: str


@dataclass(frozen=True, slots=True)
class Attacca:
    """The next movement follows at once."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Seconds of silence before the next movement, no part of the duration."""

    seconds: Fraction


Statement = Measured | Free | Upbeat | Repeat | Cut | MovementMark | Attacca | Gap


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a map: what it says, if anything, and its comment."""

    statement: Statement | None
    comment: str = ""


@dataclass(frozen=True, slots=True)
class Movement:
    """A movement: its bars in order and how they are played."""

    name: str
    before: Attacca | Gap | None
    passages: tuple[Passage, ...]
    upbeat: Measured | None = None
    repeats: tuple[Repeat, ...] = ()
    cuts: tuple[Cut, ...] = ()

    @property
    def first(self) -> int:
        return 0 if self.upbeat else 1

    @property
    def last(self) -> int:
        return self.passages[-1].last if self.passages else 0


@dataclass(frozen=True, slots=True)
class TempoMap:
    """A whole map; a work without ``movement`` lines is one movement without a name."""

    lines: tuple[Line, ...]
    movements: tuple[Movement, ...]
