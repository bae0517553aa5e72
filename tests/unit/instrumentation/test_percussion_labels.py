"""Numbered players whose lists name percussion alone are percussionists, whatever word labels them."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from tests.unit.instrumentation.counts import counts


@pytest.mark.parametrize(
    "text",
    [
        "Player 1: vibraphone, bass drum\nPlayer 2: marimba, 2 timpani",
        "Spieler 1: Vibraphon; Spieler 2: Marimba",
        "1. Spieler: Vibraphon; 2. Spieler: Marimba",
        "I: vibraphone, snare drum; II: marimba",
        "Player I – vibraphone; Player II – marimba",
        "Perc. I: vib; II: mar",
    ],
)
def test_labelled_lists_of_percussion_are_percussionists(text: str) -> None:
    assert counts(text) == {"percussion": 2}


def test_each_percussionist_keeps_the_list_of_the_label() -> None:
    (line,) = read("1: vib, 2 tom-toms; 2: mar").lines

    assert [chair.note for chair in line.chairs] == ["vib, 2 tom-toms", "mar"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("I: 2 fl, ob; II: 2 cl, bn", {"flute": 2, "oboe": 1, "clarinet": 2, "bassoon": 1}),
        ("Player 1: piano, celesta; Player 2: violin", {"piano": 1, "violin": 1}),
    ],
)
def test_labelled_lists_of_other_instruments_are_left(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


def test_full_stop_ends_the_last_list() -> None:
    assert set(counts("Player 1: vib. Player 2: mar. Strings.")) >= {"percussion", "viola"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Percussion: xyl., mar. (2 players)", {"percussion": 2}),
        ("Schlgz. (3 Spl.)", {"percussion": 3}),
        ("Schl.: 3 Spieler", {"percussion": 3}),
    ],
)
def test_players_of_a_list_are_counted(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


@pytest.mark.parametrize(
    "text", ["Str.: 8 I. Vl., 6 II. Vl., 4 Va.", "Str.: 8 I Vl., 6 II Vl., 4 Va.", "Str.: 8 1. Vl., 6 2. Vl., 4 Va."]
)
def test_numeral_before_violins_tells_their_section(text: str) -> None:
    assert counts(text) == {"violin-1": 8, "violin-2": 6, "viola": 4}


def test_a_bracket_of_its_own_tells_what_each_player_has() -> None:
    (percussion, _) = read("2 percussion: [1 - bongos, chimes], [2 - suspended cymbal, 5 tom-toms], timpani").lines

    assert percussion.players == (2, 2)
    assert [(one.chair, one.note) for one in percussion.chairs] == [
        (1, "bongos, chimes"),
        (2, "suspended cymbal, 5 tom-toms"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "perc(3): 1: vibraphone, snare drum; 2: marimba",
        "Schlagzeug (3): 1: Vibraphon; 2: Marimba",
        "percussions (3) : 1 : vibraphone ; 2 : marimba",
        "percussioni (3): I: vibrafono; II: marimba",
        "3 perc (I: vib, II: mar)",
    ],
)
def test_a_list_of_fewer_players_than_are_counted_is_told(text: str) -> None:
    reading = read(text)

    assert reading.players == (3, 3)
    assert [bool(chair.note) for chair in reading.lines[0].chairs] == [True, True, False]
    assert [remark.code for remark in reading.warnings] == ["players-differ"]


@pytest.mark.parametrize("text", ["perc(2): 1: vib; 2: mar; 3: tam-tam", "2 perc (I: vib, II: mar; III: gongs)"])
def test_a_list_of_more_players_than_are_counted_is_told_and_kept(text: str) -> None:
    reading = read(text)

    assert reading.players == (2, 2)
    assert "mar" in reading.lines[0].note
    assert [remark.code for remark in reading.warnings] == ["players-differ"]
