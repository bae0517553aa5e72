"""Timelines on the page: the same drawing as on screen, its units in points."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.documents.model import Figure, plain, wording
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Item
from catalogue.documents.renderers.pdf.ground import Ground
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import FigureSheet, Look
from catalogue.drawings.timeline import (
    CUE_BELOW,
    CUE_ROW,
    CUE_TICK,
    FIGURE_AFTER,
    FREE,
    MINUTE_BELOW,
    TICK,
    Picture,
    Words,
    timeline,
)


def figure_item(figure: Figure, ground: Ground, parent: Element) -> Item:
    """A caption and the drawing below it, whole on one page."""
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
