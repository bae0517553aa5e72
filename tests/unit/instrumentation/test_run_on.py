"""Lists without marks: a plural ends a name, and figures that rise after a repeated name number its parts."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read
from tests.unit.instrumentation.counts import counts


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 Flutes Piccolo 2 Oboes", {"flute": 2, "piccolo": 1, "oboe": 2}),
        ("2 Flutes Alto Flute 2 Oboes", {"flute": 2, "alto-flute": 1, "oboe": 2}),
        ("2 Clarinets E-flat Clarinet 2 Bassoons", {"clarinet": 2, "e-flat-clarinet": 1, "bassoon": 2}),
        ("2 Recorders Alto Saxophone", {"recorder": 2, "alto-saxophone": 1}),
        ("3 flûtes piccolo", {"piccolo": 3}),
        ("3 flutes piccolo, 2 hautbois", {"piccolo": 3, "oboe": 2}),
        ("2 saxophones alto, 2 flûtes alto", {"alto-saxophone": 2, "alto-flute": 2}),
    ],
)
def test_english_plural_ends_a_name(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


def test_two_words_that_nothing_explains_come_with_a_remark() -> None:
    assert [one.code for one in read("3 Flutes Piccolo").warnings] == ["run-on"]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Piccolo Flute 1 Flute 2 Oboe 1 Oboe 2 Horn", {"piccolo": 1, "flute": 2, "oboe": 2, "horn": 1}),
        ("Tuba Clarinet in A 1 Clarinet in A 2 Oboe", {"tuba": 1, "clarinet": 2, "oboe": 1}),
        ("Ottavino Flauto I Flauto II Oboe", {"piccolo": 1, "flute": 2, "oboe": 1}),
        ("Piccolo 2 Flute 1 Oboe 2 Horn", {"piccolo": 1, "flute": 2, "oboe": 1, "horn": 2}),
    ],
)
def test_rising_figures_after_a_name_number_its_parts(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [("Fl.2", {"flute": 2}), ("Flute 2 Oboe 2 Clarinet 3", {"flute": 2, "oboe": 2, "clarinet": 3})],
)
def test_figures_at_the_end_of_names_count_players(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Clarinet 1 in A, Clarinet 2 in A, Horn 1 in F", {"clarinet": 2, "horn": 1}),
        ("Trumpet 1 in C Trumpet 2 in C Oboe 1 Oboe 2", {"trumpet": 2, "oboe": 2}),
        ("Clarinet 1 in A, 2 in A, 3 in B", {"clarinet": 3}),
        ("4 horns: 2 in F, 2 in C", {"horn": 4}),
        ("2 horns in F, 2 in E-flat", {"horn": 4}),
        ("2 clarinets in B-flat, 1 in E-flat", {"clarinet": 2, "e-flat-clarinet": 1}),
        ("3 clarinets: 2 in B-flat, 1 in E-flat", {"clarinet": 2, "e-flat-clarinet": 1}),
    ],
)
def test_numbers_before_keys_are_parts_or_players_of_the_instrument(text: str, expected: dict[str, int]) -> None:
    assert counts(text) == expected
