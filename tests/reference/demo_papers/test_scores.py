"""The sheet of questions for the front of the demo's scores, asked of the text of their pages.

What is looked for is what librarians look for (MOLA, Guidelines for Music Preparation) and all that was entered.
"""

from __future__ import annotations

import re

import pytest

from catalogue.documents.contents.prose import paragraphs
from catalogue.timing import write_duration
from tests.reference.demo_papers.papers import Papers, Score

pytestmark = pytest.mark.django_db

BLANK = 1


@pytest.fixture
def scores(papers: Papers) -> tuple[Score, ...]:
    assert len(papers.scores) >= 3
    return papers.scores


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def lost(score: Score, wanted: list[str]) -> list[str]:
    """What is not on the pages, whatever the lines break."""
    told = squeezed(score.sheet.text)
    return [one for one in wanted if one and squeezed(one) not in told]


def test_every_movement_is_told_with_its_duration(scores: tuple[Score, ...]) -> None:
    for score in scores:
        assert score.sheet.work is not None
        movements = score.sheet.work.movements
        assert lost(score, [one.title for one in movements]) == []
        assert lost(score, [write_duration(one.duration) for one in movements if one.duration]) == []


def test_every_instrument_sign_and_tuning_is_told(scores: tuple[Score, ...]) -> None:
    for score in scores:
        records = score.records
        wanted = [one.instrument for one in records.percussion] + [one.name for one in records.signs]
        wanted += [one.name for one in records.tunings] + [one.instrument for one in records.retunings]
        assert lost(score, wanted) == []


def test_every_note_for_players_and_operator_is_told(scores: tuple[Score, ...]) -> None:
    for score in scores:
        notes = score.records.performance_notes
        assert lost(score, [word for one in notes for word in one.heading.split()]) == []
        assert [one.heading for one in notes if lost(score, [paragraphs(one.body)[0][:40]])] == []


def test_title_page_says_which_edition_it_is(scores: tuple[Score, ...]) -> None:
    for score in scores:
        edition = score.edition
        told = squeezed(score.sheet.pages[2])
        for line in (edition.number, edition.ismn, edition.printing, edition.copyright_line, edition.published_by):
            assert squeezed(line) in told


def test_cleared_words_and_their_translation_are_there(scores: tuple[Score, ...]) -> None:
    texts = [(score, one) for score in scores for one in score.records.text_sources]

    assert texts
    for score, one in texts:
        assert lost(score, [*one.body.splitlines(), *one.translation.splitlines(), one.credit]) == []


def test_pages_are_even_in_number_and_none_but_those_inside_the_covers_is_empty(scores: tuple[Score, ...]) -> None:
    for score in scores:
        empty = [number for number, page in enumerate(score.sheet.pages) if not page.strip()]

        assert len(score.sheet.pages) % 2 == 0
        assert set(empty) <= {BLANK, len(score.sheet.pages) - 1}


def test_every_head_has_something_under_it(scores: tuple[Score, ...]) -> None:
    for score in scores:
        for number, page in enumerate(score.sheet.pages[3:], start=3):
            lines = [line for line in page.splitlines() if line.strip()]
            assert not lines or len(lines) > 2, (score.sheet.name, number)


def test_electronics_are_told_with_cautions_and_a_date(scores: tuple[Score, ...]) -> None:
    powered = [score for score in scores if "Technical requirements" in score.sheet.text]

    assert len(powered) >= 2
    for score in powered:
        assert lost(score, ["Mains.", "Documented"]) == []
