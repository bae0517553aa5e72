"""Sketches as PNG, for files that hold no drawings of their own: the same marks, black on white.

The same sketch gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from io import BytesIO
from itertools import pairwise
from math import dist
from pathlib import Path

from PIL import Image, ImageChops, ImageDraw, ImageFont

from catalogue.documents.renderers.characters import printable
from catalogue.drawings.sketch import Circle, Outline, Part, Sketch, Stroke, Words

FONTS = Path(__file__).parents[1] / "fonts"
FACES = {(False, False): "NotoSans-Regular", (True, False): "NotoSans-Italic", (False, True): "NotoSans-SemiBold"}
PIXELS = 3
"""Pixels to the unit: at 120 units to the inch of paper, a fine print."""
GREY = 178
DASH, GAP = 4.0, 3.0
ANCHORS = {"start": "ls", "middle": "ms", "end": "rs"}
Point = tuple[float, float]


def sketch_png(sketch: Sketch) -> bytes:
    """The sketch as a picture, three pixels to the unit."""
    size = round(sketch.width * PIXELS), round(sketch.height * PIXELS)
    image = Image.new("L", size, 255)
    pen = ImageDraw.Draw(image)
    for part in sketch.parts:
        if isinstance(part, Outline):
            blacken(image, part)
        else:
            draw_part(pen, part)
    written = BytesIO()
    image.save(written, "PNG", optimize=True)
    return written.getvalue()


def blacken(image: Image.Image, outline: Outline) -> None:
    """Fill a shape; what lies inside an even number of its contours stays as it is."""
    shape = Image.new("1", image.size)
    for contour in contours(outline):
        one = Image.new("1", image.size)
        ImageDraw.Draw(one).polygon(contour, fill=1)
        shape = ImageChops.logical_xor(shape, one)
    image.paste(0, mask=shape.convert("L"))


def contours(outline: Outline) -> Iterator[list[Point]]:
    """The contours as points in pixels, curves as twelve pieces."""
    points: list[Point] = []
    for letter, places in outline.steps:
        ends = [(x * PIXELS, y * PIXELS) for x, y in zip(places[::2], places[1::2], strict=True)]
        if letter == "Z":
            yield points
        elif letter == "M":
            points = ends
        elif letter == "L":
            points += ends
        else:
            points += [curved((points[-1], *ends), step / 12) for step in range(1, 13)]


def curved(ends: tuple[Point, ...], share: float) -> Point:
    """A point of a cubic curve (de Casteljau)."""
    while len(ends) > 1:
        ends = tuple(between(start, end, share) for start, end in pairwise(ends))
    return ends[0]


def draw_part(pen: ImageDraw.ImageDraw, part: Part) -> None:
    match part:
        case Stroke():
            draw_stroke(pen, part)
        case Circle():
            draw_circle(pen, part)
        case Words():
            face = font_of(part.italic, part.strong and not part.italic, round(part.size * PIXELS))
            place = part.x * PIXELS, part.y * PIXELS
            pen.rectangle(pen.textbbox(place, printable(part.text), font=face, anchor=ANCHORS[part.anchor]), fill=255)
            pen.text(place, printable(part.text), fill=0, font=face, anchor=ANCHORS[part.anchor])


def draw_stroke(pen: ImageDraw.ImageDraw, stroke: Stroke) -> None:
    points = [(x * PIXELS, y * PIXELS) for x, y in stroke.points]
    thick = max(1, round(stroke.thick * PIXELS))
    if stroke.closed:
        pen.polygon(points, fill=0 if stroke.filled else 255)
        points = [*points, points[0]]
    pieces = dashes(points) if stroke.dashed else pairwise(points)
    for start, end in pieces:
        pen.line((*start, *end), fill=GREY if stroke.faint else 0, width=thick)


def draw_circle(pen: ImageDraw.ImageDraw, circle: Circle) -> None:
    x, y, radius = circle.x * PIXELS, circle.y * PIXELS, circle.radius * PIXELS
    box = (x - radius, y - radius, x + radius, y + radius)
    thick = max(1, round(circle.thick * PIXELS))
    if circle.dashed:
        for start in range(0, 360, 6):
            pen.arc(box, start, start + 3, fill=0, width=thick)
    else:
        pen.ellipse(box, fill=255, outline=0, width=thick)


def dashes(points: list[Point]) -> Iterable[tuple[Point, Point]]:
    """The pieces of a dashed line."""
    for start, end in pairwise(points):
        whole = dist(start, end) or 1.0
        place = 0.0
        while place < whole:
            until = min(place + DASH * PIXELS, whole)
            yield between(start, end, place / whole), between(start, end, until / whole)
            place = until + GAP * PIXELS


def between(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


@cache
def font_of(is_italic: bool, is_strong: bool, size: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(FONTS / f"{FACES[is_italic, is_strong]}.ttf", size)
