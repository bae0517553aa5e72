"""Texts of paragraphs: which is printed, and how it is shortened from its end."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.documents.contents.prose import Prose, blocks_of, chosen, paragraphs, shortened
from catalogue.documents.model import Style, Voice

ENGLISH = Prose("Four words of English.", "en-GB")
LONG_ENGLISH = Prose("Six words of English, which fit.", "en-GB")
GERMAN = Prose("Drei deutsche Wörter.", "de")
NAMELESS = Prose("Nobody says in which.")


@pytest.mark.parametrize(
    ("language", "most", "expected"),
    [
        ("en-GB", None, LONG_ENGLISH),
        ("en-US", 5, ENGLISH),
        ("en-GB", 2, ENGLISH),
        ("de", None, GERMAN),
        ("fr", None, NAMELESS),
    ],
)
def test_text_is_chosen_by_language_and_length(language: str, most: int | None, expected: Prose) -> None:
    assert chosen((GERMAN, ENGLISH, LONG_ENGLISH, NAMELESS), language, most) == expected


def test_there_is_no_text_where_none_is_written() -> None:
    assert chosen((Prose(" "), Prose("")), "en") is None


def test_abbreviations_in_a_sentence_are_left_whole_or_out() -> None:
    assert shortened("It rains. It pours, they say. The sea rises.", 6) == ("It rains. It pours, they say.",)


@given(st.text(alphabet="ab. \n!", max_size=80), st.integers(0, 12))
def test_what_is_left_is_a_beginning_and_within_the_limit(body: str, most: int) -> None:
    whole, left = paragraphs(body), shortened(body, most)

    assert sum(len(part.split()) for part in left) <= most
    assert all(kept == part for kept, part in zip(left[:-1], whole, strict=False))
    assert not left or whole[len(left) - 1].startswith(left[-1])


def test_a_name_at_the_beginning_stands_out() -> None:
    first, second = blocks_of(("Ada Quill writes.", "Ada Quill sleeps."), Voice.LIFE, named="Ada Quill")

    assert [(run.text, run.style) for run in first.text] == [("Ada Quill", Style.STRONG), (" writes.", Style.PLAIN)]
    assert [run.style for run in second.text] == [Style.PLAIN]
