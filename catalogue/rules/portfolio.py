"""The best works to send together: so many, within so many minutes, with what must be among them.

The choice is exact: every set is tried or shown to be no better (branch and bound over the works by weight). The search
stops after a number of steps that does not depend on the machine; what it has by then is told as the best found, not as
the best there is. ``catalogue.optimiser`` asks a solver for the same sets where one is installed.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from catalogue.timing import Duration

MOST_STEPS = 150_000
FAR = 10**9


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
    """Return a search that has come to its end or has made so many steps."""
    search = Search(usable(items, wish), wish, unlike, steps)
    search.go()
    return search


def usable(items: Sequence[Item], wish: Wish) -> list[Item]:
    """Return the works that may be in a set, the heaviest first."""
    kept = [one for one in items if one.id not in wish.banned and may_be_in(one, wish)]
    return sorted(kept, key=lambda one: (one.id not in wish.pinned, -one.weight, one.title, one.id))


def may_be_in(item: Item, wish: Wish) -> bool:
    """Whether the length of a work is known, or the minutes do not count."""
    return item.seconds is not None or (wish.total_min is None and wish.total_max is None)


class Search:
    """The search over the works in their order: each is taken or left."""

    __slots__ = ("ahead", "best", "items", "kinds", "left", "pinned", "shortest", "unlike", "value", "wish")

    def __init__(self, items: list[Item], wish: Wish, unlike: tuple[frozenset[int], ...], steps: int) -> None:
        self.items, self.wish, self.unlike, self.left = items, wish, unlike, steps
        self.best: tuple[int, ...] | None = None
        self.value = float("-inf")
        self.pinned = wish.pinned & {one.id for one in items}
        self.ahead = list(accumulate((max(one.weight, 0.0) for one in items), initial=0.0))
        self.shortest = shortest_ahead(items, wish.most)
        bits = {name: 1 << place for place, name in enumerate(sorted(wish.contrasting))}
        self.kinds = [sum(bits[name] for name in one.classes & wish.contrasting) for one in items]

    @property
    def is_complete(self) -> bool:
        return self.left > 0

    @property
    def found(self) -> Choice | None:
        if self.best is None:
            return None
        return Choice(tuple(self.items[at] for at in self.best), self.value, self.is_complete)

    def go(self) -> None:
        """Visit every set that may still be better, each work taken before it is left; what is ahead waits in a row.

        A set is passed by where too few works lie ahead or the shortest of them are too long, and where all the weight
        and contrast that may still come in do not make it better than the best so far.
        """
        wish, size, ahead, kinds = self.wish, len(self.items), self.ahead, self.kinds
        limit = FAR if wish.total_max is None else wish.total_max
        classes, each = len(wish.contrasting), max((one.bit_count() for one in kinds), default=0)
        waiting: list[tuple[int, tuple[int, ...], int, float, int]] = [(0, (), 0, 0.0, 0)]
        while waiting:
            self.left -= 1
            if self.left <= 0:
                return
            at, taken, seconds, weight, known = waiting.pop()
            room, lacking = wish.most - len(taken), max(wish.least - len(taken), 0)
            if lacking > size - at or (wish.total_max is not None and self.least_total(at, seconds, lacking) > limit):
                continue
            contrast = wish.contrast * max(0, min(classes, known.bit_count() + room * each) - 1)
            if weight + ahead[min(at + room, size)] - ahead[at] + contrast <= self.value:
                continue
            value = weight + wish.contrast * max(0, known.bit_count() - 1)
            if value > self.value and not lacking and (wish.total_min or 0) <= seconds <= limit and self.allows(taken):
                self.best, self.value = taken, value
            if at == size or not room:
                continue
            one = self.items[at]
            if one.id not in self.pinned:
                waiting.append((at + 1, taken, seconds, weight, known))
            together = (seconds + (one.seconds or 0), weight + one.weight, known | kinds[at])
            waiting.append((at + 1, (*taken, at), *together))

    def least_total(self, at: int, seconds: int, lacking: int) -> int:
        """Return how long a set is at least that lacks so many works of those ahead."""
        return seconds + sum(self.shortest[at][:lacking]) if lacking else seconds

    def allows(self, taken: tuple[int, ...]) -> bool:
        """Whether a set holds what must be in it and is none of those already told."""
        chosen = [self.items[index] for index in taken]
        ids = frozenset(one.id for one in chosen)
        if ids in self.unlike or not self.pinned <= ids:
            return False
        return all(sum(need.name in one.classes for one in chosen) >= need.least for need in self.wish.needs)


def shortest_ahead(items: Sequence[Item], most: int) -> list[list[int]]:
    """Return for each place the lengths of the shortest works from there on, the shortest first."""
    tails: list[list[int]] = [[]]
    for one in reversed(items):
        tail = tails[-1]
        if len(tail) < most or (tail and (one.seconds or 0) < tail[-1]):
            tail = sorted([*tail, one.seconds or 0])[:most]
        tails.append(tail)
    return tails[::-1]
