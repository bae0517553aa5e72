"""Entries of a works list, with the player strip under their duration."""

from __future__ import annotations

import math
from typing import NamedTuple

from catalogue.documents.model import Entry, Text
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Item
from catalogue.documents.renderers.pdf.ground import Ground, depth
from catalogue.documents.renderers.pdf.setting import Measure, SetLine
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import EntrySheet
from catalogue.drawings.player_strip import LINE_Y, Strip

FIGURE_ROOM = 40
"""Width kept free for the duration beside a title."""
ASCENT = 6.5
"""How far a line of details reaches above its baseline."""


class Hung(NamedTuple):
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


Told = tuple[float, float, float, tuple[SetLine, ...]]
"""Lines of one text of an entry: where they begin, the first one's baseline below that of the title, leading, lines."""


def entry_item(entry: Entry, ground: Ground, parent: Element) -> Item:
    """An entry as one item: title, margin, duration, strip and details, in this order."""
    sheet = ground.sheet.entry
    strip = hung(entry.strip, sheet, ground.width) if entry.strip else None
    title = ground.lines(entry.title, sheet.title, title_measure(sheet, strip, ground.width))
    below = depth(title, sheet.title.leading)
    details = detail_lines(entry.details, below, strip, ground)
    element = parent.add("Sect")
    head = (ground.left + sheet.title_x, 0.0, sheet.title.leading, title)
    marked = [(element.add("H3"), head), *((element.add("P"), one) for one in aside(entry, ground))]
    picture = element.add("Figure", alternative=strip.strip.title) if strip else None
    listed = [(element.add("P"), one) for one in details]

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        for mark, (x, lower, leading, lines) in marked:
            canvas.column(mark, x, y + lower, leading, lines)
        if strip and picture:
            with canvas.content(picture):
                canvas.strip(ground.left + strip.left, y + strip.top, strip.strip, strip.scale)
        for mark, (x, lower, leading, lines) in listed:
            canvas.column(mark, x, y + lower, leading, lines)

    ends = [y + depth(lines, leading) for _x, y, leading, lines in details[-1:]]
    last = max(below, margin_depth(entry, sheet), *ends)
    return Item(draw, lead=sheet.lead, depth=last)


def title_measure(sheet: EntrySheet, strip: Hung | None, width: float) -> float | Measure:
    """The room for each line of the title: the duration stands beside the first, the strip beside the next."""
    room = width - sheet.title_x - FIGURE_ROOM
    if strip is None:
        return room
    beside = math.ceil((strip.bottom + ASCENT) / sheet.title.leading)
    narrow = min(room, strip.left - 2 * sheet.strip_air - sheet.title_x)
    return lambda line: narrow if 0 < line < beside else room


def detail_lines(details: tuple[Text, ...], below: float, strip: Hung | None, ground: Ground) -> list[Told]:
    """The lines of each detail: as long as they stand beside the strip, they have less room."""
    sheet = ground.sheet.entry
    leading, x = sheet.detail.leading, ground.left + sheet.detail_x
    room = ground.width - sheet.detail_short
    narrow = room - (ground.width - strip.left) - sheet.strip_air if strip else room
    start = below + sheet.detail_lead
    found: list[Told] = []
    for detail in details:
        beside = math.ceil((strip.bottom + ASCENT - start) / leading) if strip else 0
        lines = ground.lines(detail, sheet.detail, measured(beside, narrow, room))
        found.append((x, start, leading, lines))
        start += len(lines) * leading
    return found


def measured(beside: int, narrow: float, room: float) -> float | Measure:
    """The room for each line of a detail, of which so many stand beside a strip."""
    return (lambda line: narrow if line < beside else room) if beside > 0 else room


def aside(entry: Entry, ground: Ground) -> list[Told]:
    """What stands beside an entry: the year on the title's baseline, number and edition on those of the details; the
    duration at the right."""
    sheet = ground.sheet.entry
    found: list[Told] = [
        (ground.left, margin_place(place, sheet), 0.0, (ground.line(text, sheet.number if place else sheet.year),))
        for place, text in enumerate(entry.margin)
    ]
    if entry.figure:
        line = ground.line(entry.figure, sheet.year)
        found.append((ground.right - line.width, 0.0, 0.0, (line,)))
    return found


def margin_place(line: int, sheet: EntrySheet) -> float:
    return sheet.detail_lead + (line - 1) * sheet.detail.leading if line else 0


def margin_depth(entry: Entry, sheet: EntrySheet) -> float:
    return margin_place(max(len(entry.margin) - 1, 0), sheet)
