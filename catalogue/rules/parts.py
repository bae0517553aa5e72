"""Which parts of a work a partial performance played, from the words of the record, and who played each first.

``Nuages, Fêtes`` are two parts; ``movements 1–3`` are three; a suite is a part of its own name.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from catalogue.rules.firsts import Contest, contest, merged
from catalogue.rules.playings import Playing
from catalogue.rules.search import fold
from catalogue.terms import Extent

BETWEEN = re.compile(r"\s*(?:[,;/&+]|\b(?:and|und|et)\b)\s*")
MOVEMENT = re.compile(
    r"^(?:movements?|mvts?|mvmts?|nos?|satze?|mouvements?|movimenti|movimientos)?\.? ?(\d{1,3})(?:[-–—](\d{1,3}))?$"
)
ARTICLE = re.compile(r"^(?:the|le|la|les|der|die|das|il) ")


def named_parts(text: str) -> frozenset[str]:
    """Return the parts that the text names; none where it names none.

    >>> sorted(named_parts("mvts. 1–2 and Finale"))
    ['1', '2', 'finale']
    """
    pieces = [piece for piece in BETWEEN.split(fold(text)) if piece]
    return frozenset(name for piece in pieces for name in numbered(piece))


def numbered(piece: str) -> list[str]:
    match = MOVEMENT.match(piece)
    if match is None:
        return [ARTICLE.sub("", piece)]
    first, last = int(match[1]), int(match[2] or match[1])
    return [str(number) for number in range(first, last + 1)] if first <= last else [piece]


def parts_played(playing: Playing) -> frozenset[str]:
    if playing.item.extent is Extent.SUITE:
        return frozenset({fold(f"suite {playing.item.part}")})
    return named_parts(playing.item.part)


def parts_first_heard(playings: Sequence[Playing], earlier: Sequence[Playing]) -> Contest:
    """Return the partial playings with which a part was heard first; all of ``earlier`` came before.

    A complete playing has every part. A partial one that names no part is first only where nothing came before it.
    """
    if any(one.complete for one in earlier):
        return Contest()
    partial = {one.item.id: parts_played(one) for one in playings if not one.complete}
    whole = [one for one in playings if one.complete]
    heard = frozenset[str]().union(*(parts_played(one) for one in earlier))
    results = [
        contest([*whole, *(one for one in playings if name in partial.get(one.item.id, ()))])
        for name in sorted(frozenset[str]().union(*partial.values()) - heard)
    ]
    unnamed = {id_ for id_, names in partial.items() if not names}
    if unnamed and not earlier:
        results.append(contest(playings).limited_to(unnamed))
    return merged(results).limited_to(partial)
