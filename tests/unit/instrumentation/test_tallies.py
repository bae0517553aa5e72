"""A number of players that introduces a list is compared with the list."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("3 players: fl, ob, cl", []),
        ("3 players: fl, ob, cl, bn", ["3 players"]),
        ("ensemble of 4 players: 1.1.1.1", []),
        ("ensemble of 5 players: 1.1.1.1", ["ensemble of 5 players"]),
        ("soprano and 3 players: fl, vc, pf", []),
        ("12 players: 2 ob, 2 hn, strings", []),
    ],
)
def test_a_number_that_is_not_that_of_the_list_is_said(text: str, places: list[str]) -> None:
    warned = [text[one.start : one.end] for one in read(text).warnings if one.code == "numbers-differ"]

    assert warned == places
