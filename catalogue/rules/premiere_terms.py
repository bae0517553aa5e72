"""What a first performance is called in a language; the words stand in ``premiere_terms.toml``."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path


@cache
def terms() -> dict[str, dict[str, str]]:
    found: dict[str, dict[str, str]] = tomllib.loads(
        Path(__file__).with_name("premiere_terms.toml").read_text(encoding="utf-8")
    )
    return found


def premiere_term(title: str, language: str, *, place: str = "", label: str = "") -> str:
    """Return what a first performance is called; a language without words of its own is told in English.

    >>> premiere_term("world", "de"), premiere_term("national", "it", place="Norvegia")
    ('Uraufführung', 'prima esecuzione nazionale (Norvegia)')
    """
    words = terms().get(language.partition("-")[0], terms()["en"])
    return words[title].format(place=place, label=label)
