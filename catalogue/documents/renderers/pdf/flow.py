"""How measured things follow one another down the pages.

An item knows how far its first baseline lies below what came before, how far its last lies below its first, and what
must be told again above it when it begins a page. Items that keep together move to the next page together; nothing is
stretched to fill a page.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.sheets.geometry import Margins

Draw = Callable[[Canvas, float, bool], None]
"""Draws an item, its first baseline at a place; told whether it begins a page."""


@dataclass(slots=True, eq=False)
class Item:
    """``lead`` above, ``depth`` between first and last baseline, ``tail`` below the last to where the next item starts.

    ``keep``: stays with the next item. ``again``: items drawn above it where it begins a page, with ``fresh_lead``
    instead of ``lead`` below them. ``begins``: starts a page. ``leaf``: has a page to itself, on the right-hand side.
    """

    draw: Draw
    lead: float
    depth: float = 0
    tail: float = 0
    keep: bool = False
    again: tuple[Item, ...] = ()
    fresh_lead: float | None = None
    begins: bool = False
    leaf: bool = False


@dataclass(slots=True)
class Placed:
    item: Item
    page: int
    y: float
    fresh: bool


def placed(items: list[Item], margins: Margins, height: float) -> list[Placed]:
    """Give every item its page and baseline."""
    flow = Flow(margins, height - margins.last)
    start = 0
    while start < len(items):
        end = start + 1
        while end < len(items) and items[end - 1].keep:
            end += 1
        flow.add(items[start:end])
        start = end
    return flow.placed


class Flow:
    """The pages so far; ``cursor`` is where the last item ended, ``None`` at the top of a page."""

    def __init__(self, margins: Margins, limit: float) -> None:
        self.margins = margins
        self.limit = limit
        self.page = 0
        self.cursor: float | None = None
        self.placed: list[Placed] = []

    def add(self, chunk: list[Item]) -> None:
        """Place items that keep together; a chunk longer than a page is broken where it must be."""
        if self.cursor is not None and (chunk[0].begins or not self.fits(chunk)):
            self.turn()
        if chunk[0].leaf and self.page % 2:
            self.turn()
        for item in chunk:
            if self.cursor is not None and not self.fits([item]):
                self.turn()
            self.put(item)

    def fits(self, chunk: list[Item]) -> bool:
        y = self.cursor or 0.0
        for item in chunk:
            y += item.lead + item.depth
            if y > self.limit + 0.01:
                return False
            y += item.tail
        return True

    def turn(self) -> None:
        self.page += 1
        self.cursor = None

    def put(self, item: Item) -> None:
        fresh = self.cursor is None
        if fresh:
            for repeated in item.again:
                self.set(repeated, fresh=True)
        self.set(item, fresh=fresh)

    def set(self, item: Item, *, fresh: bool) -> None:
        if self.cursor is None:
            y = self.margins.later if self.page else self.margins.first
        else:
            y = self.cursor + (item.fresh_lead if fresh and item.fresh_lead is not None else item.lead)
        self.placed.append(Placed(item, self.page, y, fresh))
        self.cursor = y + item.depth + item.tail
