"""Channels of electronics and hands at a keyboard, wherever in a text both are told (common practice)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    "written",
    [
        "fl, fixed media (8 ch)", "fl, fixed media (8 chan.)", "fl, 8 ch fixed media", "fl, bande 8 pistes",
        "fl, Zuspielung 8-kanalig", "fl, 8-kanaliges Zuspiel", "fl, tape 8 channels", "fl, tape 8-channel",
        "fl, nastro magnetico 8 piste", "fl, cinta 8 pistas", "fl, Tonband 8 Kanäle", "fl, octophonic tape",
    ],
)  # fmt: skip
def test_channels_are_read_before_and_after_their_medium(written: str) -> None:
    told = read(written)
    assert ([line.instrument for line in told.lines], told.electronics, told.channels) == (
        ["flute", "fixed-media"], "fixed", "8",
    )  # fmt: skip
    assert told.warnings == ()


def test_a_short_word_that_may_be_a_choir_is_one_where_no_electronics_stand_beside_it() -> None:
    assert [line.instrument for line in read("fl, 2 ch").lines] == ["flute", "choir"]


def test_a_layout_alone_is_electronics_of_which_nothing_more_is_told() -> None:
    told = read("fl, stereo")
    assert (told.electronics, told.channels) == ("unspecified", "2")
    assert [remark.code for remark in told.warnings] == ["unnamed"]


@pytest.mark.parametrize(
    ("written", "players"),
    [("4 hands piano", 2), ("four-hand piano", 2), ("vierhändiges Klavier", 2), ("6-hand piano", 3)],
)
def test_hands_are_read_before_their_keyboard(written: str, players: int) -> None:
    (piano,) = read(written).lines
    assert (piano.instrument, piano.players, piano.note) == ("piano", (players, players), f"{2 * players} hands")
    assert read(written).warnings == ()


def test_letters_that_a_typesetter_joined_are_read_apart() -> None:
    assert [line.instrument for line in read("2 ﬂutes, ﬂute").lines] == ["flute"]


def test_a_flute_and_a_piccolo_that_a_point_joins_are_two_where_no_comma_stands_beside_them() -> None:
    assert [line.instrument for line in read("fl.picc – S, narr").lines[:2]] == ["flute", "piccolo"]
    assert [line.instrument for line in read("2 ob., fl. picc.").lines] == ["oboe", "piccolo"]
