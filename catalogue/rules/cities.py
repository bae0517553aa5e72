"""Cities by any of their names: Wien is Vienna, and a city premiere is one in either.

``cities.toml`` holds the names, its head explains them.
"""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files

from catalogue.rules.search import fold


def city_key(name: str, country: str) -> str:
    """Return what a city of a country (ISO 3166-1 alpha-2) is compared by: one key for all of its names.

    >>> city_key("Vienna", "AT") == city_key("WIEN", "AT"), city_key("Vienna", "US")
    (True, 'vienna')
    """
    folded = fold(name)
    return names_of_cities().get((folded, country), folded)


@cache
def names_of_cities() -> dict[tuple[str, str], str]:
    table = tomllib.loads((files("catalogue.rules") / "cities.toml").read_text(encoding="utf-8"))
    return {
        (fold(name), country): fold(names[0]) for country, cities in table.items() for names in cities for name in names
    }
