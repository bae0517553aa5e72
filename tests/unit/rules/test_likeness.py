from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.rules.likeness import Likeness, Named, Pair, pairs_alike, words_of


def alike(one: str, other: str) -> Likeness | None:
    found = pairs_alike([Named("1", one), Named("2", other)])
    return found[0].because if found else None


@pytest.mark.parametrize(
    ("one", "other", "because"),
    [
        ("Iva Dorn", "IVA DØRN", Likeness.LETTERS),
        ("The Kestrel Ensemble", "Kestrel Ensemble", Likeness.LETTERS),
        ("L’Atelier des Quais", "L'Atelier des Quais", Likeness.LETTERS),
        ("Old Weighhouse", "Old Weigh-House", Likeness.LETTERS),
        ("Marsh & Fen", "Marsh and Fen", Likeness.LETTERS),
        ("Dorn, Iva", "Iva Dorn", Likeness.ORDER),
        ("Илья Чернов", "Ilya Chernov", Likeness.LETTERS),
        ("Илья Чернов", "Ilja Tschernow", Likeness.SOUND),
        ("Müller-Brandt", "Mueller-Brandt", Likeness.SOUND),
        ("Theodora Kalliga", "Θεοδώρα Καλλιγά", Likeness.LETTERS),
        ("Sinfonietta Oberau", "Sinfonieta Oberau", Likeness.SOUND),
        ("Vesterby Quartet", "Vestreby Quartet", Likeness.SLIP),
        ("Vesterby Quartet", "Vesterbyr Quartet", Likeness.SLIP),
        ("Vesterby Quartet", "Vesterba Quartet", Likeness.SLIP),
        ("Bell", "Ball", None),
        ("Study 1 for Winter", "Study 2 for Winter", None),
        ("Ash Ferry", "Copper Hymn", None),
        ("", "...", None),
    ],
)
def test_names_are_alike_for_the_surest_reason(one: str, other: str, because: Likeness | None) -> None:
    assert alike(one, other) == because


def test_halls_of_different_cities_and_works_of_different_numbers_are_two() -> None:
    halls = [Named("1", "Town Hall", group="Linz"), Named("2", "Town Hall", group="Bergen"), Named("3", "Town Hall")]
    works = [Named("1", "Study", number="Op. 1"), Named("2", "Study", number="Op. 2"), Named("3", "Study")]

    for names in (halls, works):
        assert [(pair.one.key, pair.other.key) for pair in pairs_alike(names)] == [("1", "3"), ("2", "3")]


def test_city_may_be_spelled_differently_too() -> None:
    names = [Named("1", "Town Hall", group="Zürich"), Named("2", "Town Hall", group="Zuerich")]

    assert pairs_alike(names) == (Pair(*names, Likeness.LETTERS),)


def test_two_names_are_a_pair_once() -> None:
    names = [Named("1", "Iva Dorn"), Named("2", "iva dorn"), Named("3", "Dorn Iva")]

    assert [(pair.one.key, pair.other.key, pair.because) for pair in pairs_alike(names)] == [
        ("1", "2", Likeness.LETTERS),
        ("1", "3", Likeness.ORDER),
        ("2", "3", Likeness.ORDER),
    ]


@given(st.text(max_size=40))
def test_name_is_alike_to_itself_in_capitals(name: str) -> None:
    if words_of(name) == words_of(name.upper()) != ():
        assert alike(name, name.upper()) == Likeness.LETTERS


def test_many_names_are_compared_quickly_enough_to_be_counted() -> None:
    names = [Named(str(number), f"{chr(97 + number % 26)}{number}erling Ensemble") for number in range(3_000)]

    assert pairs_alike(names) == ()
