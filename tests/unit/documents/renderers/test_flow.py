"""What comes on which page."""

from __future__ import annotations

from collections import Counter

import pytest

from catalogue.documents.model import Document, Line, Lines, Opening, Paper, Section, value
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Item, placed
from catalogue.documents.renderers.pdf.pages import ground_of, laid_out
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import Margins

MARGINS = Margins(first=50, later=40, last=20)


def nothing(_canvas: Canvas, _y: float, _fresh: bool) -> None:
    """Draw nothing."""


def places(*items: Item, height: float = 120) -> list[tuple[int, float, bool]]:
    return [(one.page, one.y, one.fresh) for one in placed(list(items), MARGINS, height)]


def test_the_first_item_of_a_page_stands_on_its_first_baseline_whatever_its_lead() -> None:
    assert places(Item(nothing, lead=30), Item(nothing, lead=60)) == [(0, 50, True), (1, 40, True)]


def test_an_item_follows_the_last_baseline_and_tail_of_the_one_before() -> None:
    assert places(Item(nothing, lead=0, depth=10, tail=5), Item(nothing, lead=20)) == [(0, 50, True), (0, 85, False)]


def test_an_item_is_never_split() -> None:
    assert places(Item(nothing, lead=0), Item(nothing, lead=10, depth=50)) == [(0, 50, True), (1, 40, True)]


def test_items_that_keep_together_move_together() -> None:
    head, body = Item(nothing, lead=20, keep=True), Item(nothing, lead=40)

    assert places(Item(nothing, lead=0), head, body) == [(0, 50, True), (1, 40, True), (1, 80, False)]


def test_what_keeps_together_but_is_longer_than_a_page_goes_on_to_the_next() -> None:
    chain = [Item(nothing, lead=30, keep=True) for _ in range(4)]

    assert places(*chain) == [(0, 50, True), (0, 80, False), (1, 40, True), (1, 70, False)]


def test_what_is_told_again_stands_above_an_item_that_begins_a_page_and_not_elsewhere() -> None:
    again = Item(nothing, lead=0)
    items = [Item(nothing, lead=30, again=(again,), fresh_lead=15) for _ in range(3)]

    assert places(Item(nothing, lead=0), *items) == [
        (0, 50, True),
        (0, 80, False),
        (1, 40, True),
        (1, 55, True),
        (1, 85, False),
    ]


@pytest.mark.parametrize("number", range(2, 90))
def test_no_line_of_a_list_stands_alone_on_a_page(number: int) -> None:
    lines = Lines(tuple(Line(str(2000 + place), value(f"Line {place}")) for place in range(number)))
    document = Document("cv-section", "T", "A", "en-GB", Paper.A4, (Opening(value("T")), Section(value("S"), (lines,))))

    items = laid_out(document, ground_of(document), Element("Document"))

    told = Counter(one.page for one in items[-number:])
    assert sum(told.values()) == number
    assert min(told.values()) >= 2
