"""What the words over a score ask of whoever plays it: jumps, gradual changes of tempo, a change of instrument.

MusicXML states jumps as attributes of ``sound``; where a program wrote only the words, the usual Italian and English
ones are read (common practice).
"""

from __future__ import annotations

import functools
import re
from dataclasses import dataclass
from fractions import Fraction

from catalogue.exchange.scores.model import Change
from catalogue.exchange.scores.naming import chair_of

JUMPS = {
    "da capo": re.compile(r"\W*(?:d\s*\.\s*c\b|da\s+capo\b)", re.IGNORECASE),
    "dal segno": re.compile(r"\W*(?:d\s*\.\s*s\b|dal\s+segno\b)", re.IGNORECASE),
    "fine": re.compile(r"\W*fine\W*\Z", re.IGNORECASE),
}
TO_CODA = re.compile(r"\W*(?:to|al|alla)\s+coda\b", re.IGNORECASE)
GRADUAL = re.compile(
    r"\b(?:rit|ritard\w*|riten\w*|rall|rallent\w*|accel|accelerando|string|stringendo|allarg\w*)\b", re.I
)
TEMPO_WORD = re.compile(
    r"\b(?:grave|largo|larghetto|lento|adagio|adagietto|andante|andantino|moderato|allegretto|allegro|vivace|vivo|presto"
    r"|prestissimo|tempo|lent|modéré|vite?|vif|langsam|mäßig|schnell|lebhaft|bewegt|slow|slowly|fast|quick|lively)\b",
    re.IGNORECASE,
)
WHOSE = r"(?:(?:[^\W\d_]{2,10}\.?\s*)?(?P<chair>\d{1,2}|[IVX]{1,4})\s*[.):]*\s+)?"
CHANGE = re.compile(
    rf"\W*{WHOSE}(?:(?P<certain>(?:change|switch)\s+to|muta(?:no)?\s+in)|take|to|nimmt|nehmen|prendre|prenez|prende|prendere)"
    r"\s+(?:(?:the|an?|die|den|das|la|le|les|il|lo|l['’])\s+)?(?P<name>[^\W\d].*?)\W*",
    re.IGNORECASE,
)
NOTE_SIGNS = {
    "♩": Fraction(1),
    "\ue1d5": Fraction(1),
    "\ueca5": Fraction(1),
    "♪": Fraction(1, 2),
    "\ueca7": Fraction(1, 2),
}
FIGURE = re.compile(
    rf"(?P<sign>[{''.join(NOTE_SIGNS)}])\s*(?P<dot>[.·\ueCB7])?\s*=\s*(?:c(?:a|irca)?\.?\s*)?(?P<figure>\d{{2,3}}(?:\.\d+)?)"
)


@dataclass(frozen=True, slots=True)
class Meaning:
    """What words ask for; ``jump`` is one of ``JUMPS`` or "", ``tempo`` is in quarter notes a minute."""

    jump: str
    to_coda: bool
    tempo: Fraction | None
    change: Change | None
    is_gradual: bool
    names_tempo: bool


@functools.lru_cache(maxsize=1024)
def meaning(words: str) -> Meaning:
    """Return what words ask for; the same few stand over a score again and again."""
    return Meaning(
        jump=next((name for name, pattern in JUMPS.items() if pattern.match(words)), ""),
        to_coda=bool(TO_CODA.match(words)),
        tempo=tempo_in(words),
        change=change_in(words),
        is_gradual=bool(GRADUAL.search(words)),
        names_tempo=bool(TEMPO_WORD.search(words)),
    )


def tempo_in(words: str) -> Fraction | None:
    """Return the tempo that is written out in words, in quarter notes a minute.

    >>> tempo_in("Lento (♪ = 60)"), tempo_in("Lento")
    (Fraction(30, 1), None)
    """
    found = FIGURE.search(words)
    if not found:
        return None
    unit = NOTE_SIGNS[found["sign"]] * (Fraction(3, 2) if found["dot"] else 1)
    return Fraction(found["figure"]) * unit or None


def change_in(words: str) -> Change | None:
    """Return the change of instrument that a player is told to make, if any.

    >>> change_in("2. muta in Ottavino"), change_in("take the piccolo")
    (Change(instrument='Ottavino', chair=2, is_certain=True), Change(instrument='piccolo', chair=0, is_certain=False))
    """
    found = CHANGE.fullmatch(words)
    if found is None:
        return None
    return Change(found["name"], chair_of(found["chair"] or ""), found["certain"] is not None)
