"""Keys to signs: the marks of player strips side by side, signs of notation on a stave one in a row."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.documents.model import Legend, Sign, plain
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.figures import draw_sketch
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both, column, depth, lowered, right_line
from catalogue.documents.renderers.pdf.setting import SetLine
from catalogue.documents.renderers.pdf.tags import Element, more
from catalogue.drawings.player_strip import LINE_Y, Strip
from catalogue.drawings.sketch import Drawable

RULE = 0.7
FIGURE_AIR = 14
UNITS = 200.0
"""Units that a sign is drawn wide; the sheet says how many points that is."""


def legend_items(legend: Legend, ground: Ground, parent: Element) -> list[Item]:
    if not legend.head:
        return [legend_item(legend, ground, parent)]
    listed = parent.add("L")
    rows = [key_row(sign, ground, listed.add("LI"), place) for place, sign in enumerate(legend.signs)]
    return [key_head(legend, ground, parent), *key_note(legend, ground, parent), *rows]


def key_head(legend: Legend, ground: Ground, parent: Element) -> Item:
    sheet = ground.sheet.legend.key
    element = parent.add("H3")
    lines = ground.lines(legend.head, sheet.head, ground.width)
    deep = depth(lines, sheet.head.leading)
    told = column(lines, ground.left, sheet.head.leading, element)

    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        told(canvas, y, fresh)
        with canvas.artifact():
            canvas.rule(ground.left, ground.right, y + deep + sheet.head_rule, RULE)

    return Item(draw, lead=sheet.head_lead, depth=deep, keep=True)


def key_note(legend: Legend, ground: Ground, parent: Element) -> list[Item]:
    """What holds for all signs under a head; it stays with the first of them."""
    sheet = ground.sheet.legend.key
    lines = ground.lines(legend.note, sheet.name, ground.width - sheet.short)
    if not lines:
        return []
    told = column(lines, ground.left, sheet.name.leading, parent.add("P"))
    return [Item(told, lead=sheet.note_lead, depth=depth(lines, sheet.name.leading), keep=True)]


def key_row(sign: Sign, ground: Ground, element: Element, place: int) -> Item:
    """A sign on its stave, its name and what to do beside it, at the right how much or where; whole on one page."""
    sheet = ground.sheet.legend.key
    label, body = element.add("Lbl"), element.add("LBody")
    figure = ground.first_line(sign.figure, sheet.name, ground.width / 2)
    measure = ground.width - sheet.x - max(sheet.short, figure.width + FIGURE_AIR)
    name = ground.lines(sign.meaning, sheet.name, measure)
    detail = ground.lines(sign.detail, sheet.detail, ground.width - sheet.x - sheet.short / 2)
    below = depth(name, sheet.name.leading) + sheet.detail_lead
    drawings = [
        column(name, ground.left + sheet.x, sheet.name.leading, body),
        lowered(column(detail, ground.left + sheet.x, sheet.detail.leading, body), below),
    ]
    if sign.figure:
        drawings.append(right_line(figure, ground, body))
    has_stave = False
    if sign.drawing is not None and not isinstance(sign.drawing, Strip):
        label.role, label.more = "Figure", more(alternative=plain(sign.meaning))
        drawings.append(sign_on_stave(sign.drawing, ground, label))
        has_stave = True
    deep = below + depth(detail, sheet.detail.leading) if detail else depth(name, sheet.name.leading)
    lead = sheet.row - sheet.rise if has_stave else sheet.bare_row
    tail = max(0.0, sheet.rise - deep) if has_stave else 0.0
    opens = sheet.first_lead if has_stave else sheet.note_lead
    return Item(both(*drawings), lead=lead if place else opens, depth=deep, tail=tail)


def sign_on_stave(drawing: Drawable, ground: Ground, element: Element) -> Draw:
    sheet = ground.sheet.legend.key
    sketch = drawing.sketch(UNITS)

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            draw_sketch(canvas, sketch, ground, (ground.left, y - sheet.rise), sheet.drawing / UNITS)

    return draw


def legend_item(legend: Legend, ground: Ground, parent: Element) -> Item:
    sheet = ground.sheet.legend
    listed = parent.add("L")
    drawings: list[Draw] = []
    row = 0
    x = sheet.x
    for strip, line, width in measured(legend.signs, ground):
        if x > sheet.x and x + width > ground.width:
            row, x = row + 1, sheet.x
        drawings.append(strip_sign(strip, line, x, row, ground, listed.add("LI")))
        x += width + sheet.between
    return Item(both(*drawings), lead=sheet.lead, depth=row * sheet.row)


def measured(signs: tuple[Sign, ...], ground: Ground) -> Iterator[tuple[Strip, SetLine, float]]:
    sheet = ground.sheet.legend
    for sign in signs:
        if isinstance(sign.drawing, Strip):
            line = ground.line(sign.meaning, sheet.look)
            yield sign.drawing, line, sign.drawing.width + sheet.after_drawing + line.width


def strip_sign(strip: Strip, line: SetLine, x: float, row: int, ground: Ground, element: Element) -> Draw:
    sheet = ground.sheet.legend
    place = ground.left + x
    label, body = element.add("Lbl"), element.add("LBody")

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        y += row * sheet.row
        with canvas.content(label):
            canvas.strip(place, y - sheet.rise - LINE_Y, strip, 1)
        with canvas.content(body):
            canvas.text(place + strip.width + sheet.after_drawing, y, line)

    return draw
