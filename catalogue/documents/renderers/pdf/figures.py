"""Timelines and sketches on the page: the same drawings as on screen, their units in points."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from catalogue.documents.model import Figure, plain, wording
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Item
from catalogue.documents.renderers.pdf.ground import Ground, depth
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import FigureSheet, Look
from catalogue.drawings.player_strip import LINE_Y, Strip
from catalogue.drawings.redrawn import TimelineLook, timeline_sketch
from catalogue.drawings.sketch import Circle, Drawable, Outline, Sketch, Stroke, Words
from catalogue.drawings.timeline import Course, timeline

RISE, HIGH = 0.74, 0.94
"""How far words reach above their baseline, and how high they are, in sizes of their type: so much is white."""


def figure_item(figure: Figure, ground: Ground, parent: Element) -> Item:
    """A figure with what it shows in words, whole on one page."""
    if isinstance(figure.drawing, Strip):
        return strip_item(figure, figure.drawing, ground, parent)
    if isinstance(figure.drawing, Course):
        return timeline_item(figure, figure.drawing, ground, parent)
    return sketch_item(figure, figure.drawing, ground, parent)


# ---- timelines


def timeline_item(figure: Figure, course: Course, ground: Ground, parent: Element) -> Item:
    """A caption and the timeline below it."""
    sheet = ground.sheet.figure
    sketch = timeline_sketch(timeline(course, width=ground.width / sheet.scale), timeline_look(sheet))
    caption = ground.line(figure.caption, sheet.caption)
    told, drawn = parent.add("Caption"), parent.add("Figure", alternative=plain(figure.caption))

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(told):
            canvas.text(ground.left, y, caption)
        with canvas.content(drawn):
            place = ground.left, y + sheet.after
            draw_sketch(canvas, sketch, ground, place, sheet.scale, lambda words: face_along(words, sheet))

    return Item(draw, lead=sheet.lead, depth=sheet.after + sketch.height * sheet.scale)


def timeline_look(sheet: FigureSheet) -> TimelineLook:
    """The sheet's points in units of the timeline."""
    name, figure, curve, line, tick = (
        one / sheet.scale for one in (sheet.name.size, sheet.figure.size, sheet.curve, sheet.line, sheet.tick)
    )
    return TimelineLook(name, figure, curve, line, tick, slanting=True)


def face_along(words: Words, sheet: FigureSheet) -> Look:
    return sheet.name if words.italic else sheet.figure


# ---- player strips


def strip_item(figure: Figure, strip: Strip, ground: Ground, parent: Element) -> Item:
    """The forces as a strip as wide as the text at most, what it adds up to below it."""
    sheet = ground.sheet.figure
    room = ground.width - sheet.strip_x
    scale = min(sheet.strip_scale, room / strip.width)
    x, high = ground.left + sheet.strip_x, strip.height * scale
    lines = ground.lines(figure.caption, sheet.caption, room)
    drawn, told = parent.add("Figure", alternative=strip.title), parent.add("Caption")

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(drawn):
            canvas.strip(x, y - LINE_Y * scale, strip, scale)
        with canvas.content(told):
            for place, line in enumerate(lines):
                canvas.text(x, y + high + sheet.caption_below + place * sheet.caption.leading, line)

    return Item(draw, lead=sheet.lead, depth=high + sheet.caption_below + depth(lines, sheet.caption.leading))


# ---- sketches


def sketch_item(figure: Figure, drawing: Drawable, ground: Ground, parent: Element) -> Item:
    """A sketch in the middle of the page, its caption below it, whole on one page."""
    sheet = ground.sheet.figure
    wide = ground.width * (sheet.share or figure.share * sheet.smaller)
    sketch = drawing.sketch(wide / sheet.sketch_scale)
    caption = ground.line(figure.caption, sheet.caption)
    drawn, told = parent.add("Figure", alternative=plain(figure.caption)), parent.add("Caption")
    left, high = ground.left + (ground.width - wide) / 2, sketch.height * sheet.sketch_scale

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(drawn):
            draw_sketch(canvas, sketch, ground, (left, y), sheet.sketch_scale)
        with canvas.content(told):
            canvas.text(ground.left + (ground.width - caption.width) / 2, y + high + sheet.caption_below, caption)

    return Item(draw, lead=sheet.sketch_lead, depth=high + sheet.caption_below)


def draw_sketch(
    canvas: Canvas,
    sketch: Sketch,
    ground: Ground,
    place: tuple[float, float],
    scale: float,
    face: Callable[[Words], Look] | None = None,
) -> None:
    """Draw a sketch with its upper left corner at the place, ``scale`` points to the unit.

    Words are set as ``face`` says, else without serifs.
    """
    left, top = place
    for part in sketch.parts:
        match part:
            case Stroke():
                points = [(left + x * scale, top + y * scale) for x, y in part.points]
                canvas.outline(
                    points,
                    part.thick * scale,
                    closed=part.closed,
                    filled=part.filled,
                    dashed=part.dashed,
                    faint=part.faint,
                )
            case Circle():
                centre = left + part.x * scale, top + part.y * scale
                canvas.circle(*centre, part.radius * scale, part.thick * scale, dashed=part.dashed)
            case Words():
                look = face(part) if face else plain_face(part, scale)
                sketch_words(canvas, part, ground, (left + part.x * scale, top + part.y * scale), look)
            case Outline():
                canvas.shape(part, left, top, scale)


def plain_face(words: Words, scale: float) -> Look:
    return plain_look(words.size * scale, words.italic, words.strong)


@lru_cache(64)
def plain_look(size: float, italic: bool, strong: bool) -> Look:
    """One look for all words of a size, for a text is remembered by its look."""
    return Look("sans", size, italic=italic, strong=strong)


def sketch_words(canvas: Canvas, words: Words, ground: Ground, place: tuple[float, float], look: Look) -> None:
    line = ground.line(wording(words.text), look)
    before = {"start": 0.0, "middle": line.width / 2, "end": line.width}[words.anchor]
    x, y = place[0] - before, place[1]
    canvas.clear(x, y - RISE * look.size, line.width, HIGH * look.size)
    canvas.text(x, y, line)
