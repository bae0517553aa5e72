"""The player strip: a work's forces as marks on a ledger line, one mark a player.

All lengths in drawing units, y downwards. The line lies at y 7.5. What sounds above it is a soloist; below
it hang the players, family by family in score order, a section filling downwards in columns of four.
A disc is a player, a ring a player who also plays another instrument, a small disc one who may be left out,
a bar a section of open size or a choir part, a triangle the electronics. Off-stage players have a line
of their own.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Literal
from xml.sax.saxutils import escape

from catalogue.instrumentation import Instrumentation, Line

LINE_Y, LINE_THICK = 7.5, 0.75
SOLO_Y, FIRST_Y = 3.5, 11.5
PITCH, SECTION, FAMILY = 5.0, 7.5, 12.0
EDGE, AIR, COLUMN = 2.5, 8.0, 4
DISC, SMALL, RING, RING_THICK = 1.9, 1.0, 1.45, 0.9
BAR_THICK, OPEN, CHOIR_PART = 2.4, 22.0, 6.0
TRIANGLE_WIDE, TRIANGLE_HIGH = 3.8, 4.4

FAMILIES = ("woodwind", "brass", "percussion", "plucked", "keyboard", "voice", "strings", "other", "electronics")
ABOVE = ("soloist", "narrator")

Mark = Literal["disc", "small", "ring"]


@dataclass(frozen=True, slots=True)
class Point:
    """A place in the strip, in its own units, from the top left corner."""

    x: float
    y: float


@dataclass(frozen=True, slots=True)
class Span:
    """A horizontal stroke from ``x`` to ``end`` at height ``y``."""

    x: float
    end: float
    y: float


@dataclass(frozen=True, slots=True)
class Strip:
    """Where each mark stands. ``title`` says the same in a sentence; ``triangles`` are given by their left ends."""

    width: float
    height: float
    lines: tuple[Span, ...]
    discs: tuple[Point, ...] = ()
    small: tuple[Point, ...] = ()
    rings: tuple[Point, ...] = ()
    bars: tuple[Span, ...] = ()
    triangles: tuple[Point, ...] = ()
    above: bool = False
    title: str = ""

    def __hash__(self) -> int:  # quicker than of every mark: lists look up how the same strip is drawn
        return hash((self.title, self.width, self.height))

    @property
    def marks(self) -> int:
        return sum(map(len, (self.discs, self.small, self.rings, self.bars, self.triangles)))


def player_strip(instrumentation: Instrumentation, title: str = "") -> Strip:
    """Draw the forces; ``title`` is the sentence for those who cannot see it (by default the number of players)."""
    lines = [line for line in instrumentation.lines if line.players != (0, 0)]
    on_stage = [line for line in lines if line.role == "ensemble" and line.family != "electronics"]
    above = [line for line in lines if line.role in ABOVE]
    away = [line for line in lines if line.role == "offstage"]
    media = instrumentation.electronics != "none"
    drawing = Drawing()
    drawing.soloists(above)
    drawing.body(on_stage, media=media)
    drawing.end_line()
    if away:
        drawing.off_stage(away)
    return replace(drawing.strip(), above=bool(above), title=title or counted(instrumentation))


def counted(instrumentation: Instrumentation) -> str:
    """A plain reading of how many play."""
    players = instrumentation.players
    if players is None:
        return "Players, number open"
    least, most = players
    number = str(most) if least == most else f"{least} to {most}"
    return f"{number} player" if most == 1 else f"{number} players"


class Drawing:
    """Marks set from left to right; ``x`` is the centre of the last one."""

    def __init__(self) -> None:
        self.x = 0.0
        self.start = 0.0
        self.widest = 0.0
        self.deepest = 0.0
        self.lines: list[Span] = []
        self.discs: list[Point] = []
        self.small: list[Point] = []
        self.rings: list[Point] = []
        self.bars: list[Span] = []
        self.triangles: list[Point] = []

    def soloists(self, lines: list[Line]) -> None:
        x = EDGE - SECTION
        for line in lines:
            x += SECTION
            for place, mark in enumerate(marks_of(line)):
                x += PITCH if place else 0
                self.mark(mark, Point(x, SOLO_Y))
        self.widest = x + EDGE if lines else 0.0

    def body(self, lines: list[Line], *, media: bool) -> None:
        gap = EDGE
        for _body, family in groupby(sorted(lines, key=family_order), key=family_order):
            for line in open_strings_once(family):
                self.x += gap
                self.section(line)
                gap = SECTION
            gap = FAMILY
        if media:
            self.x += gap
            self.triangles.append(Point(self.x - DISC, FIRST_Y))
            self.deepest = max(self.deepest, FIRST_Y)

    def section(self, line: Line) -> None:
        """One section from its first centre on: a bar where its size is open, else columns of four."""
        self.deepest = max(self.deepest, FIRST_Y)
        if line.players is None:
            long = CHOIR_PART if line.instrument.startswith("choir-") else OPEN
            self.bars.append(Span(self.x - DISC, self.x - DISC + long, FIRST_Y))
            self.x += long - 2 * DISC
            return
        first = self.x
        for place, mark in enumerate(marks_of(line)):
            column, row = divmod(place, COLUMN)
            self.x = first + column * PITCH
            self.mark(mark, Point(self.x, FIRST_Y + row * PITCH))
            self.deepest = max(self.deepest, FIRST_Y + row * PITCH)

    def mark(self, mark: Mark, centre: Point) -> None:
        {"disc": self.discs, "small": self.small, "ring": self.rings}[mark].append(centre)

    def end_line(self) -> None:
        end = max(self.x + EDGE if self.deepest else 0.0, self.widest)
        self.lines.append(Span(self.start, end, LINE_Y))
        self.widest = end

    def off_stage(self, lines: list[Line]) -> None:
        self.start = self.x = self.widest + AIR
        self.body(lines, media=False)
        self.end_line()

    def strip(self) -> Strip:
        return Strip(
            width=round(self.widest, 2),
            height=(self.deepest + EDGE) if self.deepest else LINE_Y + EDGE,
            lines=tuple(self.lines),
            discs=tuple(self.discs),
            small=tuple(self.small),
            rings=tuple(self.rings),
            bars=tuple(self.bars),
            triangles=tuple(self.triangles),
        )


def family_order(line: Line) -> tuple[str, int]:
    """Bodies one after the other, the main one first, in each the families in score order."""
    return (line.group or "", FAMILIES.index(line.family) if line.family in FAMILIES else FAMILIES.index("other"))


def open_strings_once(lines: Iterable[Line]) -> Iterator[Line]:
    """The lines, string sections of open size standing for one bar together."""
    drawn = False
    for line in lines:
        if line.family == "strings" and line.players is None:
            if drawn:
                continue
            drawn = True
        yield line


def marks_of(line: Line) -> tuple[Mark, ...]:
    """A mark for each player of a line, one for a line of unknown size; desks seat two.

    Where the text says that somebody doubles but not who, the last players are the ones (common practice).
    """
    least, most = line.players or (1, 1)
    if line.unit == "desks":
        least, most = 2 * least, 2 * most
    named = {chair.chair for chair in line.chairs if len(chair.plays) > 1 and chair.chair}
    unnamed = sum(len(chair.plays) > 1 for chair in line.chairs if chair.chair is None)
    doubling = named | set(range(most - unnamed + 1, most + 1))
    return tuple(
        "small" if line.optional or chair > least else "ring" if chair in doubling else "disc"
        for chair in range(1, most + 1)
    )


def to_svg(strip: Strip, scale: float) -> str:
    """The strip as an SVG element, ``scale`` pixels a unit, in ``currentColor``; untitled it only illustrates."""
    parts = [f"<title>{escape(strip.title)}</title>"] if strip.title else []
    for name, path in (
        ("line", "".join(f"M{n(one.x)} {n(one.y)}H{n(one.end)}" for one in strip.lines)),
        ("disc", dots(strip.discs)),
        ("maybe", dots(strip.small)),
        ("ring", "".join(circle(one) for one in strip.rings)),
        ("open", "".join(f"M{n(one.x)} {n(one.y)}H{n(one.end)}" for one in strip.bars)),
        ("media", "".join(triangle(one) for one in strip.triangles)),
    ):
        if path:
            parts.append(f'<path class="{name}" d="{path}"/>')
    size = f'width="{n(strip.width * scale)}" height="{n(strip.height * scale)}"'
    box = f'viewBox="0 0 {n(strip.width)} {n(strip.height)}"'
    seen = 'role="img"' if strip.title else 'aria-hidden="true"'
    return f'<svg class="strip" {seen} {size} {box}>{"".join(parts)}</svg>'


def dots(points: tuple[Point, ...]) -> str:
    """Strokes without length: round caps make them discs, so that one path draws all."""
    return "".join(f"M{n(one.x)} {n(one.y)}h0" for one in points)


def circle(centre: Point) -> str:
    arc = f"a{RING} {RING} 0 1 0"
    return f"M{n(centre.x - RING)} {n(centre.y)}{arc} {2 * RING:g} 0{arc}-{2 * RING:g} 0z"


def triangle(left: Point) -> str:
    half = TRIANGLE_HIGH / 2
    return f"M{n(left.x)} {n(left.y - half)}l{TRIANGLE_WIDE} {half:g}l-{TRIANGLE_WIDE} {half:g}z"


def n(number: float) -> str:
    """A length with at most two decimals.

    >>> n(34.80), n(12.6)
    ('34.8', '12.6')
    """
    return f"{round(number, 2):g}"
