"""A bracket that is never closed ends where the next player plainly begins, and is told at its place."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written", "inside"),
    [
        ("2 flutes (2nd doubling piccolo, 2 oboes, strings", "2(II=picc).2.0.0 – str", "(2nd doubling piccolo"),
        ("2 flauti (II anche ottavino, 2 oboi, archi", "2(II=picc).2.0.0 – str", "(II anche ottavino"),
        ("3 Fl. (2. auch Picc., 3. auch Altfl., 2 Ob.", "3(II=picc, III=afl).2.0.0", "(2. auch Picc., 3. auch Altfl."),
        ("flute (piccolo, alto flute, oboe, piano", "fl(=picc+afl).ob – pf", "(piccolo, alto flute"),
        ("2 horns (in F, 2 trumpets", "2hn “in F”.2tpt", "(in F"),
        ("perc (triangle, bass drum, harp, strings", "perc “triangle, bass drum” – hp – str", "(triangle, bass drum"),
        ("str (8.6.4.4.2, harp", "str(8.6.4.4.2) – hp", "(8.6.4.4.2"),
        ("timp (4 drums, 2 perc, harp", "timp “4 drums”.perc(2) – hp", "(4 drums"),
        ("percussion (2 timpani, bass drum, harp", "perc “2 timpani, bass drum” – hp", "(2 timpani, bass drum"),
        ("flute (piccolo, alto flute", "fl(=picc+afl)", "(piccolo, alto flute"),
    ],
)
def test_an_unclosed_bracket_ends_before_the_next_player(text: str, written: str, inside: str) -> None:
    reading = read(text)

    assert shorthand(reading) == written
    assert [one.code for one in reading.warnings] == ["bracket"]
    assert text[reading.warnings[0].start : reading.warnings[0].end] == inside


def test_each_of_several_unclosed_brackets_is_ended() -> None:
    reading = read("2 fl (picc, 2 ob (ca, 2 cl (bcl, strings")

    assert shorthand(reading) == "2(picc).2(corA).2(bcl).0 – str"
    assert [one.code for one in reading.warnings] == ["bracket"] * 3


def test_a_letter_of_a_key_is_no_player() -> None:
    lines = read("2 clarinets (B-flat, A, 2 bassoons").lines

    assert [line.instrument for line in lines] == ["clarinet", "bassoon"]


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2(II=picc.2.2.2 – 4.2.3.1 - timp - str", "2(II=picc).2.2.2 – 4.2.3.1 – timp – str"),
        ("2(II=picc).2.2(II=bcl.2 – 4.2.3.1 – timp – str", "2(II=picc).2.2(II=bcl).2 – 4.2.3.1 – timp – str"),
        ("2(II=picc.2.2.2, 4.2.3.1, timp, str", "2(II=picc).2.2.2 – 4.2.3.1 – timp – str"),
        ("3[1.2.3/picc 2 2 2 - 4 2 3 1 - timp - str", "3(III=picc).2.2.2 – 4.2.3.1 – timp – str"),
        ("2(II auch Picc.2.2.2 – 4.2.3.1 – Pk – Str", "2(II=picc).2.2.2 – 4.2.3.1 – timp – str"),
        ("2.2.2.2 – 4.2.3.1 – timp – perc(2 – str", "2.2.2.2 – 4.2.3.1 – timp.perc(2) – str"),
    ],
)
def test_a_bracket_ends_where_the_figures_go_on(text: str, written: str) -> None:
    reading = read(text)

    assert reading.lines == read(written).lines
    assert [remark.code for remark in reading.warnings] == ["bracket"]
