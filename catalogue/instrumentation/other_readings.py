"""The other readings of a text, each with the convention that chooses it.

A text that two readings fit is read in the usual one; what was decided is in its remarks. Here the text is read again
in the other ways, and those that give other players are kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalogue.instrumentation.conventions import BRACKETS, DECIDED
from catalogue.instrumentation.model import Instrumentation, InstrumentationError
from catalogue.instrumentation.reading import read
from catalogue.instrumentation.vocabulary import LANGUAGES

MOST = 3
BY_LANGUAGE = {"abbreviation", "old-name"}  # codes of remarks on words that another language takes otherwise
BY_UNIT = "printed-set"
WAYS = {"convention": "convention", "language": "language", "strings": "strings_are"}


@dataclass(frozen=True, slots=True)
class OtherReading:
    """What a text says otherwise; ``key`` names the way, ``convention:other drums``, ``says`` what is other in it."""

    key: str
    says: str
    instrumentation: Instrumentation


def other_readings(text: str, found: Instrumentation) -> tuple[OtherReading, ...]:
    """Return the readings that differ from the one found, three at most; of equal ones the first.

    >>> from catalogue.instrumentation.reading import read
    >>> text = "fl(+picc), pf"
    >>> [(other.key, other.says) for other in other_readings(text, read(text))]
    [('convention:other plus-in-bracket', 'one more player')]
    """
    different: dict[object, OtherReading] = {}
    for key, says in ways_for(found):
        other = read_by(text, key)
        if other is not None and other.lines != found.lines and other.lines not in different:
            different[other.lines] = OtherReading(key, says or other.convention, other)
    return tuple(different.values())[:MOST]


def ways_for(found: Instrumentation) -> Iterator[tuple[str, str]]:
    """Yield the ways to read again that may make a difference, with what is other in them where that is known."""
    others = {remark.code: remark.other for remark in found.warnings}
    yield from ((f"convention:other {code}", others[code]) for code in DECIDED if code in others)
    yield from ((f"convention:{name}", "") for name in BRACKETS)
    if not BY_LANGUAGE.isdisjoint(others):
        yield from ((f"language:{language}", "") for language in LANGUAGES)
    if BY_UNIT in others:
        yield from ((f"strings:{unit}", unit) for unit in ("players", "desks"))


def read_by(text: str, key: str) -> Instrumentation | None:
    """Read a text in the way that a key names; ``None`` where that way does not lead through it."""
    sort, _mark, name = key.partition(":")
    if sort not in WAYS:
        return None
    try:
        return read(text, **{WAYS[sort]: name})
    except InstrumentationError:
        return None
