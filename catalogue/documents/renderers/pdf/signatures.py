"""Lines to sign on: who attests what, side by side."""

from __future__ import annotations

from catalogue.documents.model import Signatures, Text
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both
from catalogue.documents.renderers.pdf.setting import SetLine
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import Look


def signature_items(signatures: Signatures, ground: Ground, parent: Element) -> list[Item]:
    """Lines to sign on, two side by side, all on one page."""
    sheet = ground.sheet.signatures
    pairs = [signatures.attested[start : start + 2] for start in range(0, len(signatures.attested), 2)]
    width = (ground.width - sheet.gutter) / 2
    items = []
    for row, pair in enumerate(pairs):
        drawings = [
            signature(text, signatures.asked, place * (width + sheet.gutter), width, ground, parent)
            for place, text in enumerate(pair)
        ]
        lead = sheet.row if row else sheet.lead + sheet.below
        items.append(Item(both(*drawings), lead=lead, keep=row < len(pairs) - 1))
    return items


def signature(text: Text, asked: Text, x: float, width: float, ground: Ground, parent: Element) -> Draw:
    sheet = ground.sheet.signatures
    left = ground.left + x
    attested, wanted = line_pair(text, sheet.attested, asked, sheet.asked, ground)
    element = parent.add("P")

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.artifact():
            canvas.rule(left, left + width, y - sheet.below, 0.5)
        with canvas.content(element):
            canvas.text(left, y, attested)
            canvas.text_to(left + width, y, wanted)

    return draw


def line_pair(left: Text, left_look: Look, right: Text, right_look: Look, ground: Ground) -> tuple[SetLine, SetLine]:
    return ground.line(left, left_look), ground.line(right, right_look)
