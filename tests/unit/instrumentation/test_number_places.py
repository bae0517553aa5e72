"""Numbers after names beside the figures of strings, after colons, each of a list; labels of percussion."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from tests.unit.instrumentation.counts import counts

STRINGS = ("violin-1", "violin-2", "viola", "cello", "double-bass")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "fl.2, ob.2, cl.2, fg.2 - cor.2 - archi 8.6.4.4.2",
            {"flute": 2, "oboe": 2, "clarinet": 2, "bassoon": 2, "horn": 2},
        ),
        ("Fl.2 Ob.2 Cl.2 Fag.2 Cor.4 Archi 8.6.4.4.2", {"flute": 2, "oboe": 2, "clarinet": 2, "bassoon": 2, "horn": 4}),
        ("fl.1 (picc.), htb., cl.1, pno, 1.1.1.1.1", {"flute": 1, "oboe": 1, "clarinet": 1, "piano": 1}),
        ("PERC: timp, 4 perc; HARP: 2; STR", {"timpani": 1, "percussion": 4, "harp": 2}),
        ("Keyboard: pf, cel; str", {"piano": 1, "celesta": 1}),
        ("fl, ob, cl (2 each), hn", {"flute": 2, "oboe": 2, "clarinet": 2, "horn": 1}),
        ("10 brass (4 tpt, hn, 4 tbn, tba)", {"trumpet": 4, "horn": 1, "trombone": 4, "tuba": 1}),
    ],
)
def test_numbers_stand_with_their_names(text: str, expected: dict[str, int]) -> None:
    assert {slug: number for slug, number in counts(text).items() if slug not in STRINGS} == expected


def test_voice_in_a_name_tells_a_singer() -> None:
    assert "voice-bass" in counts("Bass voice and orchestra")
    assert [line.instrument for line in read("v.c., cb.").lines] == ["cello", "double-bass"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Solo Violin 2 Oboes 2 Horns", {"violin": 1, "oboe": 2, "horn": 2}),
        (
            "Fl. 1, 2; Ob. 1, 2; E.H.; Hn. 1–4; Perc. 1–3",
            {"flute": 2, "oboe": 2, "cor-anglais": 1, "horn": 4, "percussion": 3},
        ),
        ("Kl.I, Kl.II, Vc.", {"clarinet": 2, "cello": 1}),
        ("4 Spieler: 1. Vibraphon; 2. Marimba; 3. Xylophon; 4. Pauken", {"percussion": 4}),
        ("3 Pos., Kb.-Tb.", {"trombone": 3, "contrabass-tuba": 1}),
        ("Violas Cellos Basses", {"viola": None, "cello": None, "double-bass": None}),
    ],
)
def test_numbers_belong_where_they_stand(text: str, expected: dict[str, int | None]) -> None:
    assert counts(text) == expected


def test_range_of_ordinals_in_a_bracket_tells_all_of_them() -> None:
    (horns,) = read("8 Hr. (5.–8. auch Wagnertuben)").lines

    assert [chair.chair for chair in horns.chairs if "wagner-tuba" in chair.plays] == [5, 6, 7, 8]
