"""Colours of papers: how they are written, and which are too pale.

The contrasts of pure red and of the grey that just passes are those of WCAG 2.2 (relative luminance), reckoned by hand.
"""

from __future__ import annotations

import pytest

from catalogue.rules.inks import InkError, colour, contrast_on_white, hexadecimal, read_ink


@pytest.mark.parametrize("typed", ["#45388a", "45388A", "  #45388A "])
def test_a_colour_is_kept_in_one_form(typed: str) -> None:
    assert read_ink(typed) == "#45388a"


def test_contrast_goes_from_one_to_twenty_one() -> None:
    assert contrast_on_white((1, 1, 1)) == 1
    assert round(contrast_on_white((0, 0, 0)), 6) == 21
    assert round(contrast_on_white(colour("#ff0000")), 2) == 4.0  # luminance 0.2126: 1.05 / 0.2626
    assert contrast_on_white(colour("#767676")) >= 4.5 > contrast_on_white(colour("#777777"))


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ("violet", "Write a colour as six digits from 0 to f, two each for red, green and blue, such as #45388a."),
        ("#fff", "Write a colour as six digits from 0 to f, two each for red, green and blue, such as #45388a."),
        ("#ffe080", "This colour is too pale: its contrast on white is 1.3 to 1, and text needs 4.5 to 1."),
    ],
)
def test_what_is_no_colour_or_a_pale_one_is_refused_in_words(typed: str, reason: str) -> None:
    with pytest.raises(InkError) as refused:
        read_ink(typed)

    assert (refused.value.reason, refused.value.start, refused.value.end) == (reason, 0, len(typed))


def test_a_colour_comes_back_as_it_was_written() -> None:
    assert hexadecimal(colour("#0b4a5a")) == "#0b4a5a"
