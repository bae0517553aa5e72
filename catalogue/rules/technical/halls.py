"""What of a rider a hall has by its own list of equipment: it has it, it lacks so many, or the list does not say.

Things are held against things by kind, number, qualities and size, each of the list given out once; the most
particular needs are served first. What is of no known kind is held against the words of the list. A list never says
that something is not in the house.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from catalogue.rules.search import fold
from catalogue.rules.technical.items import Item, ItemKind
from catalogue.rules.technical.terms import Need
from catalogue.rules.technical.things import Fit, Thing, things_in

OURS = frozenset(("composer", "player", "players", "ensemble", "soloist", "conductor", "technician", "publisher"))
WORD = re.compile(r"[^\W_]+(?:\.[0-9]+)?")
IDLE = frozenset(("a", "an", "the", "of", "for", "and", "or", "with", "on", "in", "to", "one"))
HOW_MANY = "how many"


class Verdict(StrEnum):
    """How it stands with something that is asked of a house."""

    HAS = "has"
    LACKS = "lacks"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True, slots=True)
class Stock:
    """An item, how many of it the list surely has, and how many more of which it does not say enough.

    ``called`` is what they are called there, ``unsaid`` what is not said of them.
    """

    item: Item
    there: int
    called: str = ""
    unsure: int = 0
    unsaid: tuple[str, ...] = ()
    number: int = 1

    @property
    def on_the_list(self) -> int:
        """How many there are that may be meant."""
        return self.there + self.unsure

    @property
    def lacking(self) -> int:
        return max(0, self.number - self.on_the_list)

    @property
    def verdict(self) -> Verdict:
        if self.lacking:
            return Verdict.LACKS
        return Verdict.CANNOT_TELL if self.unsure else Verdict.HAS


@dataclass(slots=True)
class Pile:
    """Things of one line of the list, and how many of them are left; none where nobody knows how many there are."""

    thing: Thing
    called: str
    left: int | None = field(init=False)

    def __post_init__(self) -> None:
        self.left = self.thing.number

    def take(self, wanted: int) -> int:
        taken = wanted if self.left is None else min(wanted, self.left)
        self.left = None if self.left is None else self.left - taken
        return taken


def held_against(items: Iterable[Item], equipment: Iterable[Need]) -> tuple[Stock, ...]:
    """Each thing that is asked of the presenter or the hall, with what the hall's list has of it."""
    listed = tuple(equipment)
    piles = [Pile(thing, line.name) for line in listed for thing in things_in(line)]
    asked = [one for one in items if one.provider not in OURS and one.kind is ItemKind.THING]
    found = {place: stock_of(asked[place], piles, listed) for place in particular_first(asked)}
    return tuple(found[place] for place in range(len(asked)))


def particular_first(asked: Sequence[Item]) -> list[int]:
    """Return the places of the items, those first of which most is said."""
    said = [sum(len(one.qualities) + len(one.measures) for one in wanted_in(item)) for item in asked]
    return sorted(range(len(asked)), key=lambda place: -said[place])


def wanted_in(item: Item) -> tuple[Thing, ...]:
    return things_in(Need(item.name, item.number, item.detail))


def stock_of(item: Item, piles: list[Pile], listed: tuple[Need, ...]) -> Stock:
    """Return how it stands with an item; where it is of several things, with the worst of them."""
    wanted = wanted_in(item)
    if not wanted:
        return by_words(item, listed)
    found = [taken_from(piles, item, one) for one in wanted]
    return max(found, key=lambda one: (one.lacking, one.unsure))


# ---- by kind and number


def taken_from(piles: list[Pile], item: Item, wanted: Thing) -> Stock:
    number = wanted.number if wanted.number is not None else item.number
    stock = Stock(item, 0, number=number)
    for fit in (Fit.YES, Fit.UNSAID):
        fitting = (one for one in piles if one.thing.fits(wanted) is fit and one.left != 0)
        for pile in sorted(fitting, key=lambda one: (one.left is None, len(one.thing.qualities))):
            stock = with_some_of(pile, stock, wanted)
    return stock


def with_some_of(pile: Pile, stock: Stock, wanted: Thing) -> Stock:
    """Take of a pile what still lacks; what nobody has counted, or said enough of, is unsure."""
    unsaid = (*pile.thing.unsaid(wanted), *((HOW_MANY,) if pile.left is None else ()))
    taken = pile.take(stock.lacking)
    if not taken:
        return stock
    called = ", ".join(filter(None, dict.fromkeys((stock.called, pile.called))))
    if not unsaid:
        return replace(stock, there=stock.there + taken, called=called)
    told = tuple(dict.fromkeys((*stock.unsaid, *unsaid)))
    return replace(stock, unsure=stock.unsure + taken, called=called, unsaid=told)


# ---- by words


def by_words(item: Item, listed: tuple[Need, ...]) -> Stock:
    found = [one for one in listed if is_called(item.name, one)]
    there, called = sum(one.number for one in found), ", ".join(one.name for one in found)
    return Stock(item, there, called, number=item.number)


def is_called(name: str, stock: Need) -> bool:
    """Whether a thing of the list is of that name: its last word is the same, and one name says no more than the other.

    >>> is_called("bass drum", Need("drum")), is_called("temple blocks", Need("wood block"))
    (True, False)
    """
    wanted, there = words_of(name), words_of(f"{stock.name} {stock.detail}")
    alike = wanted <= there or words_of(stock.name) <= wanted
    return bool(wanted) and alike and head_of(name) in (head_of(stock.name), *words_of(stock.detail))


def head_of(name: str) -> str:
    """The word that says what a thing is, in the singular: the last one before a comma or *with*, *on*, *for*.

    >>> head_of("bass drums on stands")
    'drum'
    """
    before = re.split(r",| (?:with|on|for|of|in) ", fold(name))[0]
    return next(iter(singular(frozenset(WORD.findall(before)[-1:]))), "")


def words_of(text: str) -> frozenset[str]:
    """The words of a name in small letters and in the singular.

    >>> sorted(words_of("Bass drums on stands"))
    ['bass', 'drum', 'stand']
    """
    return singular(frozenset(WORD.findall(fold(text)))) - IDLE


def singular(words: frozenset[str]) -> frozenset[str]:
    return frozenset(
        word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word for word in words
    )
