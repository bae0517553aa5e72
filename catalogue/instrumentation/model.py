"""What an instrumentation is, once it has been read: lines, their chairs, and what was resolved on the way.

A line is one section, soloist, voice or device in the order of the text. Numbers of players are pairs, least and
most, because the trade writes ranges, optional players and open forces; ``None`` is a number the text leaves open.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from operator import attrgetter

Span = tuple[int, int]

ROLES = ("ensemble", "soloist", "offstage", "narrator", "conductor")
ELECTRONICS = ("none", "fixed", "live", "both", "unspecified")
UNITS = ("players", "desks")
INSTRUMENT_AND_PLAYERS = attrgetter("instrument", "players")
STRENGTHS = ("stated", "preferred", "least")


class InstrumentationError(ValueError):
    """A text that cannot be read as an instrumentation, with the place where reading stopped.

    ``reason`` is a sentence for the person who typed the text; forms show it unchanged. ``start`` and ``end`` count
    characters from 0; ``expected`` names what could stand there.
    """

    def __init__(self, reason: str, text: str, start: int, end: int, expected: tuple[str, ...] = ()) -> None:
        super().__init__(reason)
        self.reason = reason
        self.text = text
        self.start = start
        self.end = end
        self.expected = expected


@dataclass(frozen=True, slots=True)
class Remark:
    """Something that was resolved by convention, or mended, at a place of the text; ``other`` is the other reading."""

    start: int
    end: int
    code: str
    message: str
    other: str = ""

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``instrumentation`` command prints."""
        found: dict[str, object] = {"start": self.start, "end": self.end, "code": self.code, "message": self.message}
        return found | {"other": self.other} if self.other else found


@dataclass(frozen=True, slots=True)
class Chair:
    """One player's seat in a section.

    ``chair`` counts from 1 within the line and is ``None`` where the text says that somebody doubles but not who.
    ``plays`` holds slugs in the order of the text; a chair that plays only an auxiliary does not begin with the
    line's instrument.
    """

    chair: int | None
    plays: tuple[str, ...]
    note: str = ""

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``instrumentation`` command prints."""
        found: dict[str, object] = {"chair": self.chair, "plays": list(self.plays)}
        return found | {"note": self.note} if self.note else found


@dataclass(frozen=True, slots=True)
class Line:
    """One section, soloist, voice or device.

    ``players`` is (least, most), or ``None`` where the text leaves it open; an optional line begins with 0.
    ``chairs`` is empty where every player simply plays ``instrument``. ``alternatives`` are slugs of instruments that
    may stand in for the whole line. ``parts`` is the number of parts a section of voices divides into. ``unit`` and
    ``strength`` are told of strings only.
    """

    instrument: str
    family: str
    players: Span | None = (1, 1)
    role: str = "ensemble"
    chairs: tuple[Chair, ...] = ()
    optional: bool = False
    amplified: bool = False
    group: str | None = None
    note: str = ""
    unit: str | None = None
    strength: str | None = None
    alternatives: tuple[str, ...] = ()
    parts: int = 1

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``instrumentation`` command prints."""
        found: dict[str, object] = {
            "instrument": self.instrument,
            "family": self.family,
            "role": self.role,
            "players": None if self.players is None else list(self.players),
        }
        if self.unit:
            found |= {"unit": self.unit, "strength": self.strength}
        found |= {
            "chairs": [chair.to_json() for chair in self.chairs],
            "optional": self.optional,
            "amplified": self.amplified,
            "group": self.group,
            "note": self.note,
        }
        if self.alternatives:
            found["alternatives"] = list(self.alternatives)
        if self.parts != 1:
            found["parts"] = self.parts
        return found


@dataclass(frozen=True, slots=True)
class Instrumentation:
    """The forces of a work, with the text they were read from; ``alternatives`` are other line-ups that may play it."""

    lines: tuple[Line, ...]
    text: str = field(default="", compare=False)
    electronics: str = "none"
    channels: str | None = None
    convention: str = field(default="", compare=False)
    warnings: tuple[Remark, ...] = field(default=(), compare=False)
    alternatives: tuple[Instrumentation, ...] = ()

    def __hash__(self) -> int:  # quicker than of all there is: lists look up what is said of the same forces
        return hash((self.electronics, tuple(map(INSTRUMENT_AND_PLAYERS, self.lines))))

    def __iter__(self) -> Iterator[Line]:
        return iter(self.lines)

    @property
    def line_ups(self) -> tuple[Instrumentation, ...]:
        """All sets of players that may play the work, each by itself, as the text has them."""
        return (replace(self, alternatives=(), text="") if self.alternatives else self, *self.alternatives)

    @property
    def players(self) -> Span | None:
        """How many instrumentalists are needed; ``None`` when any of their lines is open or told in desks."""
        return total(line for line in self.lines if is_instrumentalist(line))

    @property
    def singers(self) -> Span | None:
        """How many singers are needed, soloists and choir together; speakers are not among them."""
        return total(line for line in self.lines if is_singer(line))

    @property
    def counted(self) -> Span:
        """How many instrumentalists the text counts, open lines left out."""
        return total(line for line in self.lines if is_instrumentalist(line) and is_counted(line)) or (0, 0)

    def to_json(self) -> dict[str, object]:
        """Return the shape that the ``instrumentation`` command prints, without the canonical shorthand."""
        found: dict[str, object] = {
            "text": self.text,
            "lines": [line.to_json() for line in self.lines],
            "players": None if self.players is None else list(self.players),
            "singers": None if self.singers is None else list(self.singers),
            "counted": list(self.counted),
            "electronics": self.electronics,
            "channels": self.channels,
            "convention": self.convention,
            "warnings": [remark.to_json() for remark in self.warnings],
        }
        return found | {"alternatives": [one.to_json() for one in self.alternatives]} if self.alternatives else found


def is_counted(line: Line) -> bool:
    """Whether the text gives the line's number in players."""
    return line.players is not None and line.unit != "desks"


def is_singer(line: Line) -> bool:
    """Whether the line is sung; speakers are voices too but do not sing."""
    return line.family == "voice" and line.instrument != "narrator"


def is_instrumentalist(line: Line) -> bool:
    """Whether the line's people play an instrument: not singers, speakers, dancers or the conductor."""
    return line.family not in ("voice", "electronics") and line.instrument not in ("conductor", "dancer")


def total(lines: Iterable[Line]) -> Span | None:
    """Return the sum of the lines' numbers, ``None`` when one of them is open."""
    least, most = 0, 0
    for line in lines:
        if line.players is None or line.unit == "desks":
            return None
        least, most = least + line.players[0], most + line.players[1]
    return least, most
