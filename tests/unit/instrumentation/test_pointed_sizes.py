"""Two letters with a point each name a saxophone where no singers are spoken of."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("2 Kl., A.S., 4 H., Streicher", "2cl.asax – 4hn – str"),
        ("2 Fl., 2 Kl., A.S., T.S., 2 H., Streicher", "2fl.2cl.asax.tsax – 2hn – str"),
        ("2 Kl., 2 S.S., 4 H.", "2cl.2ssax – 4hn"),
        ("2 Kl., A.S., T.S.", "2cl.asax.tsax"),
        ("2 Kl., A.S. und T.S., 2 H.", "2cl.asax.tsax – 2hn"),
        ("2 Kl., A.S. (auch T.S.), 2 H.", "2cl.asax(=tsax) – 2hn"),
        ("2 Kl. / A.S. / 4 H.", "2cl.asax – 4hn"),
    ],
)
def test_two_pointed_letters_are_a_saxophone(text: str, written: str) -> None:
    reading = read(text)

    assert read(written).lines == reading.lines
    assert not any(line.family == "voice" for line in reading.lines)
    assert reading.warnings == ()


def test_the_sizes_in_a_bracket_are_saxophones() -> None:
    reading = read("3 Sax. (S.S., A.S., T.S.), 2 H.")

    assert [chair.plays[0] for chair in reading.lines[0].chairs] == [
        "soprano-saxophone",
        "alto-saxophone",
        "tenor-saxophone",
    ]
    assert reading.warnings == ()


def test_the_letter_of_two_sizes_is_the_baritone_with_a_remark() -> None:
    reading = read("2 Kl., B.S., 4 H.")

    assert [line.instrument for line in reading.lines] == ["clarinet", "baritone-saxophone", "horn"]
    assert [(one.code, one.other) for one in reading.warnings] == [("abbreviation", "the bass saxophone")]
    assert (reading.warnings[0].start, reading.warnings[0].end) == (7, 11)


@pytest.mark.parametrize(
    "text", ["Soli: A.S., Chor, Streicher", "soli A.S", "S.A.T.B.", "S.S., Klavier", "S.S.A.A.", "S.S. A.A. T.B."]
)
def test_letters_of_singers_stay_voices(text: str) -> None:
    assert read(text).lines[0].family == "voice"
    assert "saxophone" not in shorthand(read(text))
