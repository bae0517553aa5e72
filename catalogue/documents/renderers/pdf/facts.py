"""Facts with their labels: side by side, in a narrow column, or one after another down the pages."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.model import Pair, Pairs
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both, column, depth, lowered
from catalogue.documents.renderers.pdf.setting import SetLine
from catalogue.documents.renderers.pdf.tags import Element

RULE = 0.7
LABEL_AIR = 10
"""Points kept free between a label that is turned over and its fact."""


def pairs_items(pairs: Pairs, ground: Ground, parent: Element) -> list[Item]:
    """The facts as the sheet has them."""
    sheet = ground.sheet.pairs
    if sheet.apart or (sheet.alone and len(pairs.groups) == 1):
        return listed_items(pairs, ground, parent)
    return [pairs_item(pairs, ground, parent)]


def listed_items(pairs: Pairs, ground: Ground, parent: Element) -> list[Item]:
    """One fact after another, line by line; its first lines stay with the label, and no line is left alone."""
    sheet = ground.sheet.pairs
    items: list[Item] = []
    for pair in (pair for group in pairs.groups for pair in group):
        lead = sheet.between if pair.label else sheet.value.leading * 1.35
        items += [
            replace(item, lead=lead if not place else item.lead)
            for place, item in enumerate(pair_items(pair, ground, parent))
        ]
    return [replace(items[0], lead=sheet.lead), *items[1:]] if items else items


def pair_items(pair: Pair, ground: Ground, parent: Element) -> list[Item]:
    sheet = ground.sheet.pairs
    label_x, value_x, end = sheet.alone or sheet.columns[0]
    label = ground.lines(pair.label, sheet.label, value_x - label_x - LABEL_AIR)
    lines = ground.lines(pair.value, sheet.value, min(end, ground.width) - value_x)
    told = column(label, ground.left + label_x, sheet.label.leading, parent.add("P"))
    said = lines_apart(lines, ground.left + value_x, sheet.value.leading, parent.add("P"))
    first = replace(said[0], draw=both(told, said[0].draw))
    short = max(0.0, depth(label, sheet.label.leading) - depth(lines, sheet.value.leading))
    whole = [first, *said[1:]]
    return [*whole[:-1], replace(whole[-1], tail=short)]


def lines_apart(lines: tuple[SetLine, ...], x: float, leading: float, element: Element) -> list[Item]:
    """Lines of one text as items of their own; neither the first nor the last stands alone on a page."""
    last = len(lines) - 1
    return [
        Item(column((line,), x, leading, element), lead=leading, keep=place < last and place in (0, last - 1))
        for place, line in enumerate(lines)
    ]


def pairs_item(pairs: Pairs, ground: Ground, parent: Element) -> Item:
    """Groups of facts side by side, as far as the sheet has columns; further groups go on below the last."""
    sheet = ground.sheet.pairs
    if sheet.stacked:
        return stacked_item(pairs, ground, parent)
    columns: list[list[Pair]] = [[] for _ in sheet.columns]
    for place, group in enumerate(pairs.groups):
        columns[min(place, len(columns) - 1)] += group
    drawings: list[Draw] = []
    deepest = 0.0
    for (label_x, value_x, end), column_pairs in zip(sheet.columns, columns, strict=True):
        y = 0.0
        for pair in column_pairs:
            lines = ground.lines(pair.value, sheet.value, min(end, ground.width) - value_x)
            drawings.append(pair_drawing(pair, lines, (label_x, value_x, y), ground, parent))
            deepest = max(deepest, y + depth(lines, sheet.value.leading))
            y += max(len(lines), 1) * sheet.value.leading
    return Item(both(*drawings), lead=sheet.lead, depth=deepest)


def stacked_item(pairs: Pairs, ground: Ground, parent: Element) -> Item:
    """Facts under one another in a narrow column; what follows stands beside them."""
    sheet = ground.sheet.pairs
    drawings: list[Draw] = [rule_over(sheet.rule_above, ground)] if sheet.rule_above else []
    y = 0.0
    for pair in (pair for group in pairs.groups for pair in group):
        label = ground.lines(pair.label, sheet.label, sheet.stacked)
        lines = ground.lines(pair.value, sheet.value, sheet.stacked)
        drawings.append(lowered(column(label, ground.left, sheet.label.leading, parent.add("P")), y))
        y += sheet.label.leading
        drawings.append(lowered(column(lines, ground.left, sheet.value.leading, parent.add("P")), y))
        y += (len(lines) + 0.8) * sheet.value.leading
    return Item(both(*drawings), lead=sheet.lead, keep=True)


def rule_over(above: float, ground: Ground) -> Draw:
    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.artifact():
            canvas.rule(ground.left, ground.right, y - above, RULE)

    return draw


def pair_drawing(
    pair: Pair, lines: tuple[SetLine, ...], place: tuple[float, float, float], ground: Ground, parent: Element
) -> Draw:
    sheet = ground.sheet.pairs
    label_x, value_x, below = place
    label = (ground.line(pair.label, sheet.label),)
    drawing = both(
        column(label, ground.left + label_x, sheet.label.leading, parent.add("P")),
        column(lines, ground.left + value_x, sheet.value.leading, parent.add("P")),
    )
    return lowered(drawing, below)
