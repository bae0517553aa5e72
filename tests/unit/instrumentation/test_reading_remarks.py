"""Each reading that rests on a convention says so, at its place, and names the other reading."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        ("3(3pic).2.2.2", "figure-in-bracket", "(3pic)"),
        ("2.(+ott.) 2.2.2", "plus-in-bracket", "(+ott.)"),
        ("2 (2+picc). 2. 2. 2", "plus-in-bracket", "(2+picc)"),
        ("perc(III)", "roman-count", "(III)"),
        ("4 timpani, strings", "drums", "4 timpani"),
        ("accordion and string quintet", "ensemble", "string quintet"),
        ("fluet, oboe", "spelling", "fluet"),
        ("flute, zzyzxophone, harp", "unknown-instrument", "zzyzxophone"),
        ("2.2.2.2 – 4.3.3.1.1 – str", "five-figures", "4.3.3.1.1"),
        ("2.2.2", "missing-figures", "2.2.2"),
        ("str(6.4.2.1)", "four-strings", "str(6.4.2.1)"),
        ("Str (9-8-7-6-5 in set)", "printed-set", "(9-8-7-6-5 in set)"),
        ("cl.bsax", "abbreviation", "bsax"),
        ("guitar, piano, bass, drums", "bass", "bass"),
        ("4 (2) Trompeten", "two-numbers", "4 (2)"),
        ("violin (doubling viola), piano", "string-doubling", "(doubling viola)"),
        ("3 oboes (including English horn)", "included", "(including English horn)"),
        ("2 flutes (picc", "bracket", "(picc"),
        ("10 brass", "family-only", "10 brass"),
        ("str(12.12.10.8.6) or str(8.8.6.5.4)", "alternative", "str(8.8.6.5.4)"),
        ("2022 2100 batt ob archi", "soloist", "ob"),
        ("electric flute, electric piano, electric cello", "electric", "electric piano"),
        ("clarinet (B flat and E flat), piano", "keys", "(B flat and E flat)"),
        ("3(2.3=picc).2.2.2", "pointed-chairs", "(2.3=picc)"),
        ("installation for 12 loudspeakers", "unnamed", "12 loudspeakers"),
        ("village brass: 2 tpt, hn", "not-read", "village"),
        ("marimba, two players", "players", "two players"),
    ],
)
def test_remark_stands_at_its_place(text, code, place):
    found = {remark.code: text[remark.start : remark.end] for remark in read(text).warnings}

    assert found.get(code) == place


@pytest.mark.parametrize(
    "text",
    [
        "2.2.2.2 – 4.2.3.1 – timp.perc(2) – hp – str",
        "3(III=picc).2.2.2 – 4.2.3.1 – timp – str(14.12.10.8.6)",
        "2 flutes, 2 oboes, 2 clarinets, 2 bassoons, 4 horns, 2 trumpets, timpani, strings",
        "flute, clarinet, violin, cello, piano",
        "SATB and organ",
        "string quartet",
    ],
)
def test_plain_text_comes_without_a_remark(text):
    assert read(text).warnings == ()


def test_other_reading_of_a_figure_in_a_bracket_is_told():
    (remark,) = read("3(3pic).2.2.2 – 4.2.3.1").warnings

    assert (remark.message, remark.other) == (
        "The figure in the bracket was read as: player 3 doubles.",
        "3 players double",
    )


def test_convention_of_the_text_decides_what_a_figure_means():
    chairs, counts = "4(3pic).2.2.2 - 4.2.3.1 - str", "4(3pic)222/4231/str"

    assert [chair.plays for chair in read(chairs).lines[0].chairs] == [
        ("flute",),
        ("flute",),
        ("flute", "piccolo"),
        ("flute",),
    ]
    assert [(chair.chair, chair.plays) for chair in read(counts).lines[0].chairs] == [(None, ("flute", "piccolo"))] * 3


def test_convention_can_be_chosen():
    text = "4(3pic).2.2.2 - 4.2.3.1 - str"

    chosen = read(text, convention="counted doublings")

    assert chosen.convention == "dotted, counted doublings"
    assert [chair.chair for chair in chosen.lines[0].chairs] == [None, None, None]


def test_convention_of_figures_can_be_chosen_beside_that_of_brackets():
    assert read("2(II=picc).2.2.2", convention="dotted, Roman chairs").convention == "dotted, Roman chairs"


def test_string_figures_can_be_declared_desks():
    first = read("str(8.8.6.5.4)", strings_are="desks").lines[0]

    assert (first.players, first.unit) == ((8, 8), "desks")
    assert read("str(8.8.6.5.4)", strings_are="desks").players is None


def test_language_can_be_declared():
    assert [line.instrument for line in read("alto, piano", language="fr")] == ["viola", "piano"]
    assert [line.instrument for line in read("alto, piano", language="en-GB")] == ["voice-alto", "piano"]


@pytest.mark.parametrize(
    ("text", "convention"),
    [
        ("2(II=picc).2.2.2 - 4.2.3.1", "dotted, Roman chairs"),
        ("3[1.2.3/pic] 2 2 2 - 4 2 3 1", "spaced, chair list"),
        ("2232/4331/str", "run together"),
        ("2d1, 2+1, 2, 2 - 4, 2, 3, 1", "comma, d and plus"),
        ("2-2-2-2/4-2-3-1", "hyphenated"),
        ("fl, cl, vn, vc", "names"),
        ("two flutes and a piano", "words"),
    ],
)
def test_convention_of_the_whole_text_is_named(text, convention):
    assert read(text).convention == convention
