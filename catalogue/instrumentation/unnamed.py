"""Keeps ensembles of a kind that is not known, ``tango quintet``, ``rock band``: how many, and not who plays what.

body = word , [ word ] , ( size | group ) | ( size | group ) , "of" , word ;

The kind is a word that names no instrument; it is kept as a remark, and the reader is told that nobody is named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.instrumentation import collectives
from catalogue.instrumentation.drafts import Draft
from catalogue.instrumentation.lexicon import OF, REMARKS, keyed
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.open_forces import stands_alone
from catalogue.instrumentation.phrases import count_at, is_key, token_at
from catalogue.instrumentation.tokens import Token

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

GROUPS = keyed("band bands group groups ensemble ensembles combo gruppe gruppo grupo groupe conjunto complesso")
MOST_WORDS = 2


def unnamed_body(scan: Scan, at: int, token: Token) -> int | None:
    """Keep the ensemble that begins here and return its end; ``None`` where none does."""
    found = kind_before(scan, at) or kind_after(scan, at)
    while at > 0 and is_key(scan.nodes[at - 1], REMARKS):
        at -= 1
    if found is None or not stands_alone(scan.nodes, at, found[1]):
        return None
    size, end = found
    start, stop = scan.nodes[at].start, scan.nodes[end - 1].end
    written = scan.forces.written(start, stop)
    draft = Draft("instrument", start, stop, collective="unnamed", open=not size, notes=[written])
    if size:
        draft.counted(size)
    scan.add(draft)
    scan.forces.remark("unnamed", f"“{written}” does not name who plays what.", start, stop)
    return end


def kind_before(scan: Scan, at: int) -> tuple[int, int] | None:
    """Return the size of ``tango quintet``, 0 where it is open, and its end: one or two unknown words before it."""
    for end in range(at + 1, min(at + MOST_WORDS + 1, len(scan.nodes))):
        size = size_at(scan, end)
        if size is not None:
            return size, end + 1
        if not is_unknown(scan, end):
            return None
    return None


def kind_after(scan: Scan, at: int) -> tuple[int, int] | None:
    """Return the size of ``quinteto de tango`` and its end: an unknown word after it."""
    size = size_at(scan, at)
    if size is None or at + 2 >= len(scan.nodes) or not is_key(scan.nodes[at + 1], OF):
        return None
    return (size, at + 3) if is_unknown(scan, at + 2) else None


def size_at(scan: Scan, at: int) -> int | None:
    """Return how many the word at a place stands for, 0 for a group of any number, ``None`` for another word."""
    token = token_at(scan.nodes, at)
    if token is None or token.kind != "word":
        return None
    return collectives.size_of(token.text) or (0 if token.key in GROUPS else None)


def is_unknown(scan: Scan, at: int) -> bool:
    """Whether a word names no instrument and no number."""
    word = scan.nodes[at].kind == "word"
    return word and name_at(scan.nodes, at) is None and count_at(scan.nodes, at) is None
