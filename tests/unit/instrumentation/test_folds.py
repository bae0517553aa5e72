"""So many of each woodwind with those who double, and numbers with another in a bracket (common practice)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read

THIRDS = "3(III=picc).3(III=corA).3(III=bcl).3(III=cbn)"


@pytest.mark.parametrize(
    "text",
    [
        "triple woodwind (third players doubling piccolo, cor anglais, bass clarinet, contrabassoon)",
        "triple woodwind, third players doubling piccolo, cor anglais, bass clarinet, contrabassoon",
        "triple woodwind (3rd players also picc, corA, bcl and cbn)",
        "woodwind a3 (thirds doubling picc, ca, bcl, cbn)",
        "triple woodwind (each third player doubling)",
        "dreifaches Holz (die dritten Spieler auch Picc, EH, BKl, KFg)",
        "bois par trois (les troisièmes jouant aussi piccolo, cor anglais, clarinette basse, contrebasson)",
        "legni a 3 (i terzi anche ottavino, corno inglese, clarinetto basso, controfagotto)",
        "maderas a 3 (los terceros también flautín, corno inglés, clarinete bajo, contrafagot)",
    ],
)
def test_the_last_of_each_woodwind_doubles_where_it_is_told(text: str) -> None:
    reading = read(text)

    assert reading.lines == read(THIRDS).lines
    assert reading.warnings == ()


def test_one_who_doubles_leaves_the_other_woodwind_and_says_so() -> None:
    reading = read("triple woodwind (3rd flute doubling piccolo), 4 horns")

    assert reading.lines == read("3(III=picc).3.3.3 – 4.0.0.0").lines
    assert [remark.code for remark in reading.warnings] == ["ensemble"]


def test_second_players_double_in_double_woodwind() -> None:
    reading = read("double woodwind (second players doubling piccolo, cor anglais, bass clarinet, contrabassoon), str")

    assert reading.lines == read("2(II=picc).2(II=corA).2(II=bcl).2(II=cbn) – str").lines


def test_auxiliaries_without_a_word_for_doubling_are_those_of_the_last_players() -> None:
    reading = read("triple woodwind (picc, corA, bcl, cbn)")

    assert reading.lines == read("2.picc.2.corA.2.bcl.2.cbn").lines
    assert [remark.code for remark in reading.warnings] == ["ensemble"]


@pytest.mark.parametrize(
    ("text", "players"),
    [
        ("two (or four) horns", (2, 4)),
        ("four (or two) horns", (2, 4)),
        ("zwei (oder vier) Hörner", (2, 4)),
        ("deux (ou quatre) cors", (2, 4)),
        ("due (o quattro) corni", (2, 4)),
        ("dos [o cuatro] trompas", (2, 4)),
        ("2 (evtl. 4) Hörner", (2, 4)),
        ("2 (possibly 4) horns", (2, 4)),
    ],
)
def test_a_second_number_in_a_bracket_makes_a_range(text: str, players: tuple[int, int]) -> None:
    reading = read(text)

    assert [(line.instrument, line.players) for line in reading.lines] == [("horn", players)]
    assert reading.warnings == ()


def test_more_players_in_a_bracket_are_a_note() -> None:
    assert [(line.players, line.note) for line in read("2 (or more) horns").lines] == [((2, 2), "or more")]
