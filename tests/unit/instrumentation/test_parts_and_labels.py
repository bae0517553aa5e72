"""Numbers that label parts, numbers after names of which some have blanks, plurals, media, chairs that double."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from tests.unit.instrumentation.counts import counts


def codes(text: str) -> list[str]:
    return [one.code for one in read(text).warnings]


def test_number_of_a_part_is_no_stated_total() -> None:
    assert codes("Part 1: flute/oboe\nPart 2: clarinet/trumpet\nPart 3: horn/viola\nPart 4: tuba/cello") == [
        "part-choice"
    ]


def test_part_numbers_of_a_set_are_no_copies() -> None:
    assert codes("Stimmen: Fl 1, Fl 2, Ob 1, Ob 2") == []
    assert "printed-set" in codes("Stimmen: 2 Fl, 2 Ob")


def test_parts_of_a_band_come_with_a_remark() -> None:
    band = "flute 1,2\nclarinet 1,2,3\nalto saxophone 1,2\nhorn 1,2\ntrumpet 1,2,3\neuphonium\ntuba"

    assert codes(band) == ["band-parts"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Picc.1, Fl.2, Hr.4, Tuba 1, Perc.3", {"piccolo": 1, "flute": 2, "horn": 4, "tuba": 1, "percussion": 3}),
        ("Fl 2, Ob 2, Cl.3", {"flute": 2, "oboe": 2, "clarinet": 3}),
        ("Fl.: 2, Ob.: 2, Hr.: 4", {"flute": 2, "oboe": 2, "horn": 4}),
        ("Fl 1, Fl 2, Perc.4", {"flute": 2, "percussion": 4}),
        ("flûte, percussions", {"flute": 1, "percussion": None}),
        ("flûte, percussions (1 musicien)", {"flute": 1, "percussion": 1}),
    ],
)
def test_numbers_belong_to_the_names_before_them(text: str, expected: dict[str, int | None]) -> None:
    assert counts(text) == expected


@pytest.mark.parametrize(
    "text", ["flûte, électronique sur support", "flauto, elettronica su nastro", "flute, electronics on tape"]
)
def test_electronics_on_a_medium_are_fixed(text: str) -> None:
    assert read(text).electronics == "fixed"


def test_one_pointed_chair_doubles_where_the_list_would_be_too_short() -> None:
    (flutes,) = read("3(1.picc)").lines

    assert flutes.players == (3, 3)
    assert flutes.chairs[0].plays == ("flute", "piccolo")
