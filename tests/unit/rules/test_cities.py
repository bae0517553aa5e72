"""Cities by their names in several languages."""

from __future__ import annotations

import tomllib
from importlib.resources import files

import pytest

from catalogue.rules.cities import city_key, names_of_cities
from catalogue.rules.countries import COUNTRIES
from catalogue.rules.playings import place_key
from catalogue.rules.search import fold


@pytest.mark.parametrize(
    ("one", "other", "country"),
    [
        ("Wien", "Vienna", "AT"), ("Köln", "Cologne", "DE"), ("Genève", "Genf", "CH"), ("Den Haag", "The Hague", "NL"),
        ("Praha", "Prag", "CZ"), ("Firenze", "Florence", "IT"), ("København", "Copenhagen", "DK"),
        ("LONDON", "Londres", "GB"),
    ],
)  # fmt: skip
def test_one_city_has_one_key(one: str, other: str, country: str) -> None:
    """City premieres go by place: a place is one, however it is called."""
    assert city_key(one, country) == city_key(other, country)
    assert place_key(one, country) == place_key(other, country)


@pytest.mark.parametrize(("name", "country"), [("Vienna", "US"), ("Florence", "US"), ("Paris", "CA"), ("Wien", "")])
def test_a_city_of_another_country_keeps_its_name(name: str, country: str) -> None:
    assert city_key(name, country) == fold(name)


def test_the_table_is_folded_and_gives_each_name_to_one_city() -> None:
    table = tomllib.loads((files("catalogue.rules") / "cities.toml").read_text(encoding="utf-8"))
    names = [(name, country) for country, cities in table.items() for one in cities for name in one]

    assert set(table) <= COUNTRIES
    assert [name for name, _ in names if name != fold(name)] == []
    assert sorted({name for name in names if names.count(name) > 1}) == []
    assert len(names_of_cities()) == len(names)
