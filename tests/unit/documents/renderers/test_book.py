"""Bound pages: what does not fit on the title page, notes that go on over pages, what the pages are called."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest

from catalogue.documents.model import Document, Line, Opening, Paper, value
from catalogue.documents.registry import render
from catalogue.record_facts import PerformanceNoteFacts
from tests.reference.documents.scores import RECORDS, score
from tests.reference.test_front_matter_questions import outside, pages_of
from tests.unit.documents.renderers.test_pdf import pages_of as positions


def with_movements(number: int) -> Document:
    made = score(paper=Paper.A4)
    parts = tuple(Line(str(place), value(f"Movement called {place}")) for place in range(1, number + 1))
    blocks = (replace(one, parts=parts) if isinstance(one, Opening) and one.parts else one for one in made.blocks)
    return replace(made, blocks=tuple(blocks))


@pytest.mark.parametrize(("number", "listed"), [(6, True), (40, False)])
def test_movements_stand_on_the_title_page_as_far_as_there_is_room(number: int, listed: bool) -> None:
    page = pages_of(with_movements(number))[2]

    assert ("Movement called 1" in page, "© 2024 Ada Quill" in page) == (listed, True)


def test_a_cover_that_names_nobody_keeps_its_title_from_the_edge() -> None:
    made = score(paper=Paper.A4)
    nameless = [replace(one, composer=()) if isinstance(one, Opening) else one for one in made.blocks]

    for page in positions(render(replace(made, blocks=tuple(nameless)), "pdf"))[:3]:
        assert all(60 < y < 782 for _x, y, _word in page)


def test_a_long_note_goes_on_over_pages_and_leaves_none() -> None:
    note = PerformanceNoteFacts(1, " ".join(f"Sentence {place} asks for nothing." for place in range(400)), "Long")
    made = score(paper=Paper.A4, records=replace(RECORDS, performance_notes=(note,)))
    pages = pages_of(made)

    told = [page for page in pages if "asks for nothing" in page]
    assert len(told) > 1
    assert "Performance notes continued" in " ".join(told[1].split())
    assert "Sentence 399" in " ".join(told[-1].split())
    assert outside(render(made, "pdf"), 595.3, 841.9) == []


def test_pages_are_called_as_they_are_numbered() -> None:
    with pikepdf.open(BytesIO(render(score(), "pdf"))) as pdf:
        assert [page.label for page in pdf.pages][:5] == ["Cover", "Inside cover", "i", "ii", "iii"]
