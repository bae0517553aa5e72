"""When the performances of many composers are: of each composer the next ones and the last ones, and how many come."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date, time
from heapq import nsmallest
from itertools import chain
from typing import NamedTuple

from catalogue.gathering.among import among
from catalogue.gathering.journeys import ASKED_BACK, asked_back
from catalogue.models import Step
from catalogue.terms import StepState
from catalogue.web.coming_events import coming_performances, performances_over
from catalogue.web.today_page import MOST_READ

Rank = tuple[float, bool, float, int]
NO_DAY = float("inf")


class Place(NamedTuple):
    """Where a performance stands in an order by days, which it is, and whose."""

    rank: Rank
    key: int
    composer: int


@dataclass(frozen=True, slots=True)
class Days:
    """Of a composer the next performances and the last ones, one more of each than are read.

    ``named`` are those to come for which somebody has named a day of a step, ``number`` is how many are to come,
    ``near`` how many of them in the coming days.
    """

    coming: tuple[Place, ...]
    named: tuple[Place, ...]
    over: tuple[Place, ...]
    number: int
    near: int


@dataclass(frozen=True, slots=True)
class Chosen:
    """Which performances of all composers are read: the next ones, later ones with days of their own, the last ones."""

    coming: tuple[Place, ...]
    named: tuple[Place, ...]
    over: tuple[Place, ...]
    number: int
    near: int

    @property
    def is_part(self) -> bool:
        """Whether there are others."""
        return len(self.coming) > MOST_READ or len(self.over) > MOST_READ

    @property
    def owners(self) -> dict[int, int]:
        return {one.key: one.composer for one in (*self.coming, *self.named, *self.over)}


def chosen_of(days: Collection[Days]) -> Chosen:
    """Choose as ``today_page`` does of one composer."""
    coming = firsts(one.coming for one in days)
    number, first = sum(one.number for one in days), {one.key for one in coming}
    named = firsts((place for place in one.named if place.key not in first) for one in days)[:MOST_READ]
    return Chosen(coming, named, firsts(one.over for one in days), number, sum(one.near for one in days))


def firsts(places: Iterable[Iterable[Place]]) -> tuple[Place, ...]:
    return tuple(nsmallest(MOST_READ + 1, chain.from_iterable(places)))


def days_of(composers: Collection[int], today: date, last: date) -> dict[int, Days]:
    """Return when the performances of some composers are; four queries, however many they are."""
    back = asked_back(composers)
    to_come = coming_performances(composers, today)
    over = performances_over(composers, today, max(back.values(), default=ASKED_BACK))
    named = Step.objects.filter(among("composer_id", composers), state=StepState.OPEN.value, due__isnull=False)
    with_named = set(to_come.filter(pk__in=named.values("performance")).values_list("pk", flat=True))
    coming: dict[int, list[Place]] = {one: [] for one in composers}
    near = dict.fromkeys(composers, 0)
    for composer, key, day, clock in to_come.order_by().values_list("composer_id", "pk", "first_day", "time"):
        coming[composer].append(Place(rank(day, clock, key), key, composer))
        near[composer] += day is not None and day <= last
    past: dict[int, list[Place]] = {one: [] for one in composers}
    rows = over.order_by().values_list("composer_id", "pk", "first_day", "time", "last_day")
    for composer, key, day, clock, ended in rows:
        if ended is not None and ended >= today - back[composer]:
            past[composer].append(Place(rank(day, clock, key, sign=-1), key, composer))
    return {
        one: Days(
            coming=tuple(nsmallest(MOST_READ + 1, coming[one])),
            named=tuple(place for place in sorted(coming[one]) if place.key in with_named),
            over=tuple(nsmallest(MOST_READ + 1, past[one])),
            number=len(coming[one]),
            near=near[one],
        )
        for one in composers
    }


def rank(day: date | None, clock: time | None, key: int, *, sign: int = 1) -> Rank:
    """Return where a performance stands, by its day, its time and its number; with -1 the last one first.

    What has no day, and of a day what has no time, comes last either way.

    >>> late, early = date(2026, 3, 9), date(2026, 3, 8)
    >>> sorted([rank(late, time(19), 1), rank(late, None, 2), rank(None, None, 3), rank(early, time(21), 4)])[0][3]
    4
    >>> sorted([rank(late, time(19), 1, sign=-1), rank(early, None, 2, sign=-1)])[0][3]
    -1
    """
    seconds = 0 if clock is None else clock.hour * 3600 + clock.minute * 60 + clock.second
    return (NO_DAY if day is None else sign * day.toordinal(), clock is None, sign * seconds, sign * key)
