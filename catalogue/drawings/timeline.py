"""The timeline of a work: its tempo as a curve, its movements on a line true to scale, its cues and minutes below.

``Course`` holds what happens, in seconds; ``timeline`` places it for a width. A place along the line is a percentage of
its width and a height is in units (pixels on a page), so that type keeps its size however wide the picture is drawn;
paper scales the units. A tempo is told in quarter notes a minute, whatever note the map names. A passage by the clock
has no tempo: there the curve is broken and the line is double.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from xml.sax.saxutils import escape

from catalogue.timing import Duration, Reckoned, write_duration
from catalogue.timing.tempo_writing import number
from catalogue.timing.timeline import Bar, PlayedBar

WIDE, NARROW = 1000, 320  # units that pictures of a page are reckoned with
LETTER, FIGURE, GAP = 7.0, 6.6, 8.0  # units: usual widths of a letter and a figure, what keeps words apart
CURVE_TOP, CURVE_HIGH = 20.0, 40.0
NAME_HIGH, TICK = 22.0, 13.0  # from the curve to the line, from a section's tick to the line
CUE_TICK, CUE_BELOW, CUE_ROW, CUE_ROWS = 5.0, 17.0, 14.0, 3
MINUTE_BELOW = 20.0
FIGURE_AFTER = 3.0  # from a new tempo to its figure, clear of the step
FREE = 1.5  # from the middle of the line to either stroke where the clock leads
STEPS = (5, 10, 15, 30, 60, 120, 300, 600, 1200, 1800, 3600)  # seconds between the figures below
STEP_WIDE = 68.0  # units that such a figure wants
SHORTEST = 8  # letters of a name that is cut
NEAR = 0.12  # per cent: points of the curve that lie nearer are one


@dataclass(frozen=True, slots=True)
class Course:
    """What happens while a work lasts: times in seconds, tempos in quarter notes a minute.

    ``sections`` begin with their names, ``tempos`` are stretches of points without a break, ``turns`` the points at
    which a passage begins or a change is over, ``free`` the passages by the clock; ``cues`` come with their numbers.
    """

    seconds: float
    sections: tuple[tuple[float, str], ...]
    tempos: tuple[tuple[tuple[float, float], ...], ...]
    turns: tuple[tuple[float, float], ...] = ()
    free: tuple[tuple[float, float], ...] = ()
    cues: tuple[tuple[float, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Words:
    """Words or figures at a place; none where they have no room. ``before`` says that they end there."""

    x: float
    words: str
    row: int = 0
    before: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """Where everything stands: along the line in per cent, above and below it in units."""

    width: float
    sections: tuple[Words, ...]
    curve: tuple[tuple[tuple[float, float], ...], ...]
    figures: tuple[tuple[float, float, str], ...]
    free: tuple[tuple[float, float], ...]
    cues: tuple[Words, ...]
    minutes: tuple[Words, ...]

    @property
    def line(self) -> float:
        """How far the line lies below the top."""
        return (CURVE_TOP + CURVE_HIGH if self.curve else 0) + NAME_HIGH

    @property
    def minutes_line(self) -> float:
        """Where the ticks of the minutes begin."""
        rows = max((cue.row + 1 for cue in self.cues), default=0)
        return self.line + (CUE_BELOW + CUE_ROW * (rows - 1) + 5 if rows else 4)

    @property
    def height(self) -> float:
        return self.minutes_line + MINUTE_BELOW + 4


# ---- what happens


def course_of(reckoned: Reckoned, cues: Iterable[tuple[Fraction, str]] = (), *, bar: str = "bar {n}") -> Course:
    """Tell a map's course; where there is one movement its passages are the sections, named by ``bar``."""
    played = reckoned.line.bars
    return Course(
        float(reckoned.line.end),
        tuple(sections_of(reckoned, bar)),
        tuple(tuple(stretch) for stretch in stretches(played)),
        tuple(turns_of(played)),
        tuple(passages_by_clock(played)),
        tuple((float(seconds), name) for seconds, name in cues),
    )


def sections_of(reckoned: Reckoned, bar: str) -> Iterator[tuple[float, str]]:
    """Give where each movement begins, or, where there is only one, each passage as it is first played."""
    movements = reckoned.tempo_map.movements
    begun: set[int] = set()
    firsts = {passage.first for passage in movements[0].passages}
    for one in reckoned.line.bars:
        key = one.movement if len(movements) > 1 else one.bar.number
        if key in begun or (len(movements) == 1 and key not in firsts):
            continue
        begun.add(key)
        name = movements[one.movement - 1].name or str(one.movement)
        yield float(one.start), name if len(movements) > 1 else bar.replace("{n}", str(key))


def stretches(played: Sequence[PlayedBar]) -> Iterator[list[tuple[float, float]]]:
    """Give the tempo as stretches of points, a new one after each passage by the clock and each gap."""
    stretch: list[tuple[float, float]] = []
    end = Fraction(0)
    for one in played:
        if stretch and (one.bar.motion is None or one.start != end):
            yield stretch
            stretch = []
        if one.bar.motion is not None:
            stretch = extended(stretch, one)
        end = one.end
    if stretch:
        yield stretch


def extended(stretch: list[tuple[float, float]], one: PlayedBar) -> list[tuple[float, float]]:
    """Return the stretch with a bar more; a point in the middle of a level one is left out."""
    start, end = (quarters(one.bar, position) for position in (Fraction(0), one.bar.length))
    if len(stretch) > 1 and stretch[-1][1] == stretch[-2][1] == start == end:
        stretch = stretch[:-1]
    elif not stretch or stretch[-1][1] != start:
        stretch = [*stretch, (float(one.start), start)]
    return [*stretch, (float(one.end), end)]


def turns_of(played: Sequence[PlayedBar]) -> Iterator[tuple[float, float]]:
    """Give the tempos that the map names, each where it is reached."""
    for one in played:
        motion = one.bar.motion
        if motion is None:
            continue
        if not one.bar.offset:
            yield float(one.start), quarters(one.bar, Fraction(0))
        if not motion.steady and one.bar.offset + one.bar.length == motion.length:
            yield float(one.end), quarters(one.bar, one.bar.length)


def quarters(bar: Bar, position: Fraction) -> float:
    """Return the quarter notes a minute at a position in a bar."""
    return float(4 * bar.motion.rate(bar.offset + position)) if bar.motion else 0.0


def passages_by_clock(played: Sequence[PlayedBar]) -> Iterator[tuple[float, float]]:
    """Give the spans without a tempo, those that touch as one."""
    span: tuple[float, float] | None = None
    for one in played:
        if one.bar.motion is not None:
            continue
        if span and span[1] == float(one.start):
            span = (span[0], float(one.end))
            continue
        if span:
            yield span
        span = (float(one.start), float(one.end))
    if span:
        yield span


# ---- where it stands


def timeline(course: Course, *, width: float = WIDE) -> Picture:
    """Place a course along a line of ``width`` units; what has no room beside its neighbour is left without words."""
    scale = 100 / course.seconds if course.seconds else 0.0
    tempos = [tempo for stretch in course.tempos for _seconds, tempo in stretch]
    highest, lowest = max(tempos, default=0.0), min(tempos, default=0.0)
    curve = tuple(
        tuple(thinned([(seconds * scale, height(tempo, lowest, highest)) for seconds, tempo in stretch]))
        for stretch in course.tempos
    )
    return Picture(
        width,
        tuple(names_along(course.sections, scale, width)),
        curve,
        tuple(figures_above(course, scale, lowest, highest, width)),
        tuple((round(start * scale, 2), round(end * scale, 2)) for start, end in course.free),
        tuple(numbers_below(course.cues, scale, width)),
        tuple(minutes_below(course.seconds, scale, width)),
    )


def height(tempo: float, lowest: float, highest: float) -> float:
    """Return how far below the top a tempo is drawn; one tempo alone runs along the middle."""
    share = (highest - tempo) / (highest - lowest) if highest > lowest else 0.5
    return round(CURVE_TOP + CURVE_HIGH * share, 2)


def thinned(points: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Leave out points that no eye tells from their neighbours."""
    last = (-1.0, -1.0)
    for place, (x, y) in enumerate(points):
        if place == len(points) - 1 or x - last[0] >= NEAR or abs(y - last[1]) >= 1:
            last = (x, y)
            yield round(x, 2), y


def names_along(sections: Sequence[tuple[float, str]], scale: float, width: float) -> Iterator[Words]:
    """Give the beginnings of sections, a name where it ends before the next one begins."""
    for place, (seconds, name) in enumerate(sections):
        x = seconds * scale
        end = sections[place + 1][0] * scale if place + 1 < len(sections) else 100.0
        room = int(((end - x) * width / 100 - GAP) / LETTER)
        yield Words(round(x, 2), shortened(name, room))


def shortened(name: str, room: int) -> str:
    """Return a name in so many letters: whole, else its beginning, else nothing.

    >>> shortened("Semaphore", 9), shortened("Semaphore", 8), shortened("Semaphore", 4), shortened("II", 2)
    ('Semaphore', 'Semapho…', '', 'II')
    """
    if len(name) <= room:
        return name
    return f"{name[: room - 1].rstrip()}…" if room >= SHORTEST else ""


def figures_above(
    course: Course, scale: float, lowest: float, highest: float, width: float
) -> Iterator[tuple[float, float, str]]:
    """Give each new tempo, as a figure above the point at which it is reached, where there is room."""
    taken, told = 0.0, ""
    for seconds, tempo in course.turns:
        words = number(Fraction(round(tempo * 10), 10))
        x = seconds * scale * width / 100
        wide = len(words) * FIGURE
        begins = min(x, width - wide)
        if words != told and begins >= taken:
            taken, told = begins + wide + GAP, words
            yield round(begins / width * 100, 2), height(tempo, lowest, highest), words


def numbers_below(cues: Sequence[tuple[float, str]], scale: float, width: float) -> Iterator[Words]:
    """Give each cue with its number in the first row that has room; in a crowd it keeps its mark alone."""
    ends = [-GAP] * CUE_ROWS
    for seconds, name in sorted(cues, key=lambda cue: cue[0]):
        x = seconds * scale
        half = len(name) * FIGURE / 2
        middle = min(x * width / 100, width - half)
        row = next((row for row, end in enumerate(ends) if middle - half >= end), None)
        if row is None:
            yield Words(round(x, 2), "")
            continue
        ends[row] = middle + half + GAP / 2
        yield Words(round(x, 2), name, row, before=x * width / 100 > width - half)


def minutes_below(seconds: float, scale: float, width: float) -> Iterator[Words]:
    """Give the clock below the line, in steps that leave room."""
    step = next((step for step in STEPS if step * scale * width / 100 >= STEP_WIDE), STEPS[-1])
    for moment in range(0, int(seconds) + 1, step):
        words = write_duration(Duration(moment)) if moment else "0′"
        x = moment * scale
        yield Words(round(x, 2), words, before=x * width / 100 > width - STEP_WIDE / 2)


# ---- as SVG


def to_svg(picture: Picture, *, title: str, look: str = "") -> str:
    """The picture as an SVG element; ``title`` says it in a sentence, ``look`` is its class."""
    line = picture.line
    parts = [
        *(polyline(stretch) for stretch in picture.curve),
        *(text("dim", x, y - 5, words, dx=FIGURE_AFTER) for x, y, words in picture.figures),
        *(part for section in picture.sections for part in section_marks(section, line)),
        *line_marks(picture),
        *(part for cue in picture.cues for part in cue_marks(cue, line)),
        *(part for minute in picture.minutes for part in minute_marks(minute, picture.minutes_line)),
    ]
    name = f' class="{look}"' if look else ""
    size = f'width="100%" height="{n(picture.height)}" stroke="currentColor" overflow="visible"'
    return f'<svg{name} role="img" {size}><title>{escape(title)}</title>{"".join(parts)}</svg>'


def polyline(points: Sequence[tuple[float, float]]) -> str:
    """Strokes from point to point: a polyline knows no percentages."""
    pairs = pairwise(points)
    return "".join(
        f'<line class="curve" x1="{n(x)}%" x2="{n(to_x)}%" y1="{n(y)}" y2="{n(to_y)}"/>'
        for (x, y), (to_x, to_y) in pairs
    )


def line_marks(picture: Picture) -> Iterator[str]:
    """The line, whole where the bar leads, two thin strokes where the clock does."""
    end, y = 0.0, picture.line
    for start, until in picture.free:
        yield stroke("axis", end, start, y, y)
        yield from (stroke("free", start, until, y + side, y + side) for side in (-FREE, FREE))
        end = until
    if end < 100:
        yield stroke("axis", end, 100, y, y)


def section_marks(section: Words, line: float) -> Iterator[str]:
    yield stroke("axis", section.x, section.x, line - TICK, line)
    if section.words:
        yield text("name", section.x, line - 4, section.words, dx=4)


def cue_marks(cue: Words, line: float) -> Iterator[str]:
    yield stroke("axis", cue.x, cue.x, line, line + CUE_TICK)
    if cue.words:
        anchor = "end" if cue.before else "middle" if cue.x > 0.5 else "start"
        yield text("cue", cue.x, line + CUE_BELOW + CUE_ROW * cue.row, cue.words, anchor=anchor)


def minute_marks(minute: Words, top: float) -> Iterator[str]:
    yield stroke("hair", minute.x, minute.x, top, top + 5)
    anchor = "end" if minute.before else "middle" if minute.x > 0.5 else "start"
    yield text("dim", minute.x, top + MINUTE_BELOW - 2, minute.words, anchor=anchor)


def stroke(name: str, x1: float, x2: float, y1: float, y2: float) -> str:
    return f'<line class="{name}" x1="{n(x1)}%" x2="{n(x2)}%" y1="{n(y1)}" y2="{n(y2)}"/>'


def text(name: str, x: float, y: float, words: str, *, anchor: str = "", dx: float = 0) -> str:
    more = f' text-anchor="{anchor}"' if anchor and anchor != "start" else ""
    more += f' dx="{n(dx)}"' if dx else ""
    return f'<text class="{name}" x="{n(x)}%" y="{n(y)}"{more} font-size="13" stroke="none">{escape(words)}</text>'


def n(length: float) -> str:
    """A length with at most two decimals."""
    return f"{round(length, 2):g}"
