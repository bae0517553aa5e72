"""Which parts of a work a partial performance played, from the words of the record, and who played each first.

``Nuages, Fêtes`` are two parts; ``movements 1–3`` are three; a suite is a part of its own name.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Sequence

from catalogue.rules.firsts import Contest, contest, dates_not_surely_later, merged
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


def first_heard(whole: Sequence[Playing]) -> list[Playing]:
    """Return the playings that none of the others surely came before by its date; no later one settles anything."""
    front = set(dates_not_surely_later({one.event.date for one in whole if one.event.date}))
    return [one for one in whole if one.event.date in front]


def parts_first_heard(playings: Sequence[Playing], earlier: Sequence[Playing]) -> Contest:
    """Return the partial playings with which a part was heard first; all of ``earlier`` came before.

    A complete playing has every part. A partial one that names no part is first only where nothing came before it.
    """
    if any(one.complete for one in earlier):
        return Contest()
    partial = {one.item.id: parts_played(one) for one in playings if not one.complete}
    if not partial:
        return Contest()
    whole = first_heard([one for one in playings if one.complete])
    heard = frozenset[str]().union(*(parts_played(one) for one in earlier))
    by_name: dict[str, list[Playing]] = defaultdict(list)
    for one in playings:
        for name in partial.get(one.item.id, frozenset()) - heard:
            by_name[name].append(one)
    results = [contest([*whole, *by_name[name]]) for name in sorted(by_name)]
    unnamed = {id_ for id_, names in partial.items() if not names}
    if unnamed and not earlier:
        results.append(contest(playings).limited_to(unnamed))
    return merged(results).limited_to(partial)
