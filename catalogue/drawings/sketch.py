"""A drawing of a few kinds of marks, placed once for a page and for paper: strokes, shapes, circles and words.

Lengths are in units, y downwards from the upper edge; words have a size in units too. A page shows the drawing as wide
as its column, paper says how many points a unit is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, Protocol
from xml.sax.saxutils import escape

Anchor = Literal["start", "middle", "end"]
DASH = "4 3"
LETTER_WIDE = 0.55
"""The usual width of a letter, in sizes of its type."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """Lines from point to point; a closed one comes back to its beginning and hides what is behind it.

    A filled one is a solid shape, a faint one is grey: a grid that other marks stand on.
    """

    points: tuple[tuple[float, float], ...]
    thick: float = 1.0
    closed: bool = False
    filled: bool = False
    dashed: bool = False
    faint: bool = False


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle that hides what is behind it, unless it is dashed."""

    x: float
    y: float
    radius: float
    thick: float = 1.0
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """Words with their baseline at y."""

    x: float
    y: float
    text: str
    size: float = 11.0
    anchor: Anchor = "middle"
    italic: bool = False
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Outline:
    """A solid shape: moves, lines and curves as SVG has them, each a letter (M, L, C or Z) with its places.

    What an inner contour turns the other way round stays open.
    """

    steps: tuple[tuple[str, tuple[float, ...]], ...]


Part = Stroke | Circle | Words | Outline


@dataclass(frozen=True, slots=True)
class Sketch:
    """A picture: its size and its parts, in one unit that the renderer scales, from the top left corner."""

    width: float
    height: float
    parts: tuple[Part, ...]


class Drawable(Protocol):
    """What can be drawn for a width."""

    def sketch(self, width: float) -> Sketch:
        """Place everything for so many units."""


def box(x: float, y: float, width: float, height: float, *, thick: float = 1.0, filled: bool = False) -> Stroke:
    """A rectangle with its upper left corner at the place."""
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    return Stroke(corners, thick, closed=True, filled=filled)


def fitted(text: str, room: float, size: float) -> str:
    """As much of a text as has room, with a sign that something is missing.

    >>> fitted("double bass", 40, 10), fitted("viola", 40, 10)
    ('double…', 'viola')
    """
    most = max(1, int(room / (size * LETTER_WIDE)))
    return text if len(text) <= most else f"{text[: most - 1].rstrip()}\N{HORIZONTAL ELLIPSIS}"


# ---- as SVG


def to_svg(sketch: Sketch, *, title: str) -> str:
    """The sketch as an SVG element in the colour of its text; ``title`` says it in words."""
    size = f'viewBox="0 0 {n(sketch.width)} {n(sketch.height)}" width="100%"'
    look = 'fill="none" stroke="currentColor" stroke-linejoin="round"'
    parts = "".join(svg_part(part) for part in sketch.parts)
    return f'<svg class="sketch" role="img" {size} {look}><title>{escape(title)}</title>{parts}</svg>'


def svg_part(part: Part) -> str:
    match part:
        case Stroke():
            return stroke_svg(part)
        case Circle():
            dash = f' stroke-dasharray="{DASH}"' if part.dashed else ""
            clear = "" if part.dashed else ' class="clear"'
            place = f'cx="{n(part.x)}" cy="{n(part.y)}" r="{n(part.radius)}"'
            return f'<circle{clear} {place} stroke-width="{n(part.thick)}"{dash}/>'
        case Words():
            return "".join(words_svg(part))
        case Outline():
            return f'<path fill="currentColor" stroke="none" d="{path_of(part)}"/>'


def stroke_svg(stroke: Stroke) -> str:
    path = "L".join(f"{n(x)} {n(y)}" for x, y in stroke.points)
    end = "Z" if stroke.closed else ""
    fill = ' fill="currentColor"' if stroke.filled else ' class="clear"' if stroke.closed else ""
    dash = f' stroke-dasharray="{DASH}"' if stroke.dashed else ""
    faint = ' stroke-opacity="0.35"' if stroke.faint else ""
    return f'<path{fill} d="M{path}{end}" stroke-width="{n(stroke.thick)}"{dash}{faint}/>'


def path_of(outline: Outline) -> str:
    return "".join(letter + " ".join(map(n, places)) for letter, places in outline.steps)


def words_svg(words: Words) -> Iterator[str]:
    look = " ".join(name for name, has in (("slant", words.italic), ("strong", words.strong)) if has)
    yield f'<text class="{look}"' if look else "<text"
    yield f' x="{n(words.x)}" y="{n(words.y)}" font-size="{n(words.size)}" text-anchor="{words.anchor}"'
    yield f' fill="currentColor" stroke="none">{escape(words.text)}</text>'


def n(length: float) -> str:
    """A length with at most two decimals."""
    return f"{round(length, 2):g}"
