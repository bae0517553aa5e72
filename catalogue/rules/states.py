"""States by name: what a text calls a country, and what a code is called in English.

``states.toml`` holds the names, its head explains them.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from catalogue.rules.countries import BY_THREE
from catalogue.rules.search import fold


@dataclass(frozen=True, slots=True)
class States:
    """``codes`` by folded name, ``adjectives`` the same for what belongs to a state, ``names`` by code."""

    names: dict[str, str]
    codes: dict[str, str]
    adjectives: dict[str, str]


def state_named(text: str) -> str:
    """Return the ISO 3166-1 alpha-2 code of the state that the text names and nothing else, or an empty text.

    >>> state_named("Frankreich"), state_named("UK"), state_named("Atlantis")
    ('FR', 'GB', '')
    """
    table = states()
    written = text.strip()
    code = ABBREVIATIONS.get(written, written)
    return code if code in table.names else table.codes.get(fold(written), "")


def country_told(text: str) -> str:
    """Return the alpha-2 code of the country that a cell or field meant for a country names, or an empty text.

    There codes count in any case and with three letters, articles go, and Scotland is a part of the United Kingdom.

    >>> country_told("ch"), country_told("AUT"), country_told("the Netherlands"), country_told("Scotland")
    ('CH', 'AT', 'NL', 'GB')
    """
    written = " ".join(text.split())
    code = state_named(written) or state_named(ARTICLE.sub("", written))
    if code:
        return code
    letters = written.upper()
    of_code = ABBREVIATIONS.get(letters) or BY_THREE.get(letters, letters)
    if of_code in states().names:
        return of_code
    return "GB" if is_part_of_kingdom(written) else ""


def is_part_of_kingdom(text: str) -> bool:
    """Say whether the text names a country of the United Kingdom: its name says more than the code does."""
    return fold(" ".join(text.split())) in COUNTRIES_OF_THE_UNITED_KINGDOM


def state_name(code: str) -> str:
    """Return the English name of a state, or the code itself where it is not known."""
    return states().names.get(code, code)


ABBREVIATIONS = {"UK": "GB", "U.K.": "GB", "USA": "US", "U.S.": "US", "U.S.A.": "US", "USSR": "SU", "GDR": "DD"}


ARTICLE = re.compile(r"(?:the|die|der|das|les|la|le|gli|il|los|las|el)\s+|l['’]", re.IGNORECASE)
# As addresses and concert listings write them (common practice), folded.
COUNTRIES_OF_THE_UNITED_KINGDOM = frozenset(
    (
        "england", "scotland", "wales", "cymru", "northern ireland", "schottland", "nordirland", "angleterre", "ecosse",
        "pays de galles", "irlande du nord", "inghilterra", "scozia", "galles", "irlanda del nord", "inglaterra",
        "escocia", "gales", "irlanda del norte",
    )
)  # fmt: skip


@cache
def states() -> States:
    table = tomllib.loads((files("catalogue.rules") / "states.toml").read_text(encoding="utf-8"))
    return States(
        names={code: row["name"] for code, row in table.items()},
        codes={fold(name): code for code, row in table.items() for name in (row["name"], *row["names"])},
        adjectives={name: code for code, row in table.items() for name in row["of"]},
    )
