"""The words of durations and dates by language, read once from ``words.toml`` whose head explains its columns."""

from __future__ import annotations

import re
import tomllib
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

NO_BREAK_SPACE = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True)
class Language:
    """What one language prints."""

    about: str
    about_short: str
    about_date: str
    hour: tuple[str, str]
    minute: tuple[str, str]
    second: tuple[str, str]
    months: tuple[str, ...]
    months_short: tuple[str, ...]
    date: str
    date_of_month: str
    day: str
    day_one: str
    month_first: bool
    date_short: str = ""
    date_of_month_short: str = ""


@dataclass(frozen=True, slots=True)
class Typed:
    """What people type, folded (see :func:`folded`)."""

    labels: tuple[str, ...]
    before_labels: tuple[str, ...]
    after_labels: tuple[str, ...]
    as_labels: tuple[str, ...]
    roughly: tuple[str, ...]
    about: tuple[str, ...]
    units: dict[str, str]
    joins: tuple[str, ...]
    weekdays: tuple[str, ...]
    articles: tuple[str, ...]
    of: tuple[str, ...]
    to: tuple[str, ...]
    months: dict[str, int]


@dataclass(frozen=True, slots=True)
class Spoken:
    """The words of durations without figures, folded; apostrophes and hyphens are blanks."""

    one: tuple[str, ...]
    half: tuple[str, ...]
    quarter: tuple[str, ...]
    of: tuple[str, ...]
    numbers: dict[str, int]
    mixed: dict[str, Fraction]
    wholes: dict[str, Fraction]


def folded(word: str) -> str:
    """Return the word in small letters, without accents and closing full stop.

    >>> folded("Févr.")
    'fevr'
    """
    plain = unicodedata.normalize("NFKD", word.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")).casefold()
    return "".join(sign for sign in plain if not unicodedata.combining(sign)).rstrip(".").strip()


def words_in(language: str) -> Language:
    """Return the words of a language tag such as ``de``, ``en-US`` or ``de-AT`` (which takes those of ``de``).

    Raises KeyError where neither the tag nor its first part is known.
    """
    if language in LANGUAGES:
        return LANGUAGES[language]
    base = language.partition("-")[0]
    return LANGUAGES["en-GB" if base == "en" else base]


@cache
def abbreviated(words: Language) -> Language:
    """Return the words of a language with months as they are shortened, and dates as they are put with these."""
    return replace(
        words,
        months=words.months_short,
        date=words.date_short or words.date,
        date_of_month=words.date_of_month_short or words.date_of_month,
    )


def one_of(words: Iterable[str]) -> str:
    """Return a regular expression for any of the folded words, as typed with or without accents and full stop."""
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    return "(?:" + "|".join(_spelling(word) for word in longest_first) + ")"


def _spelling(word: str) -> str:
    accented = {"a": "[aàäá]", "e": "[eéèê]", "i": "[iíì]", "o": "[oóöò]", "u": "[uúüùû]", "'": "['’]", " ": r"\s+"}
    letters = "".join(accented.get(sign, re.escape(sign)) for sign in word)
    return rf"{letters}(?![^\W\d_])\.?" if word[-1].isalpha() else letters


def _language(row: dict[str, Any]) -> Language:
    columns: dict[str, Any] = {name: tuple(cell) if isinstance(cell, list) else cell for name, cell in row.items()}
    return Language(**columns)


def _typed(row: dict[str, Any]) -> Typed:
    return Typed(
        labels=tuple(row["labels"]),
        before_labels=tuple(row["before_labels"]),
        after_labels=tuple(row["after_labels"]),
        as_labels=tuple(row["as_labels"]),
        roughly=tuple(row["roughly"]),
        about=tuple(row["about"]),
        units={word: unit for unit in ("hour", "minute", "second") for word in row[unit]},
        joins=tuple(row["and"]),
        weekdays=tuple(row["weekdays"]),
        articles=tuple(row["articles"]),
        of=tuple(row["of"]),
        to=tuple(row["to"]),
        months={word: number for number, words in enumerate(row["months"], start=1) for word in words},
    )


def _numbers(row: dict[str, Any]) -> Iterator[tuple[str, int]]:
    """Give the numbers of a language: small ones, tens, compounds such as twenty-five, and single ones."""
    yield from ((word, value) for value, word in enumerate(row["small"], start=1))
    for value, ten in row["tens"].items():
        yield ten, int(value)
        for few, word in enumerate(row["small"], start=1):
            yield from ((compound.format(ten=ten, one=word), int(value) + few) for compound in row["compounds"])
    for value, words in row["more"].items():
        yield from ((word, int(value)) for word in words)


def _spoken(row: dict[str, Any]) -> Spoken:
    return Spoken(
        one=tuple(row["one"]),
        half=tuple(row["half"]),
        quarter=tuple(row["quarter"]),
        of=tuple(row["of"]),
        numbers={word: value for language in row["numbers"] for word, value in _numbers(language)},
        mixed={word: Fraction(value) for word, value in row["mixed"].items()},
        wholes={word: Fraction(value) for word, value in row["wholes"].items()},
    )


_TABLE = tomllib.loads(files("catalogue.timing").joinpath("words.toml").read_text(encoding="utf-8"))
TYPED = _typed(_TABLE.pop("reading"))
SPOKEN = _spoken(_TABLE.pop("spoken"))
LANGUAGES: dict[str, Language] = {code: _language(row) for code, row in _TABLE.items()}
