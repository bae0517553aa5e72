"""The set of material for a work: which parts go into the box, in score order, and how many copies of each.

One part a player for winds, brass, percussion, harp and keyboards, what a player also plays being in the same
part; section strings one copy a desk of two, an odd player having a desk of his own; choir one copy a singer.
Numbers begin with 00 for the score, so that files and covers sort in score order. Common practice of orchestra
libraries.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from catalogue.instrumentation.model import Instrumentation, Line
from catalogue.instrumentation.vocabulary import score_order

SECTIONS = ("violin-1", "violin-2", "viola", "cello", "double-bass")
FAMILIES = ("woodwind", "brass", "percussion", "plucked", "keyboard", "other", "solo", "voice", "strings")
HANDS = re.compile(r"(\d+) hands(?: at (\d+))?")
WITHOUT_PART = ("conductor", "dancer")


class Kind(StrEnum):
    """What sort of material a part is."""

    SCORE = "score"
    PLAYER = "player"
    SOLOIST = "soloist"
    SECTION = "section"
    CHOIR = "choir"
    CUE_SCORE = "cue score"
    MEDIA = "media"


class PartsError(ValueError):
    """A set that cannot be made up because a number is missing; ``reason`` says which in one sentence."""

    def __init__(self, reason: str, text: str) -> None:
        super().__init__(reason)
        self.reason = reason
        self.text = text
        self.start = 0
        self.end = len(text)


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the set. ``number`` is its place in score order from 0, the score, on.

    ``chair`` is ``None`` where the instrument has one player; ``plays`` holds what the chair plays, the line's own
    instrument first unless it is not played at all. ``copies`` is ``None`` where the number of singers is open;
    ``players`` and ``desks`` are told of sections and choirs.
    """

    number: int
    kind: Kind
    instrument: str = ""
    family: str = ""
    chair: int | None = None
    plays: tuple[str, ...] = ()
    copies: int | None = 1
    players: int | None = None
    desks: int | None = None
    optional: bool = False
    off_stage: bool = False
    group: str | None = None
    note: str = ""

    @property
    def label(self) -> str:
        """The number in two figures, as covers and file names carry it.

        >>> Part(3, Kind.PLAYER, "oboe").label
        '03'
        """
        return f"{self.number:02}"


@dataclass(frozen=True, slots=True)
class PartSet:
    """The parts in score order; ``extra`` are spare copies, which no total counts."""

    parts: tuple[Part, ...]
    extra: tuple[Part, ...] = ()

    @property
    def total(self) -> int:
        """How many copies are in the box, open numbers left out."""
        return sum(part.copies or 0 for part in self.parts)

    @property
    def scores(self) -> int:
        return self.copies_of(Kind.SCORE)

    @property
    def string_copies(self) -> int:
        return self.copies_of(Kind.SECTION)

    def copies_of(self, kind: Kind) -> int:
        return sum(part.copies or 0 for part in self.parts if part.kind is kind)


def part_list(
    instrumentation: Instrumentation,
    strings: tuple[int, ...] = (),
    *,
    alone: frozenset[str] = frozenset(),
    extra: int = 0,
) -> PartSet:
    """Return the set for these forces.

    ``strings`` are the players of first and second violins, violas, cellos and basses; without them the text's own
    numbers hold. ``alone`` are the string sections (slugs) of which each player has a stand alone, ``extra`` the spare
    copies of each string part. Raises PartsError where a string section has no number.
    """
    strengths = strengths_of(strings)
    found = [part for line in ordered(instrumentation) for part in parts_of(line, strengths, alone, instrumentation)]
    listed = (Part(0, Kind.SCORE), *found, *electronics_of(instrumentation))
    parts = tuple(replace(part, number=number) for number, part in enumerate(listed))
    sections = tuple(part for part in parts if part.kind is Kind.SECTION)
    spare = tuple(replace(part, copies=extra, players=None, desks=None) for part in sections) if extra else ()
    return PartSet(parts, spare)


def strengths_of(strings: tuple[int, ...]) -> dict[str, int]:
    if strings and len(strings) != len(SECTIONS):
        reason = f"String strengths are five numbers, from first violins to double basses, not {len(strings)}."
        raise PartsError(reason, ".".join(map(str, strings)))
    return dict(zip(SECTIONS, strings, strict=True)) if strings else {}


def ordered(instrumentation: Instrumentation) -> list[Line]:
    """The lines that have a part, body by body, in score order; soloists before voices and strings."""
    return sorted((line for line in instrumentation.lines if has_part(line)), key=place)


def has_part(line: Line) -> bool:
    return line.family != "electronics" and line.role != "conductor" and line.instrument not in WITHOUT_PART


def place(line: Line) -> tuple[str, int, int, bool]:
    family = "solo" if line.role == "soloist" else line.family
    return (line.group or "", FAMILIES.index(family), score_order(line.instrument), line.role == "offstage")


def parts_of(
    line: Line, strengths: dict[str, int], alone: frozenset[str], instrumentation: Instrumentation
) -> Iterator[Part]:
    if line.instrument.startswith("choir"):
        yield choir_part(line)
    elif is_section(line, instrumentation):
        yield from section_part(line, strengths, alone, instrumentation.text)
    else:
        yield from player_parts(line)


def is_section(line: Line, instrumentation: Instrumentation) -> bool:
    """Whether the line is a string section, read by desks, and not strings that play alone."""
    if line.role != "ensemble" or line.instrument not in SECTIONS:
        return False
    beside = {one.instrument for one in instrumentation.lines if one.group == line.group and one.role == line.role}
    return line.players is None or line.unit == "desks" or bool(beside & {"violin-1", "violin-2"})


def section_part(line: Line, strengths: dict[str, int], alone: frozenset[str], text: str) -> Iterator[Part]:
    players = players_of_section(line, strengths, text)
    desks = players if line.instrument in alone else (players + 1) // 2
    if players:
        yield from_line(line, Kind.SECTION, copies=desks, players=players, desks=desks)


def players_of_section(line: Line, strengths: dict[str, int], text: str) -> int:
    if line.instrument in strengths:
        return strengths[line.instrument]
    if line.players is None:
        name = line.instrument.replace("-", " ")
        raise PartsError(f"The number of {name} players is open: state the string strengths.", text)
    return 2 * line.players[1] if line.unit == "desks" else line.players[1]


def choir_part(line: Line) -> Part:
    singers = line.players[1] if line.players else None
    return from_line(line, Kind.CHOIR, copies=singers, players=singers)


def player_parts(line: Line) -> Iterator[Part]:
    """One part a player; of an open number one part, to be copied as it is needed.

    Who share a keyboard share its part, first and second player on facing pages (common practice).
    """
    least, most = shared_keyboards(line) or line.players or (1, 1)
    kind = Kind.SOLOIST if line.role in ("soloist", "narrator") else Kind.PLAYER
    for chair, plays, note in chairs_of(line, most):
        yield replace(
            from_line(line, kind),
            chair=chair if most > 1 else None,
            plays=plays,
            optional=line.optional or chair > least,
            note=note or line.note,
        )


def shared_keyboards(line: Line) -> tuple[int, int] | None:
    """Return how many keyboards there are for more hands, ``None`` where each player has one.

    >>> shared_keyboards(Line("piano", "keyboard", (4, 4), note="8 hands at 2"))
    (2, 2)
    """
    told = HANDS.fullmatch(line.note) if line.family == "keyboard" and not line.chairs else None
    keyboards = int(told[2] or 1) if told else 0
    return (keyboards, keyboards) if told and int(told[1]) > 2 * keyboards else None


def chairs_of(line: Line, players: int) -> Iterable[tuple[int, tuple[str, ...], str]]:
    """What each chair plays; a doubling without a chair of its own falls to the last players (common practice)."""
    named = {chair.chair: chair for chair in line.chairs if chair.chair}
    unnamed = [chair for chair in line.chairs if chair.chair is None]
    free = [number for number in range(players, 0, -1) if number not in named]
    given = named | dict(zip(free, reversed(unnamed), strict=False))
    for number in range(1, players + 1):
        chair = given.get(number)
        yield number, chair.plays if chair else (line.instrument,), chair.note if chair else ""


def from_line(
    line: Line, kind: Kind, *, copies: int | None = 1, players: int | None = None, desks: int | None = None
) -> Part:
    return Part(
        number=0,
        kind=kind,
        instrument=line.instrument,
        family=line.family,
        plays=(line.instrument,),
        copies=copies,
        players=players,
        desks=desks,
        optional=line.optional,
        off_stage=line.role == "offstage",
        group=line.group,
        note=line.note,
    )


def electronics_of(instrumentation: Instrumentation) -> tuple[Part, ...]:
    """The score with cues for whoever runs the electronics, and the media or programs themselves."""
    if instrumentation.electronics == "none":
        return ()
    return (Part(0, Kind.CUE_SCORE, family="electronics"), Part(0, Kind.MEDIA, family="electronics"))
