"""The law of writing held on texts of the trade: what is written of them in any dress reads back to the same lines.

The texts and where each was published are in ``instrumentation/`` beside this file. A few ask for what no words of
their language tell apart; they are named with the reason; a text that comes to keep the law must leave the list.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path

import pytest

from catalogue.instrumentation import Instrumentation, InstrumentationError, read, write_shorthand, write_words
from catalogue.instrumentation.chairs_dress import write_chairs
from catalogue.instrumentation.page import write_page
from catalogue.instrumentation.vocabulary import LANGUAGES

TEXTS = Path(__file__).parent / "instrumentation" / "texts.jsonl"
BEYOND_WORDS = {
    "(mounted)/desk-bells": "fr",  # a keyboard doubled by instruments that are no usual doublings of it
    "Viola, Sopran, Bassflöte": "fr",  # the French viola beside a soprano reads as the alto voice
    "a taille (tenor oboe)": "de",  # the remark is the German name
}
"""Texts that do not keep the law, by a part of them, each with a language in which they do not."""

BEYOND_PAGES = {
    "(mounted)/desk-bells": "en-GB",  # as in words: a keyboard doubled by instruments that are no usual doublings of it
    "Woodwinds: piccolo, 2 flutes (2nd doubling piccolo)": "en-GB",  # two players of a word that is no instrument
    "a taille (tenor oboe)": "de",  # the remark is the German name
}
"""Texts whose pages do not keep the law, by a part of them, each with a language in which they do not."""


@cache
def told(text: str, language: str) -> Instrumentation | None:
    """Return the forces of a text, none of one that the reader refuses."""
    try:
        return read(text, language=language)
    except InstrumentationError:
        return None


def forces_of(row: dict[str, str]) -> Instrumentation | None:
    return told(row["text"], row["language"])


def says_back(row: dict[str, str], written: str, language: str | None = None) -> bool:
    return read(written, language=language) == forces_of(row)


def reads_back(row: dict[str, str], written: str, language: str) -> bool:
    try:
        return says_back(row, written, language)
    except InstrumentationError:
        return False


def is_beyond(row: dict[str, str], beyond: Mapping[str, str]) -> bool:
    return any(part in row["text"] for part in beyond)


ROWS = [row for row in map(json.loads, TEXTS.read_text(encoding="utf-8").splitlines()) if forces_of(row) is not None]


@pytest.mark.slow
@pytest.mark.parametrize("language", LANGUAGES)
def test_words_of_published_forces_read_back(language: str) -> None:
    kept = [row for row in ROWS if not is_beyond(row, BEYOND_WORDS)]

    assert [row["text"] for row in kept if not says_back(row, write_words(forces_of(row), language), language)] == []


def test_words_of_published_forces_read_back_in_their_own_language() -> None:
    kept = [row for row in ROWS[::6] if not is_beyond(row, BEYOND_WORDS)]
    spoken = [(row, row["language"] if row["language"] in LANGUAGES else "en-GB") for row in kept]

    assert [row["text"] for row, one in spoken if not says_back(row, write_words(forces_of(row), one), one)] == []


@pytest.mark.slow
@pytest.mark.parametrize("language", LANGUAGES)
def test_pages_of_published_forces_read_back(language: str) -> None:
    kept = [row for row in ROWS if not is_beyond(row, BEYOND_PAGES)]

    assert [row["text"] for row in kept if not says_back(row, write_page(forces_of(row), language), language)] == []


def test_pages_of_published_forces_read_back_in_their_own_language() -> None:
    kept = [row for row in ROWS[::6] if not is_beyond(row, BEYOND_PAGES)]
    spoken = [(row, row["language"] if row["language"] in LANGUAGES else "en-GB") for row in kept]

    assert [row["text"] for row, one in spoken if not says_back(row, write_page(forces_of(row), one), one)] == []


@pytest.mark.parametrize(("write", "exceptions"), [(write_words, BEYOND_WORDS), (write_page, BEYOND_PAGES)])
def test_what_a_dress_cannot_tell_apart_is_still_so(
    write: Callable[[Instrumentation, str], str], exceptions: Mapping[str, str]
) -> None:
    beyond = [(row, one) for row in ROWS for part, one in exceptions.items() if part in row["text"]]

    assert len(beyond) == len(exceptions)
    assert [row["text"] for row, one in beyond if reads_back(row, write(forces_of(row), one), one)] == []


@pytest.mark.slow
@pytest.mark.parametrize("write", [write_shorthand, write_chairs])
def test_figures_of_published_forces_read_back(write: Callable[[Instrumentation], str]) -> None:
    assert [row["text"] for row in ROWS if not says_back(row, write(forces_of(row)))] == []
