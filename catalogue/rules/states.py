"""States by name: what a text calls a country, and what a code is called in English.

``states.toml`` holds the names, its head explains them.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

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


def state_name(code: str) -> str:
    """Return the English name of a state, or the code itself where it is not known."""
    return states().names.get(code, code)


ABBREVIATIONS = {"UK": "GB", "U.K.": "GB", "USA": "US", "U.S.": "US", "U.S.A.": "US", "USSR": "SU", "GDR": "DD"}


@cache
def states() -> States:
    table = tomllib.loads((files("catalogue.rules") / "states.toml").read_text(encoding="utf-8"))
    return States(
        names={code: row["name"] for code, row in table.items()},
        codes={fold(name): code for code, row in table.items() for name in (row["name"], *row["names"])},
        adjectives={name: code for code, row in table.items() for name in row["of"]},
    )
