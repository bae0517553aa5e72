from __future__ import annotations

from datetime import date

import pytest

from catalogue.rules.texts import count_words, length_of, stale_biography, stale_note, too_long
from catalogue.terms import NoteLength
from catalogue.timing import PartialDate, read_date

TODAY = date(2026, 3, 9)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", 0),
        ("  \n ", 0),
        ("one", 1),
        ("The tide – twice a day.", 6),
        ("Δύο παλίρροιες", 2),
        ("潮汐", 2),
        ("Op. 潮汐 no. 3", 5),
    ],
)
def test_words_are_counted_by_spaces_and_signs_of_scripts_without_them(text: str, words: int) -> None:
    assert count_words(text) == words


@pytest.mark.parametrize(
    ("words", "length"),
    [(1, "one line"), (30, "one line"), (31, "short"), (100, "short"), (101, "medium"), (250, "medium"), (251, "long")],
)
def test_length_is_the_shortest_that_the_text_fits_into(words: int, length: str) -> None:
    assert length_of("word " * words) is NoteLength(length)


@pytest.mark.parametrize(
    ("words", "length", "limit", "says"),
    [
        (100, NoteLength.SHORT, None, ""),
        (101, NoteLength.SHORT, None, "It has 101 words, 1 more than a text of this length has (100)."),
        (900, NoteLength.LONG, None, ""),
        (120, NoteLength.SHORT, 150, ""),
        (60, NoteLength.SHORT, 50, "It has 60 words, 10 more than the limit of 50."),
    ],
)
def test_text_with_too_many_words_is_told(words: int, length: NoteLength, limit: int | None, says: str) -> None:
    assert too_long("word " * words, length, limit) == says


@pytest.mark.parametrize(
    ("as_of", "says"),
    [
        ("2025-03-09", ""),
        ("2025", ""),
        ("2025-03-08", "It is a year old; look whether it is still true."),
        ("2022", "It is 3 years old; look whether it is still true."),
        ("", "It does not say of what day it is true."),
    ],
)
def test_biography_goes_stale_after_a_year(as_of: str, says: str) -> None:
    assert stale_biography(read_date(as_of) if as_of else None, TODAY) == says


@pytest.mark.parametrize(
    ("as_of", "revised", "is_stale"),
    [
        ("2019", "2021", True),
        ("2021", "2021", False),
        ("2021-02", "2021-03-01", True),
        ("2021", "", False),
        ("", "2021", False),
    ],
)
def test_note_is_stale_only_where_the_work_was_surely_revised_after_it(
    as_of: str, revised: str, is_stale: bool
) -> None:
    def when(text: str) -> PartialDate | None:
        return read_date(text) if text else None

    assert bool(stale_note(when(as_of), when(revised))) is is_stale
