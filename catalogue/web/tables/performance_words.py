"""The performances that hold words, in the order of their list, without putting all of them in order.

Of many, those of a page are met soon where all performances are gone through in their order; few are put in order.
"""

from __future__ import annotations

from array import array
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.searches import evenings_with, words_of
from catalogue.gathering.versions import State
from catalogue.models import Composer
from catalogue.web.tables.performance_orders import LATEST_OF_FEW, ours

FEW = 2_000
"""So many, or fewer, are put in order."""
LONGEST = 20_000
"""So many performances are gone through for a page, no more: then all that hold the words are put in order."""
AT_ONCE = 1_000


@dataclass(frozen=True, slots=True)
class GroupHolding:
    """The performances of a composer that hold words: so many, the latest first."""

    number: int
    composer: Composer
    words: tuple[str, ...]
    state: State

    def keys(self, start: int, end: int) -> Sequence[int]:
        return page_of(self.state, self.composer, self.words, start, end)


def group_holding(text: str, composer: Composer, state: State) -> GroupHolding | None:
    """Return the performances of a composer that hold every word of a text; None where there is no word in it."""
    words = words_of(text)
    if not words:
        return None
    return GroupHolding(len(evenings_with(state, composer, words)), composer, words, state)


@once_for_each_state(256)
def page_of(state: State, composer: Composer, words: tuple[str, ...], start: int, end: int) -> Sequence[int]:
    """Return the keys from ``start`` up to ``end``, found from the nearer end of the list."""
    found = evenings_with(state, composer, words)
    if len(found) > FEW:
        is_near = start <= len(found) - end
        first, last = (start, end) if is_near else (len(found) - end, len(found) - start)
        met = met_in_order(found, composer, last, latest_first=is_near)
        if len(met) == last:
            return met[first:] if is_near else met[first:][::-1]
    return all_in_order(state, composer, words)[start:end]


def met_in_order(found: array[int], composer: Composer, number: int, *, latest_first: bool) -> list[int]:
    """Go through a composer's performances until so many of those found are met, or ``LONGEST`` are gone through."""
    evenings = ours(composer).latest_first().values_list("pk", flat=True)
    in_order = evenings if latest_first else evenings.reverse()
    met: list[int] = []
    for key in in_order[:LONGEST].iterator(chunk_size=AT_ONCE):
        place = bisect_left(found, key)
        if place < len(found) and found[place] == key:
            met.append(key)
            if len(met) == number:
                break
    return met


@once_for_each_state(32)
def all_in_order(state: State, composer: Composer, words: tuple[str, ...]) -> array[int]:
    found = evenings_with(state, composer, words)
    if len(found) <= FEW:
        few = ours(composer).filter(pk__in=list(found)).order_by(*LATEST_OF_FEW)
        return array("q", few.values_list("pk", flat=True))
    wanted = set(found)
    evenings = ours(composer).latest_first().values_list("pk", flat=True)
    return array("q", (key for key in evenings.iterator(chunk_size=AT_ONCE) if key in wanted))
