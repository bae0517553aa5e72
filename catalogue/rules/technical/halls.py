"""What of a rider a hall has by its own list of equipment, and what it lacks.

A list is held against words, so that it can say that something is there, and how many, or that it is not on the list;
never that it is not in the hall.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from catalogue.rules.search import fold
from catalogue.rules.technical.items import Item, ItemKind
from catalogue.rules.technical.terms import Need

OURS = frozenset(("composer", "player", "players", "ensemble", "soloist", "conductor", "technician", "publisher"))
WORD = re.compile(r"[^\W_]+(?:\.[0-9]+)?")
IDLE = frozenset(("a", "an", "the", "of", "for", "and", "or", "with", "on", "in", "to", "one"))


@dataclass(frozen=True, slots=True)
class Stock:
    """An item and how many of it the hall's list has; none where nothing on the list is called so."""

    item: Item
    there: int
    called: str = ""

    @property
    def lacking(self) -> int:
        return max(0, self.item.number - self.there)


def held_against(items: Iterable[Item], equipment: Iterable[Need]) -> tuple[Stock, ...]:
    """Each thing that is asked of the presenter or the hall, with what the hall's list has of it."""
    stock = tuple(equipment)
    asked = (one for one in items if one.provider not in OURS and one.kind is ItemKind.THING)
    return tuple(stock_of(item, stock) for item in asked)


def stock_of(item: Item, stock: tuple[Need, ...]) -> Stock:
    found = [one for one in stock if is_called(item.name, one)]
    return Stock(item, sum(one.number for one in found), ", ".join(one.name for one in found))


def is_called(name: str, stock: Need) -> bool:
    """Whether a thing of the list is of that name: its last word is the same, and one name says no more than the other.

    >>> is_called("mixing desk", Need("desk")), is_called("music stand light", Need("music stand"))
    (True, False)
    """
    wanted, there = words_of(name), words_of(f"{stock.name} {stock.detail}")
    alike = wanted <= there or words_of(stock.name) <= wanted
    return bool(wanted) and alike and head_of(name) in (head_of(stock.name), *words_of(stock.detail))


def head_of(name: str) -> str:
    """The word that says what a thing is, in the singular: the last one before a comma or *with*, *on*, *for*.

    >>> head_of("condenser microphones on stands")
    'microphone'
    """
    before = re.split(r",| (?:with|on|for|of|in) ", fold(name))[0]
    return next(iter(singular(frozenset(WORD.findall(before)[-1:]))), "")


def words_of(text: str) -> frozenset[str]:
    """The words of a name in small letters and in the singular.

    >>> sorted(words_of("Full-range loudspeakers on stands"))
    ['full', 'loudspeaker', 'range', 'stand']
    """
    return singular(frozenset(WORD.findall(fold(text)))) - IDLE


def singular(words: frozenset[str]) -> frozenset[str]:
    return frozenset(
        word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word for word in words
    )
