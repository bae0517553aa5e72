"""Players who are told in a bracket and stand elsewhere are players of their own."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize("text", ["2 hn, str (offstage: fl, ob)", "2 hn (hinter der Szene: fl, ob), str"])
def test_players_in_a_bracket_with_a_place_are_read_beside_the_rest(text: str) -> None:
    lines = read(text).lines

    assert [(line.instrument, line.role) for line in lines if line.family in ("brass", "woodwind")] == [
        ("horn", "ensemble"),
        ("flute", "offstage"),
        ("oboe", "offstage"),
    ]
    assert [line.note for line in lines] == [""] * len(lines)


def test_a_bracket_that_only_counts_stays_with_its_line() -> None:
    assert [(line.role, line.players) for line in read("4 tpt (2 offstage)")] == [
        ("ensemble", (2, 2)),
        ("offstage", (2, 2)),
    ]
