"""The best works to send together: so many, within so many minutes, with what must be among them.

The choice is exact: every set is tried or shown to be no better (branch and bound over the works by weight; where the
minutes bind, also by what a work brings beyond the price of its own, a Lagrangian bound). The search stops after a
number of steps that does not depend on the machine; what it has by then is told as the best found, not as the best
there is. ``catalogue.optimiser`` asks a solver for the same sets where one is installed.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import nlargest
from itertools import accumulate

from catalogue.timing import Duration

MOST_STEPS = 150_000
FAR = 10**9
STEPS_OF_LOOK = 100
HALVINGS = 10
ROUNDING = 1e-9
"""More than what sums of weights can be off by when they are added up in another order."""


@dataclass(frozen=True, slots=True)
class Item:
    """A work that may be sent: its length, its weight, its classes, and in words what it is weighed by."""

    id: int
    title: str
    seconds: int | None
    weight: float
    classes: frozenset[str] = frozenset()
    reasons: tuple[str, ...] = ()

    @property
    def length(self) -> Duration | None:
        return None if self.seconds is None else Duration(self.seconds)


@dataclass(frozen=True, slots=True)
class Need:
    """At least so many works of a class."""

    name: str
    least: int = 1


@dataclass(frozen=True, slots=True)
class Wish:
    """What a set has to be. ``contrast`` is what each further class of ``contrasting`` is worth."""

    least: int = 1
    most: int = 1
    total_min: int | None = None
    total_max: int | None = None
    needs: tuple[Need, ...] = ()
    pinned: frozenset[int] = frozenset()
    banned: frozenset[int] = frozenset()
    contrasting: frozenset[str] = frozenset()
    contrast: float = 0.0


@dataclass(frozen=True, slots=True)
class Choice:
    """A set of works in the order of their weights; ``proven`` where no set can be better."""

    items: tuple[Item, ...]
    value: float
    proven: bool

    @property
    def seconds(self) -> int:
        return sum(one.seconds or 0 for one in self.items)

    @property
    def ids(self) -> frozenset[int]:
        return frozenset(one.id for one in self.items)


Chooser = Callable[[Sequence[Item], Wish, tuple[frozenset[int], ...]], Choice | None]
"""Finds the best set that is none of those already told."""


def best_choices(
    items: Sequence[Item], wish: Wish, *, number: int = 3, choose: Chooser | None = None
) -> tuple[Choice, ...]:
    """Return up to so many good sets, the best first, the next ones without those before them.

    ``choose`` finds the best set that is none of those before; by itself it is ``best_choice``.

    >>> works = [Item(1, "A", 600, 3.0), Item(2, "B", 500, 2.0), Item(3, "C", 300, 1.0)]
    >>> [sorted(one.ids) for one in best_choices(works, Wish(2, 2, total_max=1000), number=2)]
    [[1, 3], [2, 3]]
    """
    found: list[Choice] = []
    while len(found) < number:
        choice = (choose or best_choice)(items, wish, tuple(one.ids for one in found))
        if choice is None:
            break
        found.append(choice)
    return tuple(found)


def best_choice(
    items: Sequence[Item], wish: Wish, unlike: tuple[frozenset[int], ...] = (), *, steps: int = MOST_STEPS
) -> Choice | None:
    """Return the best set that is none of ``unlike``; ``None`` where there is none, or none was found in time."""
    return searched(items, wish, unlike, steps=steps).found


def searched(items: Sequence[Item], wish: Wish, unlike: tuple[frozenset[int], ...], *, steps: int) -> Search:
    """Return a search that has come to its end or has made so many steps.

    Where the minutes bind, works in the order of what they bring for theirs lead to a good set soon; the search by
    weights, which says which of several best sets is told, then passes by all that is worse than that.
    """
    works = usable(items, wish)
    price = price_of_a_second(works, wish)
    if not price:
        return gone(Search(works, wish, unlike, steps))
    gaining = sorted(works, key=lambda one: by_gain(one, wish, price))
    look = gone(Search(gaining, wish, unlike, min(steps, STEPS_OF_LOOK), price))
    search = gone(Search(works, wish, unlike, steps, price, above=look.value - 2 * ROUNDING))
    if search.is_complete or (search.best is not None and not look.is_complete):
        return search
    return look


def gone(search: Search) -> Search:
    search.go()
    return search


def by_gain(item: Item, wish: Wish, price: float) -> tuple[bool, float, str, int]:
    return item.id not in wish.pinned, price * (item.seconds or 0) - item.weight, item.title, item.id


def usable(items: Sequence[Item], wish: Wish) -> list[Item]:
    """Return the works that may be in a set, the heaviest first."""
    kept = [one for one in items if one.id not in wish.banned and may_be_in(one, wish)]
    return sorted(kept, key=lambda one: by_weight(one, wish))


def by_weight(item: Item, wish: Wish) -> tuple[bool, float, str, int]:
    return item.id not in wish.pinned, -item.weight, item.title, item.id


def may_be_in(item: Item, wish: Wish) -> bool:
    """Whether the length of a work is known, or the minutes do not count."""
    return item.seconds is not None or (wish.total_min is None and wish.total_max is None)


class Search:
    """The search over the works in their order: each is taken or left."""

    __slots__ = (
        "best", "gains", "heaviest", "items", "kinds", "left", "pinned", "price", "shortest", "unlike", "value", "wish",
    )  # fmt: skip

    def __init__(
        self,
        items: list[Item],
        wish: Wish,
        unlike: tuple[frozenset[int], ...],
        steps: int,
        price: float = 0.0,
        above: float = float("-inf"),
    ) -> None:
        self.items, self.wish, self.unlike, self.left, self.price = items, wish, unlike, steps, price
        self.best: tuple[int, ...] | None = None
        self.value = above
        self.pinned = wish.pinned & {one.id for one in items}
        lengths = [one.seconds or 0 for one in items]
        self.shortest = least_ahead(lengths, max(wish.least, wish.most))
        self.heaviest = least_ahead([min(-one.weight, 0.0) for one in items], wish.most)
        costs = [min(price * length - one.weight, 0.0) for one, length in zip(items, lengths, strict=True)]
        self.gains = least_ahead(costs, wish.most) if price else self.heaviest
        bits = {name: 1 << place for place, name in enumerate(sorted(wish.contrasting))}
        self.kinds = [sum(bits[name] for name in one.classes & wish.contrasting) for one in items]

    @property
    def is_complete(self) -> bool:
        return self.left > 0

    @property
    def found(self) -> Choice | None:
        if self.best is None:
            return None
        chosen = sorted((self.items[at] for at in self.best), key=lambda one: by_weight(one, self.wish))
        return Choice(tuple(chosen), self.value, self.is_complete)

    def go(self) -> None:
        """Visit every set that may still be better, each work taken before it is left; what is ahead waits in a row.

        A set is passed by where too few works lie ahead or the shortest of them are too long, and where all the weight
        and contrast that may still come in do not make it better than the best so far: the heaviest of those ahead, or,
        where they would be too long together, what they weigh beyond the price of their seconds, with that of all
        seconds that are left. Of sets that are worth the same the first is kept.
        """
        wish, size, kinds = self.wish, len(self.items), self.kinds
        shortest, heaviest, gains, price = self.shortest, self.heaviest, self.gains, self.price
        limit, shortest_total = FAR if wish.total_max is None else wish.total_max, wish.total_min or 0
        least, most, each_class = wish.least, wish.most, wish.contrast
        classes, each = len(wish.contrasting), max((one.bit_count() for one in kinds), default=0)
        enough = self.value + ROUNDING
        waiting: list[tuple[int, tuple[int, ...], int, float, int]] = [(0, (), 0, 0.0, 0)]
        while waiting:
            self.left -= 1
            if self.left <= 0:
                return
            at, taken, seconds, weight, known = waiting.pop()
            room, lacking = most - len(taken), max(least - len(taken), 0)
            if lacking > size - at or seconds + shortest[at][lacking] > limit:
                continue
            several = known.bit_count()
            contrast = each_class * max(0, min(classes, several + room * each) - 1)
            if weight - heaviest[at][room] + contrast <= enough:
                continue
            if price and weight - gains[at][room] + price * (limit - seconds) + contrast <= enough:
                continue
            value = weight + each_class * max(0, several - 1)
            if value > enough and not lacking and shortest_total <= seconds <= limit and self.allows(taken):
                self.best, self.value, enough = taken, value, value + ROUNDING
            if at == size or not room:
                continue
            one = self.items[at]
            if one.id not in self.pinned:
                waiting.append((at + 1, taken, seconds, weight, known))
            together = (seconds + (one.seconds or 0), weight + one.weight, known | kinds[at])
            waiting.append((at + 1, (*taken, at), *together))

    def allows(self, taken: tuple[int, ...]) -> bool:
        """Whether a set holds what must be in it and is none of those already told."""
        chosen = [self.items[index] for index in taken]
        ids = frozenset(one.id for one in chosen)
        if ids in self.unlike or not self.pinned <= ids:
            return False
        return all(sum(need.name in one.classes for one in chosen) >= need.least for need in self.wish.needs)


def least_ahead(values: Sequence[float], most: int) -> list[tuple[float, ...]]:
    """Return for each place the sums of none, one, two … of the least values from there on, up to so many.

    >>> least_ahead([3, 1, 2], 2)
    [(0, 1, 3), (0, 1, 3), (0, 2, 2), (0, 0, 0)]
    """
    row: list[float] = []
    sums: tuple[float, ...] = (0,) * (most + 1)
    found = [sums]
    for value in reversed(values):
        if len(row) < most or (row and value < row[-1]):
            insort(row, value)
            del row[most:]
            reached = tuple(accumulate(row, initial=0))
            sums = reached + reached[-1:] * (most + 1 - len(reached))
        found.append(sums)
    return found[::-1]


def price_of_a_second(items: Sequence[Item], wish: Wish) -> float:
    """Return the weight a second has to bring for the works that are worth theirs to fill the time; 0 where all fit.

    Any price bounds what a set can weigh (the Lagrangian bound of a knapsack); this one bounds it closely.
    """
    lengths = [(one.weight, one.seconds) for one in items if one.seconds]
    limit = wish.total_max
    if limit is None or not lengths:
        return 0.0
    low, high = 0.0, max(0.0, *(weight / seconds for weight, seconds in lengths))
    if filled(lengths, low, wish.most) <= limit:
        return 0.0
    for _ in range(HALVINGS):
        price = (low + high) / 2
        low, high = (price, high) if filled(lengths, price, wish.most) > limit else (low, price)
    return high


def filled(lengths: Sequence[tuple[float, int]], price: float, most: int) -> int:
    """Return the seconds of the works that bring most beyond a price for theirs."""
    gains = ((weight - price * seconds, seconds) for weight, seconds in lengths)
    return sum(seconds for gain, seconds in nlargest(most, gains) if gain > 0)
