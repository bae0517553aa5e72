"""A bar of a row, in per cent of its width."""

from __future__ import annotations

import pytest
from defusedxml.ElementTree import fromstring

from catalogue.drawings.bars import Bar, bar, to_svg


@pytest.mark.parametrize(
    ("counted", "placed"),
    [
        ((4, 0, 8), Bar(50, 50)),
        ((0, 2, 8), Bar(0, 25)),
        ((6, 2, 8), Bar(75, 100)),
        ((0, 0, 0), Bar(0, 0)),
        ((1, 0, 3), Bar(33.33, 33.33)),
    ],
)
def test_bar_is_placed(counted: tuple[int, int, int], placed: Bar) -> None:
    assert bar(*counted) == placed


@pytest.mark.parametrize(
    ("drawing", "marks"),
    [
        (Bar(50, 50), [("ink", None, "50%")]),
        (Bar(0, 25), [("hollow", "0%", "25%")]),
        (Bar(75, 100), [("ink", None, "75%"), ("hollow", "75%", "25%")]),
        (Bar(0, 0), []),
    ],
)
def test_past_is_filled_and_what_is_to_come_hollow(drawing: Bar, marks: list[tuple[str, str | None, str]]) -> None:
    drawn = fromstring(to_svg(drawing))

    assert [(one.get("class"), one.get("x"), one.get("width")) for one in drawn] == marks
