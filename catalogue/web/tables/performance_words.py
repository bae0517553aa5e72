"""The performances that hold words, in the order of their list, without putting all of them in order.

Of many, those of a page are met soon where all performances are gone through in their order; few are put in order.
"""

from __future__ import annotations

from array import array
from collections.abc import Sequence, Set
from dataclasses import dataclass
from itertools import islice

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
    """The performances of a composer that hold words, the latest first; ``found`` are their keys."""

    state: State
    composer: Composer
    words: tuple[str, ...]
    found: Set[int]

    @property
    def number(self) -> int:
        return len(self.found)

    def keys(self, start: int, end: int) -> Sequence[int]:
        """Return the keys from ``start`` up to ``end``, found from the nearer end of the list."""
        if self.number <= FEW:
            return in_order(self.found, self.composer)[start:end]
        is_near = start <= self.number - end
        first, last = (start, end) if is_near else (self.number - end, self.number - start)
        met = met_in_order(self.found, self.composer, last, latest_first=is_near)
        if len(met) < last:
            return all_in_order(self.state, self.composer, self.words)[start:end]
        return met[first:] if is_near else met[first:][::-1]


def group_holding(text: str, composer: Composer, state: State) -> GroupHolding | None:
    """Return the performances of a composer that hold every word of a text; None where there is no word in it."""
    words = words_of(text)
    return GroupHolding(state, composer, words, evenings_with(state, composer, words)) if words else None


def met_in_order(found: Set[int], composer: Composer, number: int, *, latest_first: bool) -> list[int]:
    """Go through a composer's performances until so many of those found are met, or ``LONGEST`` are gone through."""
    evenings = ours(composer).latest_first().values_list("pk", flat=True)
    going = evenings if latest_first else evenings.reverse()
    met = (key for key in going[:LONGEST].iterator(chunk_size=AT_ONCE) if key in found)
    return list(islice(met, number))


def in_order(few: Set[int], composer: Composer) -> list[int]:
    found = ours(composer).filter(pk__in=few).order_by(*LATEST_OF_FEW)
    return list(found.values_list("pk", flat=True))


@once_for_each_state(32)
def all_in_order(state: State, composer: Composer, words: tuple[str, ...]) -> array[int]:
    found = evenings_with(state, composer, words)
    evenings = ours(composer).latest_first().values_list("pk", flat=True)
    return array("q", (key for key in evenings.iterator(chunk_size=AT_ONCE) if key in found))
