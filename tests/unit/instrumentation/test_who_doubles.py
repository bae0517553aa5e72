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


@pytest.mark.parametrize(
    "text",
    [
        "3 flutes (including piccolo), strings",
        "3 flutes (one of them piccolo), strings",
        "3 flutes (of which one piccolo), strings",
        "3 Flöten (eine davon Piccolo), Streicher",
        "3 Flöten (davon eine Piccolo), Streicher",
        "3 flûtes (dont un piccolo), cordes",
        "3 flauti (di cui uno ottavino), archi",
        "3 flauti (uno dei quali ottavino), archi",
        "3 flautas (una de ellas flautín), cuerdas",
    ],
)
def test_one_of_the_counted_players_plays_only_the_auxiliary_with_a_remark(text: str) -> None:
    reading = read(text)

    assert shorthand(reading) == "3fl(III=picc only) – str"
    assert [one.code for one in reading.warnings] == ["included"]


def test_one_of_them_who_also_plays_doubles() -> None:
    reading = read("3 flutes (one of them also piccolo), strings")

    assert shorthand(reading) == "3fl(picc) – str"
    assert reading.warnings == ()


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("3 flutes, (3rd doubles piccolo), 2 oboes, strings", "3(III=picc).2.0.0 – str"),
        ("3 flutes, (third doubling piccolo), 2 oboes, strings", "3(III=picc).2.0.0 – str"),
        ("3 flutes, (one doubling piccolo), 2 oboes, strings", "3(picc).2.0.0 – str"),
        ("2 flutes, (both doubling piccolo), 2 oboes, strings", "2(I,II=picc).2.0.0 – str"),
    ],
)
def test_a_comma_may_stand_before_the_bracket(text: str, written: str) -> None:
    assert shorthand(read(text)) == written
    assert read(text).warnings == ()


@pytest.mark.parametrize(
    "text",
    [
        "8 horns (seventh and eighth doubling tenor Wagner tubas)",
        "8 horns (7th and 8th doubling tenor tubas)",
        "8 horns (7th and 8th doubling bass Wagner tubas)",
        "8 Hörner (7. und 8. auch Tenor-Wagnertuben)",
    ],
)
def test_the_horns_told_double_their_tubas_of_either_size(text: str) -> None:
    assert shorthand(read(text)) == "8hn(VII,VIII=Wtba)"
    assert read(text).warnings == ()


@pytest.mark.parametrize(
    ("text", "written", "codes"),
    [
        ("4 horns, 2 Wagner tubas, 2 tenor tubas", "4hn.4Wtba", ["tenor-tuba"]),
        ("4 horns, 2 tenor tubas", "4hn.2euph", ["tenor-tuba"]),
        ("4 horns, tenor tuba", "4hn.euph", []),
    ],
)
def test_tenor_tubas_are_those_of_the_horns_beside_wagner_tubas(text: str, written: str, codes: list[str]) -> None:
    assert shorthand(read(text)) == written
    assert [one.code for one in read(text).warnings] == codes


def test_a_wind_player_doubles_no_voice() -> None:
    reading = read("8 horns (5-8 doubling 2 tenor and 2 bass Wagner tubas)")

    assert not any(plays.startswith("voice") for one in reading.lines[0].chairs for plays in one.plays)
    assert [one.code for one in reading.warnings] == ["remark"]


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("fl, suona et guitar", "fl.suona – gtr"),
        ("flute, suona and guitar", "fl.suona – gtr"),
        ("fl, suona, guitar", "fl.suona – gtr"),
        ("flauto (suona anche ottavino)", "fl(=picc)"),
        ("2 flauti, il secondo suona anche l'ottavino", "2fl(II=picc)"),
        ("2 flutes, the second plays also piccolo", "2fl(II=picc)"),
        ("2 flutes, the second plays piccolo", "2fl(II=picc only)"),
    ],
)
def test_a_verb_of_playing_that_names_an_instrument_too_needs_what_is_played(text: str, written: str) -> None:
    assert shorthand(read(text)) == written
    assert read(text).warnings == ()


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2 flutes, piccolo/flute 3, 2 oboes", "3(III=picc).2.0.0"),
        ("3 flutes, piccolo/flute 3, 2 oboes", "3(III=picc).2.0.0"),
        ("flute 1, flute 2, piccolo/flute 3, oboe", "3(III=picc).1.0.0"),
        ("2 flutes (2nd doubling alto flute), piccolo/flute 3", "3fl(II=afl, III=picc)"),
        ("picc/fl 3", "3fl(III=picc)"),
    ],
)
def test_a_numbered_player_of_two_names_is_that_chair_of_the_section(text: str, written: str) -> None:
    assert shorthand(read(text)) == written
    assert [one.code for one in read(text).warnings] == ["same-player"]


def test_hand_bells_are_no_hands_at_a_keyboard() -> None:
    lines = read("3 electric pianos, 6 hand bells").lines

    assert [(line.instrument, line.note) for line in lines] == [("electric-piano", ""), ("percussion", "6 hand bells")]


@pytest.mark.parametrize(
    "text",
    [
        "3 flutes, including piccolo, strings",
        "3 flutes including piccolo, strings",
        "3 flutes, one of them piccolo, strings",
        "3 flutes, of which one piccolo, strings",
        "3 Flöten, davon eine Piccolo, Streicher",
        "3 Fl., davon 1 Picc., Streicher",
        "3 flûtes, dont un piccolo, cordes",
    ],
)
def test_a_clause_says_what_a_bracket_says(text: str) -> None:
    reading = read(text)

    assert shorthand(reading) == "3fl(III=picc only) – str"
    assert [one.code for one in reading.warnings] == ["included"]


@pytest.mark.parametrize(
    "text",
    [
        "4 clarinets, including E-flat clarinet and bass clarinet, 2 bassoons",
        "4 clarinets (one of them E-flat clarinet, one of them bass clarinet), 2 bassoons",
    ],
)
def test_several_of_the_counted_players_are_told(text: str) -> None:
    assert shorthand(read(text)) == "0.0.4(III=Ebcl only, IV=bcl only).2"
    assert [one.code for one in read(text).warnings] == ["included"]


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2 flutes including 2nd doubling piccolo", "2fl(II=picc)"),
        ("percussion including vibraphone, piano", "perc.vib – pf"),
    ],
)
def test_other_clauses_of_including_are_left(text: str, written: str) -> None:
    assert shorthand(read(text)) == written


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("3 trumpets (third in C), strings", "3tpt “third in C” – str"),
        ("2 clarinets (second in A)", "2cl “second in A”"),
        ("3 clarinets (3rd in E flat)", "3cl(III=Ebcl)"),
        ("3 flutes (third in G)", "3fl(III=afl)"),
    ],
)
def test_the_key_of_one_player_is_another_instrument_only_where_it_names_one(text: str, written: str) -> None:
    assert shorthand(read(text)) == written
    assert read(text).warnings == ()
