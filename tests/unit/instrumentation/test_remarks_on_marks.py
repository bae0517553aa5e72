"""Points, dashes, pluses and numbers in brackets: what is told where they can be read in two ways, and where not."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


def codes(text: str) -> list[str]:
    return [one.code for one in read(text).warnings]


@pytest.mark.parametrize("text", ["v., fl., ob., cl., bn., hn., hp.", "V., pf."])
def test_a_pointed_v_without_violins_is_a_voice_with_a_remark(text: str) -> None:
    assert read(text).lines[0].instrument == "voice"
    assert [(one.code, one.other, one.start, one.end) for one in read(text).warnings] == [
        ("abbreviation", "a violin", 0, 1)
    ]


@pytest.mark.parametrize("text", ["v., fl., cl., vn., pf.", "v – fl.cl", "voice, fl., cl."])
def test_a_voice_beside_violins_or_without_a_point_is_plain(text: str) -> None:
    assert codes(text) == []


@pytest.mark.parametrize("text", ["flute – piccolo", "flute – piccolo, oboe", "oboe - cor anglais"])
def test_one_dash_between_two_of_a_section_is_told(text: str) -> None:
    assert codes(text) == ["dash"]


@pytest.mark.parametrize("text", ["fl – picc – ob", "flute, piccolo – horn", "2 flutes – piccolo", "oboe – piano"])
def test_other_dashes_are_not(text: str) -> None:
    assert codes(text) == []


@pytest.mark.parametrize("text", ["str (12 players)", "strings (12)", "Streicher (12 Spieler)"])
def test_a_number_of_all_the_strings_is_not_divided(text: str) -> None:
    assert shorthand(read(text)) == "str “12 players”"
    assert codes(text) == ["undivided"]


def test_a_plus_after_numbered_players_settles_the_others() -> None:
    text = "1st flute (+picc)\n2nd flute\noboe (+c.a)\npiano (+cel)"

    assert shorthand(read(text)) == "2(I=picc).1(=corA).0.0 – pf(=cel)"
    assert codes(text) == []
    assert codes("oboe (+c.a), clarinet") == ["plus-in-bracket"]


def test_an_old_name_of_the_flute_is_kept_as_a_note() -> None:
    assert [(line.instrument, line.note) for line in read("Traversflöte, Harfe").lines] == [
        ("flute", "Traversflöte"),
        ("harp", ""),
    ]
    assert codes("Traversflöte, Harfe") == []
    assert codes("Clarini, Harfe") == ["old-name"]
