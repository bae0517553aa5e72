"""Bound pages: folios in small Roman figures at the outer edge from the title page on, the running title inside.

A cover, a title page and blank pages bear neither. The pages are even in number, so that the music that follows them
begins on the right (common practice).
"""

from __future__ import annotations

from catalogue.documents.model import Document, joined, wording
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Placed
from catalogue.documents.renderers.pdf.ground import Ground

ROMAN = ((10, "x"), (9, "ix"), (5, "v"), (4, "iv"), (1, "i"))


def small_roman(number: int) -> str:
    """A number in small Roman figures.

    >>> small_roman(4), small_roman(19), small_roman(38)
    ('iv', 'xix', 'xxxviii')
    """
    figures = ""
    for unit, letters in ROMAN:
        figures += letters * (number // unit)
        number %= unit
    return figures


class Book:
    """The pages of a bound document, each ended with what stands at its foot."""

    def __init__(self, items: list[Placed], document: Document, ground: Ground) -> None:
        self.ground = ground
        self.running = joined(document.running, ", ")
        leaves = [one.page for one in items if one.item.leaf]
        self.first = max(leaves, default=0)
        self.told = {one.page for one in items} - set(leaves)

    def end_page(self, canvas: Canvas) -> None:
        number = canvas.number
        if number >= self.first:
            canvas.label(number, "", start=number - self.first + 1)
        else:
            canvas.label(number, self.ground.says.word("Inside cover" if number else "Cover"))
        if number in self.told:
            with canvas.artifact():
                self.foot(canvas, number - self.first + 1, is_left=bool(number % 2))
        canvas.turn()

    def foot(self, canvas: Canvas, folio: int, *, is_left: bool) -> None:
        ground, sheet = self.ground, self.ground.sheet
        y = ground.size.height - sheet.margins.foot
        figure = ground.line(wording(small_roman(folio)), sheet.folio)
        running = ground.first_line(self.running, sheet.running, ground.width - figure.width - 24)
        inner, outer = (running, figure) if not is_left else (figure, running)
        canvas.text(ground.left, y, inner)
        canvas.text_to(ground.right, y, outer)
