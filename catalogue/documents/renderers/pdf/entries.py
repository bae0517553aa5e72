"""Entries of a works list, with the player strip under their duration."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.documents.model import Entry, Text
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both, column, depth
from catalogue.documents.renderers.pdf.setting import Measure, SetLine
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import EntrySheet
from catalogue.drawings.player_strip import LINE_Y, Strip

FIGURE_ROOM = 40
"""Width kept free for the duration beside a title."""
ASCENT = 6.5
"""How far a line of details reaches above its baseline."""


@dataclass(frozen=True, slots=True)
class Hung:
    """A strip where it hangs: ends from the left margin, top and bottom from the title's baseline."""

    strip: Strip
    left: float
    right: float
    top: float
    bottom: float
    scale: float


def hung(strip: Strip, sheet: EntrySheet, width: float) -> Hung:
    scale = sheet.strip_scale
    aside = sheet.strip_aside if strip.above and strip.width * scale < sheet.strip_narrow else 0
    right = width - aside
    top = sheet.strip_drop - LINE_Y * scale
    return Hung(strip, right - strip.width * scale, right, top, top + strip.height * scale, scale)


def entry_item(entry: Entry, ground: Ground, parent: Element) -> Item:
    sheet = ground.sheet.entry
    strip = hung(entry.strip, sheet, ground.width) if entry.strip else None
    element = parent.add("Sect")
    title = ground.lines(entry.title, sheet.title, lambda line: title_measure(line, sheet, strip, ground.width))
    below = depth(title, sheet.title.leading)
    details = detail_lines(entry.details, below, strip, ground)
    drawings = [
        column(title, ground.left + sheet.title_x, sheet.title.leading, element.add("H3")),
        margin(entry.margin, ground, element),
    ]
    if entry.figure:
        drawings.append(figure(entry.figure, ground, element.add("P")))
    if strip:
        drawings.append(strip_drawing(strip, ground.left, element.add("Figure", alternative=strip.strip.title)))
    for start, lines in details:
        drawings.append(paragraph(lines, start, ground, element.add("P")))
    last = max(
        below, *(start + depth(lines, sheet.detail.leading) for start, lines in details), margin_depth(entry, sheet)
    )
    return Item(both(*drawings), lead=sheet.lead, depth=last)


def title_measure(line: int, sheet: EntrySheet, strip: Hung | None, width: float) -> float:
    """The room for a line of the title: the duration stands beside the first, the strip beside the next."""
    room = width - sheet.title_x - FIGURE_ROOM
    if line and strip and line * sheet.title.leading - ASCENT < strip.bottom:
        return min(room, strip.left - 2 * sheet.strip_air - sheet.title_x)
    return room


def detail_lines(
    details: tuple[Text, ...], below: float, strip: Hung | None, ground: Ground
) -> list[tuple[float, tuple[SetLine, ...]]]:
    """The lines of each detail, with their first baseline counted from the title's."""
    sheet = ground.sheet.entry
    start = below + sheet.detail_lead
    found = []
    for detail in details:
        lines = ground.lines(detail, sheet.detail, detail_measure(start, strip, ground))
        found.append((start, lines))
        start += len(lines) * sheet.detail.leading
    return found


def detail_measure(start: float, strip: Hung | None, ground: Ground) -> Measure:
    """The room for each line of a detail that begins at ``start``: less beside the strip."""
    sheet = ground.sheet.entry
    room = ground.width - sheet.detail_short

    def measure(line: int) -> float:
        if strip and start + line * sheet.detail.leading - ASCENT < strip.bottom:
            return room - (ground.width - strip.left) - sheet.strip_air
        return room

    return measure


def margin(lines: tuple[Text, ...], ground: Ground, element: Element) -> Draw:
    """The year on the title's baseline, then number and edition on the baselines of the details."""
    sheet = ground.sheet.entry
    set_lines = [ground.line(text, sheet.number if place else sheet.year) for place, text in enumerate(lines)]
    marked = [element.add("P") for _ in set_lines]

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        for place, line in enumerate(set_lines):
            with canvas.content(marked[place]):
                canvas.text(ground.left, y + margin_place(place, sheet), line)

    return draw


def margin_place(line: int, sheet: EntrySheet) -> float:
    return sheet.detail_lead + (line - 1) * sheet.detail.leading if line else 0


def margin_depth(entry: Entry, sheet: EntrySheet) -> float:
    return margin_place(max(len(entry.margin) - 1, 0), sheet)


def figure(text: Text, ground: Ground, element: Element) -> Draw:
    line = ground.line(text, ground.sheet.entry.year)

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            canvas.text_to(ground.right, y, line)

    return draw


def strip_drawing(hanging: Hung, left: float, element: Element) -> Draw:
    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            canvas.strip(left + hanging.left, y + hanging.top, hanging.strip, hanging.scale)

    return draw


def paragraph(lines: tuple[SetLine, ...], start: float, ground: Ground, element: Element) -> Draw:
    sheet = ground.sheet.entry
    inner = column(lines, ground.left + sheet.detail_x, sheet.detail.leading, element)
    return lambda canvas, y, fresh: inner(canvas, y + start, fresh)
