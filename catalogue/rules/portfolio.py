"""The best works to send together: so many, within so many minutes, with what must be among them.

The choice is exact: every set is tried or shown to be no better (branch and bound over the works by weight). The search
stops after a number of steps that does not depend on the machine; what it has by then is told as the best found, not as
the best there is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

MOST_STEPS = 150_000
FAR = 10**9


@dataclass(frozen=True, slots=True)
class Item:
    """A work that may be sent: its length, its weight, and the classes it belongs to."""

    id: int
    title: str
    seconds: int | None
    weight: float
    classes: frozenset[str] = frozenset()


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


def best_choices(items: Sequence[Item], wish: Wish, *, number: int = 3, steps: int = MOST_STEPS) -> tuple[Choice, ...]:
    """Return up to so many good sets, the best first, the next ones without those before them.

    >>> works = [Item(1, "A", 600, 3.0), Item(2, "B", 500, 2.0), Item(3, "C", 300, 1.0)]
    >>> [sorted(one.ids) for one in best_choices(works, Wish(2, 2, total_max=1000), number=2)]
    [[1, 3], [2, 3]]
    """
    found: list[Choice] = []
    while len(found) < number:
        choice = best_choice(items, wish, unlike=tuple(one.ids for one in found), steps=steps)
        if choice is None:
            break
        found.append(choice)
    return tuple(found)


def best_choice(
    items: Sequence[Item], wish: Wish, *, unlike: tuple[frozenset[int], ...] = (), steps: int = MOST_STEPS
) -> Choice | None:
    """Return the best set that is none of ``unlike``; ``None`` where there is none, or none was found in time."""
    search = Search(usable(items, wish), wish, unlike, steps)
    search.go(0, (), 0, 0.0)
    if search.best is None:
        return None
    return Choice(tuple(search.items[at] for at in search.best), search.value, search.left > 0)


def usable(items: Sequence[Item], wish: Wish) -> list[Item]:
    """Return the works that may be in a set, the heaviest first; of unknown length none where the total is bounded."""
    bounded = wish.total_min is not None or wish.total_max is not None
    kept = [one for one in items if one.id not in wish.banned and not (bounded and one.seconds is None)]
    return sorted(kept, key=lambda one: (one.id not in wish.pinned, -one.weight, one.title, one.id))


@dataclass(slots=True)
class Search:
    """The search over the works in their order: each is taken or left."""

    items: list[Item]
    wish: Wish
    unlike: tuple[frozenset[int], ...]
    left: int
    best: tuple[int, ...] | None = None
    value: float = float("-inf")
    ahead: list[float] = field(default_factory=list)
    shortest: list[list[int]] = field(default_factory=list)
    classes_of_one: int = 1

    def __post_init__(self) -> None:
        """Sum up weights and shortest lengths of what lies ahead, for the bounds."""
        self.ahead = [0.0]
        for one in self.items:
            self.ahead.append(self.ahead[-1] + max(one.weight, 0.0))
        tails: list[list[int]] = [[]]
        for one in reversed(self.items):
            tails.append(sorted([*tails[-1], one.seconds or 0])[: self.wish.most])
        self.shortest = list(reversed(tails))
        self.classes_of_one = max((len(one.classes & self.wish.contrasting) for one in self.items), default=0)

    def go(self, at: int, taken: tuple[int, ...], seconds: int, weight: float) -> None:
        self.left -= 1
        if self.left <= 0 or self.is_hopeless(at, taken, seconds, weight):
            return
        self.note(taken, seconds, weight, at)
        if at == len(self.items) or len(taken) == self.wish.most:
            return
        one = self.items[at]
        self.go(at + 1, (*taken, at), seconds + (one.seconds or 0), weight + one.weight)
        if one.id not in self.wish.pinned:
            self.go(at + 1, taken, seconds, weight)

    def is_hopeless(self, at: int, taken: tuple[int, ...], seconds: int, weight: float) -> bool:
        """Whether no set from here on can be allowed and better than the best so far."""
        wish, room = self.wish, self.wish.most - len(taken)
        lacking = max(0, wish.least - len(taken))
        ahead = self.shortest[at]
        if lacking > len(self.items) - at:
            return True
        if wish.total_max is not None and seconds + sum(ahead[:lacking]) > wish.total_max:
            return True
        upper = weight + self.ahead[min(at + room, len(self.items))] - self.ahead[at]
        return upper + self.most_contrast(taken, room) <= self.value

    def most_contrast(self, taken: tuple[int, ...], room: int) -> float:
        """Return what contrast can be worth at most: the works have, each further one may bring its own classes."""
        wish = self.wish
        if not wish.contrast:
            return 0.0
        known = {name for at in taken for name in self.items[at].classes} & wish.contrasting
        most = min(len(wish.contrasting), len(known) + room * self.classes_of_one)
        return wish.contrast * max(0, most - 1)

    def note(self, taken: tuple[int, ...], seconds: int, weight: float, at: int) -> None:
        """Keep the set where it is allowed and better."""
        wish = self.wish
        ids = frozenset(self.items[index].id for index in taken)
        if not wish.least <= len(taken) <= wish.most or not wish.pinned <= ids | self.unknown_pins():
            return
        if not (wish.total_min or 0) <= seconds <= (FAR if wish.total_max is None else wish.total_max):
            return
        chosen = [self.items[index] for index in taken]
        if ids in self.unlike or any(
            sum(need.name in one.classes for one in chosen) < need.least for need in wish.needs
        ):
            return
        classes = {name for one in chosen for name in one.classes} & wish.contrasting
        value = weight + wish.contrast * max(0, len(classes) - 1)
        if value > self.value:
            self.best, self.value = taken, value

    def unknown_pins(self) -> frozenset[int]:
        """Return the pinned works that are not among those that may be sent."""
        return self.wish.pinned - {one.id for one in self.items}
