"""Durations in plain words: half an hour, an hour and a quarter, eine Dreiviertelstunde, une heure et demie.

The words are in ``words.toml`` under ``[spoken]``, in five languages at once. Read is a text that is such a phrase from
its first word to its last; in every other case nothing is read, and the figures have their say.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from fractions import Fraction

from catalogue.timing.words import SPOKEN, TYPED, folded

SECONDS_OF = {"hour": 3600, "minute": 60, "second": 1}
BETWEEN_WORDS = re.compile(r"\s+|(?<=[^\W\d_])[-‐‑'’,.]+\s*")  # nothing before a figure, where it is a sign or a point
MOST_WORDS = 4  # of one number: quatre vingt et un


def _any(words: Iterable[str]) -> str:
    longest_first = sorted(words, key=lambda word: (-len(word), word))
    return f"(?:{'|'.join(map(re.escape, longest_first))})(?![^ ])"


ONE, HALF, QUARTER, OF = (_any(words) for words in (SPOKEN.one, SPOKEN.half, SPOKEN.quarter, SPOKEN.of))
UNIT, AND = _any(TYPED.units), _any(word for word in TYPED.joins if word.isalpha())
COUNT = rf"(?:[0-9]{{1,4}}(?![^ ])|{_any((*SPOKEN.one, *SPOKEN.mixed))})"
REST = rf"(?:(?:{ONE} )?(?P<half>{HALF})|(?:(?P<quarters>{COUNT}) )?(?P<quarter>{QUARTER}))(?! (?:{OF}|{ONE}|{UNIT}))"
FORMS = tuple(
    re.compile(form)
    for form in (
        rf"(?:{ONE} )?(?P<whole>{_any(SPOKEN.wholes)})",  # eine Dreiviertelstunde
        rf"(?:{ONE} )?(?P<half>{HALF}) (?:{ONE} )?(?P<unit>{UNIT})",  # half an hour
        rf"(?:(?P<fourths>{COUNT}) )?{QUARTER} (?:{OF} )?(?:{ONE} )?(?P<unit>{UNIT})",  # three quarters of an hour
        rf"(?P<count>{COUNT}) {AND} (?:{ONE} )?(?P<half>{HALF}) (?P<unit>{UNIT})",  # two and a half hours
        rf"(?P<count>{COUNT}) (?P<unit>{UNIT})(?: {AND} {REST})?",  # an hour and a quarter
    )
)
JOINED = re.compile(rf" (?:{AND} )?")
TO = re.compile(r"\s+[-–—]\s+|[–—]|\s+(?:to|bis|à|a|ai|hasta|or|oder|ou|o)\s+", re.IGNORECASE)
BETWEEN = re.compile(r"(?:between|zwischen|entre|tra|fra)\s+(.+?)\s+(?:and|und|et|e|y)\s+(.+)", re.IGNORECASE)


def spoken_seconds(text: str) -> Fraction | None:
    """Return the seconds that a phrase in words says, None where the text is none.

    >>> [int(spoken_seconds(text)) for text in ("half an hour", "an hour and a quarter", "anderthalb Stunden")]
    [1800, 4500, 5400]
    """
    phrase = " ".join(_in_figures(_words(text)))
    total, above = Fraction(0), 0
    for unit, value in _parts(phrase):
        worth = SECONDS_OF.get(unit, 0)
        if not worth or (above and (worth >= above or value >= 60)):
            return None
        above = worth
        total += value * worth
    return total if above else None


def spoken_range(text: str) -> tuple[str, str] | None:
    """Return both ends of a range of which one at least is in words, None where the text is none.

    >>> spoken_range("ten to twelve minutes"), spoken_range("half an hour")
    (('ten', 'twelve minutes'), None)
    """
    between = BETWEEN.fullmatch(text)
    pairs = [between.groups()] if between else [(text[: to.start()], text[to.end() :]) for to in TO.finditer(text)]
    return next(
        ((low, high) for low, high in pairs if _begins_with_a_number(low) and _begins_with_a_number(high)), None
    )


def _words(text: str) -> list[str]:
    return BETWEEN_WORDS.sub(" ", folded(text)).split()


def _in_figures(words: list[str]) -> Iterator[str]:
    """Give the words with each number from two on in figures, the longest that can be read."""
    position = 0
    while position < len(words):
        longest = range(min(MOST_WORDS, len(words) - position), 0, -1)
        for length in longest:
            value = SPOKEN.numbers.get(" ".join(words[position : position + length]), 0)
            if value > 1:
                yield str(value)
                break
        else:
            length = 1
            yield words[position]
        position += length


def _begins_with_a_number(text: str) -> bool:
    first = next(_in_figures(_words(text)), "")
    return first.isdecimal() or first in SPOKEN.one or first in SPOKEN.mixed


def _parts(phrase: str) -> Iterator[tuple[str, Fraction]]:
    """Give the unit and the number of each part; what is not understood has no unit."""
    position = 0
    while position < len(phrase):
        match = next((found for form in FORMS if (found := form.match(phrase, position))), None)
        if match is None:
            yield "", Fraction(0)
            return
        yield _part(match.groupdict())
        joined = JOINED.match(phrase, match.end())
        position = joined.end() if joined else match.end()


def _part(said: dict[str, str | None]) -> tuple[str, Fraction]:
    whole, unit = said.get("whole"), said.get("unit")
    if whole or not unit:
        return "hour", SPOKEN.wholes[whole or ""]
    value = _count(said["count"]) if "count" in said else Fraction(0)
    if said.get("half"):
        value += Fraction(1, 2)
    if said.get("quarter"):
        value += _count(said["quarters"]) / 4
    if "fourths" in said:
        value += _count(said["fourths"]) / 4
    return TYPED.units[unit], value


def _count(word: str | None) -> Fraction:
    """Return a number; one where none is said."""
    if word is None or word in SPOKEN.one:
        return Fraction(1)
    return SPOKEN.mixed[word] if word in SPOKEN.mixed else Fraction(word)
