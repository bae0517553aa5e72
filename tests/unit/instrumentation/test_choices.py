"""A kind of instrument and who of those named plays, ``melody instrument (flute or violin)`` (common practice)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("melody instrument (flute, oboe or violin) and piano", "fl or ob or vn – pf"),
        ("Melodieinstrument (Flöte, Oboe oder Violine) und Klavier", "fl or ob or vn – pf"),
        ("instrument de dessus (flûte, hautbois ou violon) et basse continue", "fl or ob or vn – cont"),
        ("strumento acuto (flauto o violino) e b.c.", "fl or vn – cont"),
        ("instrumento agudo (flauta, oboe o violín)", "fl or ob or vn"),
        ("melody instrument (flute/oboe/violin), piano", "fl or ob or vn – pf"),
        ("any melody instrument (flute, oboe, violin), piano", "fl or ob or vn – pf"),
        ("treble instrument: flute, oboe or violin; piano", "fl or ob or vn – pf"),
        ("Melodieinstrument: Flöte oder Violine, Klavier", "fl or vn – pf"),
        ("keyboard (piano, harpsichord or organ)", "pf or hpd or org"),
        ("solo instrument (flute, oboe or violin) and orchestra", "solo fl or ob or vn – orch – str"),
        ("bass instrument (cello or bassoon)", "vc or bn"),
    ],
)
def test_one_of_those_who_are_named_plays(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert [remark.code for remark in reading.warnings] == ["alternative"]


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("2 treble instruments (flutes, oboes or violins)", "flutes, oboes or violins"),
        ("melody instrument (e.g. flute or oboe)", "e.g. flute or oboe"),
        ("melody instrument (flute, oboe, violin, etc.)", "flute, oboe, violin, etc."),
        ("Melodieinstrument (z. B. Flöte oder Oboe)", "z. B. Flöte oder Oboe"),
    ],
)
def test_examples_and_what_several_may_be_are_kept_as_they_are_written(text: str, note: str) -> None:
    reading = read(text)

    assert [(line.instrument, line.note, line.alternatives) for line in reading.lines] == [
        ("treble-instrument", note, ()),
    ]
    assert [remark.code for remark in reading.warnings] == ["alternative"]


def test_who_doubles_is_no_choice() -> None:
    chairs = read("melody instrument doubling percussion").lines[0].chairs

    assert [chair.plays for chair in chairs] == [("treble-instrument", "percussion")]


@pytest.mark.parametrize(
    "text", ["keyboard (piano, celesta)", "one keyboard player (piano, celesta)", "keyboard (pf/cel)"]
)
def test_a_keyboard_player_has_all_that_is_listed(text: str) -> None:
    assert [chair.plays for chair in read(text).lines[0].chairs] == [("keyboard", "piano", "celesta")]
    assert read(text).warnings == ()
