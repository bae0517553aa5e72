"""Levels of mixed text, each value an isolate (Unicode Standard Annex 9)."""

from __future__ import annotations

from dataclasses import dataclass

from hypothesis import given
from hypothesis import strategies as st

from catalogue.documents.model import Run, Text, value, wording
from catalogue.documents.renderers.pdf.bidi import in_visual_order, text_levels


@dataclass(frozen=True)
class Sign:
    text: str
    level: int


def seen(text: Text) -> str:
    """The text as it stands from left to right, brackets not mirrored."""
    signs = [
        Sign(sign, level) for sign, level in zip("".join(run.text for run in text), text_levels(text), strict=True)
    ]
    return "".join(sign.text for sign in in_visual_order(signs))


def test_a_line_that_reads_from_left_to_right_stays_as_it_is() -> None:
    assert seen((*wording("First performed by "), *value("Ada Quill"))) == "First performed by Ada Quill"


def test_an_arabic_value_is_turned_and_what_follows_stays_on_its_right() -> None:
    assert seen((*value("אבג"), *wording(" (2019) for "), *value("Duo"))) == "גבא (2019) for Duo"


def test_a_colon_after_an_arabic_title_belongs_to_the_sentence() -> None:
    assert seen((*value("אב"), *wording(": "), *value("גד"))) == "בא: דג"


def test_a_value_that_ends_in_figures_takes_nothing_from_its_surroundings() -> None:
    assert seen((*wording("no. "), *value("אב 12"), *wording(" – 34"))) == "no. 12 בא – 34"


def test_latin_inside_an_arabic_value_keeps_its_order() -> None:
    assert seen(value("אב Duo גד")) == "דג Duo בא"


def test_items_of_two_levels_are_turned_twice() -> None:
    signs = [Sign("a", 0), Sign("b", 1), Sign("c", 2), Sign("d", 2), Sign("e", 1), Sign("f", 0)]

    assert "".join(sign.text for sign in in_visual_order(signs)) == "aecdbf"


EVERY_KIND = "aא1ع٣+,.\t\n \u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u0301\u200f\U00018d09\U0001097f"


@given(st.text(EVERY_KIND, max_size=40))
def test_every_kind_of_character_has_a_level(text: str) -> None:
    assert len(text_levels(value(text))) == len(text)


@given(st.lists(st.tuples(st.text(max_size=12), st.booleans()), max_size=6))
def test_every_character_has_a_level(parts: list[tuple[str, bool]]) -> None:
    text = tuple(Run(part, value=is_value) for part, is_value in parts if part)

    levels = text_levels(text)

    assert len(levels) == sum(len(run.text) for run in text)
    assert all(level >= 0 for level in levels)
