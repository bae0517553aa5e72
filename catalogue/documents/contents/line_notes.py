"""What stands beside a part in the forces, told in the language of the paper: keys, hands at a keyboard."""

from __future__ import annotations

import re

from catalogue.documents.labels import Labels

KEYS = (
    "in A",
    "in A flat",
    "in B",
    "in B flat",
    "in C",
    "in D",
    "in D flat",
    "in E",
    "in E flat",
    "in F",
    "in G",
)
HANDS = re.compile(r"(\d{1,2}) hands")


def note_told(note: str, says: Labels) -> str:
    """A key or a number of hands in the language; anything else as it was typed.

    >>> from catalogue.documents.labels import labels
    >>> [note_told(note, labels("de")) for note in ("in B flat", "4 hands", "muted")]
    ['in B', 'zu 4 Händen', 'muted']
    """
    if note in KEYS:
        return says.word(note)
    hands = HANDS.fullmatch(note)
    return says.count("{n} hand", "{n} hands", int(hands[1])) if hands else note
