"""Reads texts in capitals throughout, as posters and old pages have them, as if they were written in small letters.

Small words (``OF``, ``A 2``) and long ones are made small; what is short may be an abbreviation, a voicing or a Roman
numeral, and stays. Every letter keeps its place.
"""

from __future__ import annotations

import re

SPOKEN = re.compile(r"\b(?:AND|OF|FOR|WITH|THE|UND|FÜR|MIT|POUR|AVEC|PER|CON|PARA|LEGNI|CORO|ARCHI|CUERDAS|STRINGS)\b")
SMALL = re.compile(r"\b(?:AND|OF|FOR|WITH|THE|TWO|SIX|TEN|UND|FÜR|MIT|DUE|TRE|DOS|PER|CON|A(?= \d| [A-Z]{3,}))\b")
LONG = re.compile(r"[^\W\d_]{5,}")
VOICING = re.compile(r"[SMATB]+")
FEWEST = 3


def quiet_capitals(text: str) -> str:
    """Return a text that has no small letter with its words in small letters, any other text as it is.

    >>> quiet_capitals("A SMALL ORCHESTRA OF SINGLE WINDS AND SATB CHORUS")
    'a small orchestra of single winds and SATB chorus'
    >>> quiet_capitals("STRS / 2FL / PICC"), quiet_capitals("2 fl")
    ('STRS / 2FL / PICC', '2 fl')
    """
    if not text.isupper() or len(LONG.findall(text)) < FEWEST or not SPOKEN.search(text):
        return text
    small = SMALL.sub(lambda found: found[0].lower(), text)
    return LONG.sub(lowered, small)


def lowered(found: re.Match[str]) -> str:
    """Return a word in small letters, unless it is a voicing or would change its length."""
    written = found[0].lower()
    return found[0] if len(written) != len(found[0]) or VOICING.fullmatch(found[0]) else written
