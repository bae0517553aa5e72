"""Which of the counted players also play, or play only, what a bracket or a clause after them names."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2 clarinets (the second of whom doubles on bass clarinet), piano", "2cl(II=bcl) – pf"),
        ("2 clarinets (the 2nd of whom doubles on bass clarinet), piano", "2cl(II=bcl) – pf"),
        ("2 clarinets, the second of whom doubles on bass clarinet, piano", "2cl(II=bcl) – pf"),
        ("2 clarinets (one of whom doubles on bass clarinet), piano", "2cl(bcl) – pf"),
    ],
)
def test_players_are_told_by_of_whom(text: str, written: str) -> None:
    assert shorthand(read(text)) == written
    assert read(text).warnings == ()
