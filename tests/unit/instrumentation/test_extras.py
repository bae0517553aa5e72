"""Auxiliaries among figures are further players, and no family of figures is turned into another for them."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import InstrumentationError, read
from tests.unit.instrumentation.counts import counts

WOODWIND = {"flute": 3, "oboe": 2, "clarinet": 2, "bass-clarinet": 1, "bassoon": 2, "contrabassoon": 1}


@pytest.mark.parametrize(
    "text",
    [
        "3 2 2 Bkl 2 Kfg - 4 2 3 0",
        "3 2 2 Bkl 2 Kfg 4 2 3 0",
        "3 · 2 · 2 · Bkl. · 2 · Kfg. – 4 · 2 · 3 · 0",
        "3-2-2-bcl-2-cbn - 4-2-3-0",
        "3 2 2 bcl 2 cbn / 4 2 3 0",
    ],
)
def test_auxiliary_among_figures_is_one_more_player(text: str) -> None:
    assert counts(text) == {**WOODWIND, "horn": 4, "trumpet": 2, "trombone": 3}


def test_auxiliary_may_stand_first() -> None:
    assert counts("picc 2 2 ca 2 2 - 4 2 3 1")["piccolo"] == 1
    assert counts("picc 2 2 ca 2 2 - 4 2 3 1")["flute"] == 2


def test_four_figures_too_many_beside_named_strings_are_refused() -> None:
    with pytest.raises(InstrumentationError, match="strings are named apart"):
        read("2 2 2 2 - 4 2 3 1 - 2 2 2 2 - str")


@pytest.mark.parametrize(
    ("text", "offstage"),
    [
        ("3.2.2.2 – 4.2.3.1 – str + offstage brass: 4 tpt, 4 tbn", {"trumpet": 4, "trombone": 4}),
        ("2 fl, 2 ob, en coulisse : 2 trompettes, 2 trombones", {"trumpet": 2, "trombone": 2}),
        ("Offstage: 4 tpt, 4 tbn. 2 fl, 2 ob, str", {"trumpet": 4, "trombone": 4}),
    ],
)
def test_label_off_stage_holds_for_its_list(text: str, offstage: dict[str, int]) -> None:
    away = [line for line in read(text).lines if line.role == "offstage"]

    assert {line.instrument: line.players and line.players[1] for line in away} == offstage


@pytest.mark.parametrize(
    ("text", "optional"),
    [
        ("organ with optional brass quartet (2 trumpets, 2 trombones)", True),
        ("Orgel mit Bläserquartett ad lib. (2 Trompeten, 2 Posaunen)", True),
        ("organ with brass quartet (2 trumpets, 2 trombones)", False),
        ("organ with instruments (2 trumpets, 2 trombones)", False),
    ],
)
def test_bracket_tells_the_ensemble_before_it(text: str, optional: bool) -> None:
    reading = read(text)

    assert counts(text) == {"organ": 1, "trumpet": 2, "trombone": 2}
    assert {line.optional for line in reading.lines if line.family == "brass"} == {optional}


@pytest.mark.parametrize("text", ["organ (trumpet)", "piano (violin)", "flute (piano)"])
def test_change_to_another_family_comes_with_a_remark(text: str) -> None:
    assert [one.code for one in read(text).warnings] == ["strange-doubling"]


def test_comma_may_join_timpanist_and_percussionists_to_the_brass() -> None:
    found = counts("[3d1, 3, 3d1, 3 - 4, 3, 3, 1, 1+3, 2hp, str]")

    assert (found["tuba"], found["timpani"], found["percussion"]) == (1, 1, 3)
