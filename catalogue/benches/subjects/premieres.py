"""Reckoning premieres, beside sorting the same playings and keeping who came first in each place.

The plain way keeps one number a place. What is reckoned is a claim of every playing, its titles and their wording among
nine values, for dates of any exactness, versions, parts and kinds of event: making such claims, the same for every
playing, and sorting them takes seven times the plain way. Reckoning them is given as much again, hence an aim of 15.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import date

from catalogue.benches.invented import NOW, catalogue
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.facts import CatalogueFacts
from catalogue.rules.premieres import reckon

TODAY = NOW.date()
BOUND = "one sort of the same playings by date, one pass that keeps the first anywhere, in each state and in each city"
AIM = 15


def firsts(told: CatalogueFacts) -> dict[tuple[int, str, str], int]:
    """Return who was first of each work: anywhere, in each state, in each city."""
    played = sorted((day(event.date), event.id, item.work_id, event) for event in told.performances
                    for item in event.programme)  # fmt: skip
    found: dict[tuple[int, str, str], int] = {}
    for _day, id_, work, event in played:
        found.setdefault((work, "", ""), id_)
        found.setdefault((work, event.country, ""), id_)
        found.setdefault((work, event.country, event.city), id_)
    return found


def day(when: object) -> date:
    return getattr(when, "first", date.max)


def with_playings_of_each(each: int) -> Callable[[int], AbstractContextManager[Pair]]:
    """Return what prepares so many performances, each work played so many times."""

    @contextmanager
    def prepared(size: int) -> Iterator[Pair]:
        told = catalogue(works=max(1, size // each), performances=size, told=False)
        yield Pair(ours=lambda: reckon(told, today=TODAY), bare=lambda: firsts(told))

    return prepared


OF_MANY, OF_ONE = with_playings_of_each(50), with_playings_of_each(1_000_000)
HEADING = Heading.RECKONING
BENCHES = (
    Bench("reckon premieres, 50 playings a work", BOUND, (1_000, 10_000, 100_000), OF_MANY, aim=AIM, reckons=True),
    Bench("reckon premieres of one work", BOUND, (100, 1_000, 10_000), OF_ONE, aim=AIM, reckons=True),
)
