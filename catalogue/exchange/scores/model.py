"""What a MusicXML file says of a score, as plain values: bars in the order in which they are written, parts, credits.

Lengths are in quarter notes, tempi in quarter notes a minute, both exact.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction


class ScoreError(ValueError):
    """A file that cannot be read as a score; ``reason`` is a sentence for the person who gave it."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


@dataclass(frozen=True, slots=True)
class TempoMark:
    """A tempo from a place in its bar on; ``at`` is in quarter notes from the bar line.

    A metric modulation gives ``ratio`` instead: the new tempo is the old one times this.
    """

    at: Fraction
    tempo: Fraction | None = None
    ratio: Fraction | None = None


@dataclass(slots=True)
class Bar:
    """One bar as it is written.

    ``quarters`` is what sounds in it, ``metre`` what its time signature asks for (``None`` before the first one);
    ``falls_short`` says that the parts read so far do not fill it.
    ``repeats`` is how often the passage that ends here is played in all, 0 where nothing ends. ``ending`` are the
    times for which an ending that begins here is played; ``in_ending`` says that the bar belongs to one.
    ``segno`` and ``coda`` are labels, ``""`` for a sign without one and ``None`` for no sign.
    """

    number: str
    quarters: Fraction = Fraction(0)
    falls_short: bool = True
    metre: tuple[int, int] | None = None
    tempi: list[TempoMark] = field(default_factory=list)
    opens_repeat: bool = False
    repeats: int = 0
    repeats_after_jump: bool = False
    ending: tuple[int, ...] = ()
    ending_closes: bool = False
    final: bool = False
    segno: str | None = None
    coda: str | None = None
    to_coda: str | None = None
    da_capo: bool = False
    dal_segno: str | None = None
    fine: bool = False


@dataclass(frozen=True, slots=True)
class PlayedInstrument:
    """One instrument that a part declares: its id in the file, name, MusicXML sound id and General MIDI program."""

    id: str
    name: str = ""
    sound: str = ""
    program: int | None = None
    unpitched: bool = False


@dataclass(frozen=True, slots=True)
class Change:
    """A change of instrument within a part: a name, or a MusicXML sound id.

    ``chair`` is that of the player who is told, 0 where none is named. ``is_certain`` where the words ask for nothing
    else: "take" and "to" are said of much.
    """

    instrument: str
    chair: int = 0
    is_certain: bool = False


@dataclass(slots=True)
class Part:
    """One part of the score; ``used`` are the ids of its instruments in the order in which they first play."""

    id: str
    name: str = ""
    abbreviation: str = ""
    instruments: list[PlayedInstrument] = field(default_factory=list)
    used: list[str] = field(default_factory=list)
    changes: list[Change] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Creator:
    """Somebody whom the file names: ``kind`` is the file's word (composer, lyricist, arranger), often empty."""

    name: str
    kind: str = ""


@dataclass(slots=True)
class Score:
    """All that is read of a score file, before anything is reckoned from it."""

    title: str = ""
    movement: str = ""
    creators: list[Creator] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    bars: list[Bar] = field(default_factory=list)
    tempo_words: list[str] = field(default_factory=list)
    gradual_words: list[str] = field(default_factory=list)
    fermatas: int = 0
