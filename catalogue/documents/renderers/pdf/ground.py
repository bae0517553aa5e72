"""What blocks are set on: sheet, paper and language, and the few ways in which lines are drawn."""

from __future__ import annotations

from dataclasses import dataclass, field

from catalogue.documents.labels import Labels
from catalogue.documents.model import Text
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Draw
from catalogue.documents.renderers.pdf.setting import Measure, SetLine, set_line, set_text
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import Look, Sheet
from catalogue.documents.sheets.paper import Size


@dataclass(frozen=True, slots=True)
class Ground:
    """The page that blocks are set on."""

    sheet: Sheet
    size: Size
    says: Labels
    left: float = field(init=False)
    right: float = field(init=False)
    width: float = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "left", self.sheet.margins.left)
        object.__setattr__(self, "right", self.size.width - self.sheet.margins.right)
        object.__setattr__(self, "width", self.right - self.left)

    def line(self, text: Text, look: Look) -> SetLine:
        return set_line(text, look, self.says.language)

    def lines(self, text: Text, look: Look, measure: float | Measure) -> tuple[SetLine, ...]:
        return set_text(text, look, measure, self.says.language)

    def first_line(self, text: Text, look: Look, measure: float) -> SetLine:
        """As much of a text as one line holds."""
        lines = self.lines(text, look, measure)
        return lines[0] if lines else SetLine(())


def column(lines: tuple[SetLine, ...], x: float, leading: float, element: Element) -> Draw:
    """Lines under one another from ``x`` on, as content of the element."""

    return lambda canvas, y, _fresh: canvas.column(element, x, y, leading, lines)


def both(*drawings: Draw) -> Draw:
    """Several drawings at one place."""

    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        for drawing in drawings:
            drawing(canvas, y, fresh)

    return draw


def right_line(line: SetLine, ground: Ground, element: Element, *, short: float = 0) -> Draw:
    """A line that ends where the text does, or so far before that."""

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            canvas.text_to(ground.right - short, y, line)

    return draw


def lowered(drawing: Draw, below: float) -> Draw:
    """A drawing whose first baseline lies so far below the place it is given."""
    return lambda canvas, y, fresh: drawing(canvas, y + below, fresh)


def depth(lines: tuple[SetLine, ...], leading: float) -> float:
    return max(len(lines) - 1, 0) * leading
