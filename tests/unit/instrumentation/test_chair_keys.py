"""Keys of single chairs, in the wording of scores in five languages (common practice)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        ("3 trumpets (1st in D, 2nd and 3rd in C)", ["in D", "in C", "in C"]),
        ("3 Trompeten (1. in D, 2. und 3. in C)", ["in D", "in C", "in C"]),
        ("3 trompettes (1re en ré, 2e et 3e en ut)", ["in ré", "in ut", "in ut"]),
        ("3 trombe (I in re, II e III in do)", ["in re", "in do", "in do"]),
        ("3 trompetas (1ª en re, 2ª y 3ª en do)", ["in re", "in do", "in do"]),
        ("3 trumpets (in D, in C, in C)", ["in D", "in C", "in C"]),
        ("4 horns (1 and 2 in F, 3 and 4 in E-flat)", ["in F", "in F", "in E-flat", "in E-flat"]),
        ("2 clarinets (1st in A, 2nd in B-flat)", ["in A", "in B-flat"]),
    ],
)
def test_each_chair_keeps_its_key(text: str, notes: list[str]) -> None:
    reading = read(text)

    assert [chair.note for chair in reading.lines[0].chairs] == notes
    assert {chair.plays for chair in reading.lines[0].chairs} == {(reading.lines[0].instrument,)}
    assert reading.warnings == ()


def test_a_key_that_makes_another_instrument_tells_what_the_chair_plays() -> None:
    chairs = read("2 clarinets (I in E-flat, II in B-flat)").lines[0].chairs

    assert [(chair.plays, chair.note) for chair in chairs] == [(("e-flat-clarinet",), ""), (("clarinet",), "in B-flat")]


@pytest.mark.parametrize("text", ["2 clarinets (in A and B-flat)", "3 trumpets in C (1st also in D)"])
def test_keys_of_no_one_chair_stay_a_note(text: str) -> None:
    line = read(text).lines[0]

    assert line.chairs == ()
    assert line.note.endswith(("in A and B-flat", "1st also in D"))
