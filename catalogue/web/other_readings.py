"""The other ways in which a typed instrumentation can be read, to be seen side by side and chosen.

What is chosen is written in canonical shorthand, which can be read in one way only.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.instrumentation import Instrumentation, InstrumentationError, read, write_shorthand, write_words
from catalogue.instrumentation.conventions import NAMES
from catalogue.instrumentation.vocabulary import LANGUAGES

MOST = 3
BY_LANGUAGE = {"abbreviation", "old-name"}  # codes of remarks on words that another language takes otherwise
BY_UNIT = "printed-set"


@dataclass(frozen=True, slots=True)
class OtherReading:
    """What a text says by another convention; ``key`` names that in a form, ``words`` are the players."""

    key: str
    called: str
    words: str
    instrumentation: Instrumentation


def other_readings(text: str, found: Instrumentation, language: str) -> tuple[OtherReading, ...]:
    """Return the readings that differ from the one found, by other conventions; of equal ones the first."""
    different: dict[object, OtherReading] = {}
    for key in keys_for(found):
        other = read_by(text, key)
        if other is not None and other.lines != found.lines and other.lines not in different:
            different[other.lines] = OtherReading(key, other.convention, write_words(other, language), other)
    return tuple(different.values())[:MOST]


def keys_for(found: Instrumentation) -> Iterator[str]:
    codes = {remark.code for remark in found.warnings}
    yield from (f"convention:{name}" for name in NAMES)
    if codes & BY_LANGUAGE:
        yield from (f"language:{language}" for language in LANGUAGES)
    if BY_UNIT in codes:
        yield from ("strings:players", "strings:desks")


def read_by(text: str, key: str) -> Instrumentation | None:
    """Read a text in the way that a key names; None where that way does not lead through it."""
    sort, _mark, name = key.partition(":")
    way = {"convention": "convention", "language": "language", "strings": "strings_are"}.get(sort)
    if way is None:
        return None
    try:
        return read(text, **{way: name})
    except InstrumentationError:
        return None


def written_as_read(text: str, key: str) -> str:
    """Return the shorthand of the reading that was chosen, the text itself where there is none."""
    found = read_by(text, key)
    return write_shorthand(found) if found else text
