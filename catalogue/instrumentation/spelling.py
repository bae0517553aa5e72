"""Words that are spelled nearly like a name: a slip of the pen, two words run together, and what may have been meant.

A word of six letters or more is mended where one letter differs; a shorter one only where two are exchanged.
"""

from __future__ import annotations

import difflib
import functools
import re

from catalogue.instrumentation import collectives
from catalogue.instrumentation.lexicon import AND, BODY_OF_STRINGS
from catalogue.instrumentation.names import beginnings
from catalogue.instrumentation.numbers import cardinal
from catalogue.instrumentation.tokens import Token, stretch_of
from catalogue.instrumentation.vocabulary import called, family_of, key_of, keys

SHORTEST_TO_MEND = 6
LONGEST_WORD = 40
MOST_SUGGESTIONS = 3
ALIKE = 0.5
COMPOUND = re.compile(
    r"(\w{4,}?)(duo|duett|trio|quartett|quintett|sextett|septett|oktett|nonett|ensemble|orchester|chor|consort)",
    re.IGNORECASE,
)
SHORT = 5


@functools.lru_cache(maxsize=1024)
def near(word: str) -> tuple[str, ...]:
    """Return the instruments whose spelling differs from the word by one letter; only for long words."""
    key = key_of(word)
    if not SHORTEST_TO_MEND - 1 <= len(key) <= 24:
        return ()
    for one in variants(key) if len(key) >= SHORTEST_TO_MEND else exchanged(key):
        if one in keys():
            return keys()[one]
    return ()


def exchanged(key: str) -> list[str]:
    """Return the word with two neighbouring letters exchanged: the one slip that a short word allows to mend."""
    return [key[:at] + key[at + 1] + key[at] + key[at + 2 :] for at in range(len(key) - 1)]


def variants(key: str) -> list[str]:
    """Return the word with one letter left out, two exchanged, one changed or one added."""
    letters = "abcdefghijklmnopqrstuvwxyz"
    cuts = [(key[:at], key[at:]) for at in range(len(key) + 1)]
    left_out = [head + rest[1:] for head, rest in cuts if rest]
    changed = [head + one + rest[1:] for head, rest in cuts if rest for one in letters]
    added = [head + one + rest for head, rest in cuts for one in letters]
    return left_out + exchanged(key) + changed + added


def ensemble_compound(token: Token) -> tuple[Token, Token] | None:
    """Return the instrument and the word for so many of it that German writes as one, ``Klarinettenquartett``."""
    found = COMPOUND.fullmatch(token.text)
    if found is None or token.key in keys() or token.key in collectives.names():
        return None
    stem = next((one for one in (found[1], found[1].removesuffix("s")) if key_of(one) in keys()), None)
    if stem is None or family_of(keys()[key_of(stem)][0]) in ("voice", "other", "electronics"):
        return None
    cut = found.start(2)
    return stretch_of(token, 0, cut), stretch_of(token, cut, len(token.text))


def solo_compound(token: Token) -> tuple[Token, Token] | None:
    """Return ``Solo`` and the name that is written to it, ``Solovioline``, ``Solosoprane``."""
    text = token.text
    named = key_of(text[4:]) in keys() or key_of(text[4:]) in BODY_OF_STRINGS
    if not text.lower().startswith("solo") or key_of(text) in keys() or not named:
        return None
    return stretch_of(token, 0, 4), stretch_of(token, 4, len(text))


def two_words(token: Token) -> tuple[Token, Token] | None:
    """Return the two words that were written as one, ``andfour``, ``saxophonehorn``."""
    text = token.text
    if len(text) > LONGEST_WORD or key_of(text) in beginnings():
        return None
    for at in range(len(text) - 3, 2, -1):
        head, rest = text[:at], text[at:]
        joined = key_of(head) in AND and (cardinal(rest) is not None or key_of(rest) in keys())
        both = len(head) > 3 and len(rest) > 3 and key_of(head) in keys() and key_of(rest) in keys()
        if joined or both:
            return stretch_of(token, 0, at), stretch_of(token, at, len(text))
    return None


@functools.lru_cache(maxsize=1024)
def nearest(written: str, place: str = "") -> tuple[str, ...]:
    """Return the names that may have been meant by a word that is none, the likeliest first; short for short.

    In the bracket of a section only instruments of the family are meant; ``place`` is the section's instrument.

    >>> nearest("pixx", "flute"), nearest("basoonn")[0]
    (('picc',), 'bassoon')
    """
    key = key_of(written)
    if not 1 < len(key) <= LONGEST_WORD:
        return ()
    alike = [one for one in keys() if one[0] == key[0] and 2 <= len(one) <= len(key) + 2 and len(one) >= len(key) - 2]
    if place:
        alike = [one for one in alike if family_of(keys()[one][0]) == family_of(place)]
    close = difflib.get_close_matches(key, alike, MOST_SUGGESTIONS, ALIKE)
    slugs = dict.fromkeys(keys()[one][0] for one in close)
    return tuple(called(slug).abbreviation if len(key) <= SHORT else called(slug).singular for slug in slugs)
