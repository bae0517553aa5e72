"""Two short sections side by side, each on half of the width."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from catalogue.documents.model import Section
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Item
from catalogue.documents.renderers.pdf.ground import Ground
from catalogue.documents.renderers.pdf.tags import Element

Make = Callable[[Section, Ground, Element], list[Item]]
"""Makes the items of a section."""


def beside(left: Section, right: Section, ground: Ground, parent: Element, make: Make) -> Item | None:
    """Both sections as one item; nothing where they are too long to stand on a page like that."""
    grounds = halves(ground)
    trial = [make(section, half, Element("Sect")) for section, half in zip((left, right), grounds, strict=True)]
    margins = ground.sheet.margins
    if max(map(height, trial)) > ground.size.height - margins.last - margins.later:
        return None
    columns = [make(section, half, parent) for section, half in zip((left, right), grounds, strict=True)]
    deepest = max(height(column) - column[0].lead for column in columns)

    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        for column in columns:
            below = y - column[0].lead
            for item in column:
                below += item.lead
                item.draw(canvas, below, fresh)
                below += item.depth + item.tail

    return Item(draw, lead=max(column[0].lead for column in columns), depth=deepest)


def height(column: list[Item]) -> float:
    return sum(item.lead + item.depth + item.tail for item in column)


def halves(ground: Ground) -> tuple[Ground, Ground]:
    """The ground of either half: the columns of tables and facts that stand in one, figures over all of it."""
    sheet = ground.sheet
    wide = (ground.width + sheet.gutter) / 2
    narrow = replace(
        sheet,
        ruled_table=replace(sheet.ruled_table, columns=sheet.ruled_table.halved),
        prose=replace(sheet.prose, short=0),
        figure=replace(sheet.figure, share=sheet.figure.half_share),
    )
    margins = sheet.margins
    left = replace(narrow, margins=replace(margins, right=margins.right + wide))
    right = replace(narrow, margins=replace(margins, left=margins.left + wide))
    return replace(ground, sheet=left), replace(ground, sheet=right)
