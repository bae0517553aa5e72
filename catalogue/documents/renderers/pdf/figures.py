"""Timelines and sketches on the page: the same drawings as on screen, their units in points."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.documents.model import Figure, plain, wording
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Item
from catalogue.documents.renderers.pdf.ground import Ground, depth
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import FigureSheet, Look
from catalogue.drawings.player_strip import LINE_Y, Strip
from catalogue.drawings.sketch import Circle, Drawable, Outline, Sketch, Stroke
from catalogue.drawings.sketch import Words as SketchWords
from catalogue.drawings.timeline import (
    CUE_BELOW,
    CUE_ROW,
    CUE_TICK,
    FIGURE_AFTER,
    FREE,
    MINUTE_BELOW,
    TICK,
    Course,
    Picture,
    Words,
    timeline,
)

RISE, HIGH = 0.74, 0.94
"""How far words reach above their baseline, and how high they are, in sizes of their type: so much is white."""


def figure_item(figure: Figure, ground: Ground, parent: Element) -> Item:
    """A caption and the drawing below it, whole on one page."""
    if isinstance(figure.drawing, Strip):
        return strip_item(figure, figure.drawing, ground, parent)
    if not isinstance(figure.drawing, Course):
        return sketch_item(figure, figure.drawing, ground, parent)
    sheet = ground.sheet.figure
    picture = timeline(figure.drawing, width=ground.width / sheet.scale)
    caption = ground.line(figure.caption, sheet.caption)
    told, drawn = parent.add("Caption"), parent.add("Figure", alternative=plain(figure.caption))

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(told):
            canvas.text(ground.left, y, caption)
        with canvas.content(drawn):
            Drawn(canvas, ground, sheet, picture, y + sheet.after).whole()

    return Item(draw, lead=sheet.lead, depth=sheet.after + picture.height * sheet.scale)


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture being drawn, its upper edge at ``top``."""

    canvas: Canvas
    ground: Ground
    sheet: FigureSheet
    picture: Picture
    top: float

    def x(self, share: float) -> float:
        return self.ground.left + share * self.ground.width / 100

    def y(self, units: float) -> float:
        return self.top + units * self.sheet.scale

    def whole(self) -> None:
        self.tempo()
        self.line()
        for section in self.picture.sections:
            self.tick(section.x, self.picture.line - TICK, self.picture.line)
            self.words(section, self.picture.line - 4, self.sheet.name, after=3)
        for cue in self.picture.cues:
            self.tick(cue.x, self.picture.line, self.picture.line + CUE_TICK)
            self.words(cue, self.picture.line + CUE_BELOW + CUE_ROW * cue.row, self.sheet.figure)
        for minute in self.picture.minutes:
            self.tick(minute.x, self.picture.minutes_line, self.picture.minutes_line + 5)
            self.words(minute, self.picture.minutes_line + MINUTE_BELOW - 2, self.sheet.figure)

    def tempo(self) -> None:
        for stretch in self.picture.curve:
            points = [(self.x(x), self.y(y)) for x, y in stretch]
            if len(points) > 1:
                self.canvas.curve(points, self.sheet.curve)
        for x, y, figure in self.picture.figures:
            line = self.ground.line(wording(figure), self.sheet.figure)
            self.canvas.text(self.x(x) + FIGURE_AFTER * self.sheet.scale, self.y(y - 5), line)

    def line(self) -> None:
        """The line, whole where the bar leads, two thin strokes where the clock does."""
        y, end = self.y(self.picture.line), 0.0
        for start, until in self.picture.free:
            self.canvas.rule(self.x(end), self.x(start), y, self.sheet.line)
            for side in (-FREE, FREE):
                self.canvas.rule(self.x(start), self.x(until), y + side * self.sheet.scale, self.sheet.line / 2)
            end = until
        if end < 100:
            self.canvas.rule(self.x(end), self.x(100), y, self.sheet.line)

    def tick(self, share: float, start: float, end: float) -> None:
        x = self.x(share)
        self.canvas.curve([(x, self.y(start)), (x, self.y(end))], self.sheet.tick)

    def words(self, words: Words, height: float, look: Look, *, after: float | None = None) -> None:
        """Words in the middle of their place, before it at the right end, after it where that is asked for."""
        if not words.words:
            return
        line = self.ground.line(wording(words.words), look)
        x = self.x(words.x)
        if after is not None:
            x += after
        elif words.before:
            x -= line.width
        elif words.x > 0.5:
            x -= line.width / 2
        self.canvas.text(x, self.y(height), line)


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
    wide = ground.width * figure.share
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


def draw_sketch(canvas: Canvas, sketch: Sketch, ground: Ground, place: tuple[float, float], scale: float) -> None:
    """Draw a sketch with its upper left corner at the place, ``scale`` points to the unit."""
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
            case SketchWords():
                sketch_words(canvas, part, ground, place, scale)
            case Outline():
                canvas.shape(part, left, top, scale)


def sketch_words(canvas: Canvas, words: SketchWords, ground: Ground, place: tuple[float, float], scale: float) -> None:
    left, top = place
    look = Look("sans", words.size * scale, italic=words.italic, strong=words.strong)
    line = ground.line(wording(words.text), look)
    before = {"start": 0.0, "middle": line.width / 2, "end": line.width}[words.anchor]
    x, y = left + words.x * scale - before, top + words.y * scale
    canvas.clear(x, y - RISE * look.size, line.width, HIGH * look.size)
    canvas.text(x, y, line)
