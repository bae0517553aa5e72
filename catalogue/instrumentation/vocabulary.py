"""The instruments that are known by name: one row each, read once from ``vocabulary.toml``.

Names are found by their *key*: lower case, no accents, no blanks, points, hyphens or apostrophes, so that
``B. Cl.``, ``b-cl`` and ``bcl`` are one spelling. One key may belong to several instruments (``alto``): the reader
chooses by what stands around it.
"""

from __future__ import annotations

import functools
import re
import tomllib
import unicodedata
from dataclasses import dataclass
from pathlib import Path

LANGUAGES = ("en-GB", "en-US", "de", "fr", "it", "es")
FAMILIES = ("woodwind", "brass", "percussion", "plucked", "keyboard", "voice", "strings", "electronics", "other")


@dataclass(frozen=True, slots=True)
class Names:
    """What an instrument is called in one language."""

    singular: str
    plural: str
    abbreviation: str


@dataclass(frozen=True, slots=True)
class Instrument:
    """One row of the vocabulary; ``order`` is its place in score order, ``spellings`` are (language, spelling)."""

    slug: str
    family: str
    order: int
    section: str
    kit: bool
    names: dict[str, Names]
    spellings: tuple[tuple[str, str], ...]
    usual: tuple[str, ...]
    sound: str
    marc: str


PART_NUMBERS = re.compile(r"(?<=[^\W\d])[\s.]+(i{1,3}|iv)$", re.IGNORECASE)
ROMAN_PARTS = {"i": 1, "ii": 2, "iii": 3, "iv": 4}
NOT_IN_KEYS = re.compile(r"[^a-z0-9#&]")
LETTERS = str.maketrans(
    {"ß": "ss", "ø": "o", "æ": "ae", "œ": "oe", "ł": "l", "♭": "b", "♯": "#", "ﬀ": "ff", "ﬁ": "fi", "ﬂ": "fl"}
)


@functools.lru_cache(maxsize=1 << 15)
def key_of(spelling: str) -> str:
    """Return the key under which a spelling is found.

    A Roman part number at the end becomes a figure, so that ``violin I`` is not ``violini``.

    >>> key_of("B. Cl."), key_of("Flöte"), key_of("ob d’a"), key_of("violin II")
    ('bcl', 'flote', 'obda', 'violin2')
    """
    spelling = PART_NUMBERS.sub(lambda found: str(ROMAN_PARTS[found[1].lower()]), spelling)
    if spelling.isascii():
        return NOT_IN_KEYS.sub("", spelling.lower())
    plain = unicodedata.normalize("NFD", spelling.lower().translate(LETTERS))
    return "".join(one for one in plain if one.isalnum() or one in "#&")


def with_capitals(names: Names) -> Names:
    """Return names of another language as German writes them, each noun with a capital."""
    one, several = (
        " ".join(word[:1].upper() + word[1:] for word in name.split()) for name in (names.singular, names.plural)
    )
    return Names(one, several, names.abbreviation)


def instrument_of(slug: str, row: dict[str, object], order: int) -> Instrument:
    spellings: list[tuple[str, str]] = []
    names: dict[str, Names] = {}
    for language in LANGUAGES:
        listed = row.get(language)
        if isinstance(listed, list):
            names[language] = Names(*listed[:3])
            spellings += [(language, one) for one in listed if one]
        else:
            english = names.get("en-GB", Names(slug, slug, slug))
            names[language] = with_capitals(english) if language == "de" else english
    also = row.get("also")
    usual = row.get("usual", [])
    return Instrument(
        slug=slug,
        family=str(row["family"]),
        order=order,
        section=str(row.get("section", "")),
        kit=bool(row.get("kit", False)),
        names=names,
        spellings=(*spellings, *(("", one) for one in (also if isinstance(also, list) else ()))),
        usual=tuple(usual) if isinstance(usual, list) else (),
        sound=str(row.get("sound", "")),
        marc=str(row.get("marc", "")),
    )


@functools.cache
def instruments() -> dict[str, Instrument]:
    """Return all instruments by slug, in score order."""
    table = tomllib.loads(Path(__file__).with_name("vocabulary.toml").read_text(encoding="utf-8"))
    return {slug: instrument_of(slug, row, order) for order, (slug, row) in enumerate(table.items())}


@functools.cache
def keys() -> dict[str, tuple[str, ...]]:
    """Return for each key the slugs that are spelled so, in score order."""
    found: dict[str, dict[str, None]] = {}
    for instrument in instruments().values():
        for _, spelling in instrument.spellings:
            found.setdefault(key_of(spelling), {})[instrument.slug] = None
    listed = {key: tuple(slugs) for key, slugs in found.items()}
    return datives() | listed


def datives() -> dict[str, tuple[str, ...]]:
    """Return the German plurals as they stand after *zu* and *mit*, ``mit vier Hörnern``."""
    plurals = [(one.names["de"].plural, one.slug) for one in instruments().values() if one.names["de"].plural]
    return {key_of(plural) + "n": (slug,) for plural, slug in plurals if plural.endswith(("er", "e", "el"))}


@functools.cache
def languages_of() -> dict[tuple[str, str], frozenset[str]]:
    """Return for each key and slug the languages that spell the instrument so."""
    found: dict[tuple[str, str], set[str]] = {}
    for instrument in instruments().values():
        for language, spelling in instrument.spellings:
            found.setdefault((key_of(spelling), instrument.slug), set()).add(language)
    return {pair: frozenset(languages) for pair, languages in found.items()}


@functools.lru_cache(maxsize=1 << 12)
def instrument(slug: str) -> Instrument:
    """Return the row of one instrument; a slug that is not in the vocabulary is an instrument of its own.

    >>> instrument("cor-anglais").names["en-US"].singular
    'English horn'
    >>> instrument("taonga-puoro").family
    'other'
    """
    known = instruments().get(slug)
    return known if known else instrument_of(slug, {"family": "other", "en-GB": [slug.replace("-", " ")] * 3}, 10_000)


def called(slug: str, language: str = "en-GB") -> Names:
    """Return what an instrument is called in a language (``en-GB`` where the language has no name of its own)."""
    names = instrument(slug).names
    return names[language if language in names else "en-GB"]


@functools.lru_cache(maxsize=1 << 12)
def family_of(slug: str) -> str:
    """Return the family of an instrument, ``other`` for one that is not in the vocabulary."""
    return instrument(slug).family


def score_order(slug: str) -> int:
    """Return the place of an instrument in score order, to be sorted by."""
    return instrument(slug).order
