"""Works in the order of how often, or on which day last, they were performed, those that agree in title order.

A save moves a few works. So each order is sorted again from the one before, in which nearly all stand rightly.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from catalogue.gathering.once import let_go_with_all, once_for_each_state
from catalogue.gathering.tallies import Tallies, tallies_of
from catalogue.gathering.versions import State

BY_TALLY = ("performances", "last")
MOST_ORDERS = 8
MOST_MOVED = 1_000
"""If the tallies of more works are others, all are put in order anew."""
LATER_THAN_ALL = date.max.toordinal() + 1
"""A number that no day has: works that were never performed stand last, whichever way the days run."""


def keys_by_tally(state: State, composer: int, works: array[int], order: str) -> array[int]:
    """Return works of a composer that are in title order by how often, or when last, each was performed."""
    return keys_by_tally_at(state, composer, works.tobytes(), order)


@once_for_each_state(64)
def keys_by_tally_at(state: State, composer: int, works: bytes, order: str) -> array[int]:
    tallies = tallies_of(state, composer)
    before = _orders.of(works, order)
    placed = (before and moved(before, tallies, order)) or placed_anew(works, tallies, order)
    _orders.keep(works, order, placed)
    return array("q", placed.keys)


@dataclass(frozen=True, slots=True)
class Placed:
    """Works in an order by their ``tallies``; ``places`` are numbers by which they stand so, of each another one."""

    tallies: Tallies
    places: Mapping[int, int]
    keys: Sequence[int]


def placed_anew(works: bytes, tallies: Tallies, order: str) -> Placed:
    in_title_order = array("q")
    in_title_order.frombytes(works)
    number, values, missing = len(in_title_order), values_of(tallies, order), value_of_none(order)
    places = {work: values.get(work, missing) * number + title for title, work in enumerate(in_title_order)}
    return Placed(tallies, places, sorted(places, key=places.__getitem__))


def moved(before: Placed, tallies: Tallies, order: str) -> Placed | None:
    """Put works of which the tallies are others into their places; None where they are too many."""
    others = {work for work, tally in tallies.items() if before.tallies.get(work) is not tally}
    added = sum(work not in before.tallies for work in others)
    if len(tallies) != len(before.tallies) + added:
        others |= before.tallies.keys() - tallies.keys()
    if len(others) > MOST_MOVED:
        return None
    places, number, missing = dict(before.places), len(before.places), value_of_none(order)
    values = values_of({work: tallies[work] for work in others if work in tallies}, order)
    for work in others & places.keys():
        title = places[work] % number
        places[work] = values.get(work, missing) * number + title
    return Placed(tallies, places, sorted(before.keys, key=places.__getitem__))


def values_of(tallies: Tallies, order: str) -> dict[int, int]:
    """Return the numbers by which works stand in an order, the least first; works without a day have none by day."""
    sign = -1 if order.startswith("-") else 1
    if order.endswith("last"):
        return {work: sign * last.toordinal() for work, (_times, last) in tallies.items() if last}
    return {work: sign * times for work, (times, _last) in tallies.items()}


def value_of_none(order: str) -> int:
    """Return the number of a work that was never performed, or on no day that is known."""
    return LATER_THAN_ALL if order == "last" else 0


class Orders:
    """The last orders of works, by the works in title order and what they are ordered by."""

    def __init__(self) -> None:
        self.placed: dict[tuple[bytes, str], Placed] = {}

    def of(self, works: bytes, order: str) -> Placed | None:
        return self.placed.get((works, order))

    def keep(self, works: bytes, order: str, placed: Placed) -> None:
        self.placed.pop((works, order), None)
        self.placed[works, order] = placed
        for oldest in list(self.placed)[:-MOST_ORDERS]:
            self.placed.pop(oldest, None)

    def cache_clear(self) -> None:
        self.placed.clear()


_orders = let_go_with_all(Orders())
