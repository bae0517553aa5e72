"""The groups in which performances stand where they are ordered by something of which there are few: kind, place.

How many there are in each is counted in an index once for each state; so a page asks only for the groups that it shows,
and those who ask for the last page wait no longer than those who ask for the first.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from typing import Any

from django.db.models import Count, DateField, F, Q, QuerySet
from django.db.models.functions import Coalesce

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.models import Composer, Performance, Venue
from catalogue.models.performances import LATEST_FIRST
from catalogue.rules.search import fold
from catalogue.web.tables.lists import Group

Values = tuple[Any, ...]

COUNTED = ("kind", "status")
YEARS = ("since", "until")
EARLIEST_FIRST = (F("first_day").asc(nulls_first=True), F("time").asc(nulls_first=True), "pk")
"""The order of ``latest_first`` from its other end, so that one index has both."""
LATEST_OF_FEW = (Coalesce(F("first_day"), date.min, output_field=DateField()).desc(), *LATEST_FIRST[1:])
"""The order of ``latest_first`` for the few that an index of something else finds, not for going through all of them.

SQLite would do that, where it has not counted how few there are.
"""


def groups_in_order(order: str, composer: Composer, state: State) -> tuple[Group, ...] | None:
    """Return the groups of all performances of a composer in an order, falling where it begins with a minus.

    None where they are in no groups.
    """
    word, is_falling = order.removeprefix("-"), order.startswith("-")
    find = GROUPED.get(word)
    return find(word, is_falling, composer, state) if find else None


def group_with(column: str, value: str, composer: Composer, state: State) -> Group:
    """Return those performances of a composer that have this value in a column that is ``COUNTED``."""
    number = numbers_by(state, composer, (column,)).get((value,), 0)
    return Group(number, lambda: ours(composer).filter(**{column: value}).latest_first())


def groups_of_years(since: int | None, until: int | None, composer: Composer, state: State) -> tuple[Group, ...]:
    """Return the performances from one year on, up to another: those that begin then, and those that began before.

    The latter, of which no more is known than a season or a year, are few.
    """
    parts = zip(of_years(composer, since, until), numbers_of_years(state, composer, since, until), strict=True)
    return tuple(Group(number, found.latest_first) for found, number in parts)


def of_years(composer: Composer, since: int | None, until: int | None) -> tuple[Any, ...]:
    begun = ours(composer).filter(first_day__lte=date(until, 12, 31)) if until else ours(composer)
    if not since:
        return (begun,)
    day = date(since, 1, 1)
    return begun.filter(first_day__gte=day), begun.filter(first_day__lt=day).from_day(day)


@once_for_each_state(256)
def numbers_of_years(_state: State, composer: Composer, since: int | None, until: int | None) -> tuple[int, ...]:
    """Count the performances of some years: those that begin then, and those that began before."""
    return tuple(found.count() for found in of_years(composer, since, until))


def by_value(column: str, is_falling: bool, composer: Composer, state: State) -> tuple[Group, ...]:
    values = sorted((value for (value,) in numbers_by(state, composer, (column,))), reverse=is_falling)
    return tuple(group_with(column, value, composer, state) for value in values)


def by_date(_word: str, is_falling: bool, composer: Composer, state: State) -> tuple[Group, ...] | None:
    """From the earliest on, those without a date last; the latest first are in one index, which needs no groups."""
    if is_falling:
        return None
    dated, undated = numbers_dated(state, composer)
    return (
        Group(dated, lambda: ours(composer).filter(first_day__isnull=False).order_by(*EARLIEST_FIRST)),
        Group(undated, lambda: ours(composer).filter(first_day__isnull=True).order_by(*EARLIEST_FIRST[1:])),
    )


def by_place(_word: str, is_falling: bool, composer: Composer, state: State) -> tuple[Group, ...]:
    """By the town as it is sorted, those without one last; the order within a town is remembered."""
    towns = towns_at(state, composer)
    named = sorted((town for town in towns if town), reverse=is_falling)
    in_order = [towns[town] for town in (*named, *([""] if "" in towns else []))]
    return tuple(Group(sum(places.values()), partial(in_town, composer, places), state) for places in in_order)


GROUPED: Mapping[str, Callable[[str, bool, Composer, State], tuple[Group, ...] | None]] = {
    "date": by_date,
    "kind": by_value,
    "status": by_value,
    "place": by_place,
}

Places = dict[tuple[int | None, str], int]


def in_town(composer: Composer, places: Places) -> QuerySet[Performance]:
    """Ask for the performances in these halls, each with what is written beside it."""
    halls: dict[str, list[int]] = defaultdict(list)
    nowhere = []
    for hall, city in places:
        nowhere.append(city) if hall is None else halls[city].append(hall)
    asked = Q(venue__isnull=True, city__in=nowhere) if nowhere else Q()
    for city, found in halls.items():
        asked |= Q(venue__in=found, city=city)
    return ours(composer).filter(asked).order_by(*LATEST_OF_FEW)


@once_for_each_state(64)
def towns_at(state: State, composer: Composer) -> dict[str, Places]:
    """Return how many performances there are at each place, by the town that it is in, as towns are sorted."""
    numbers = numbers_by(state, composer, ("venue", "city"))
    cities = dict(Venue.with_deleted.filter(composer=composer).values_list("pk", "city"))
    towns: dict[str, Places] = defaultdict(dict)
    for (hall, city), number in numbers.items():
        towns[fold(cities.get(hall) or city)][hall, city] = number
    return dict(towns)


@once_for_each_state(256)
def numbers_by(_state: State, composer: Composer, columns: tuple[str, ...]) -> dict[Values, int]:
    """Count the performances by what stands in these columns."""
    counted = ours(composer).order_by().values_list(*columns).annotate(number=Count("pk"))
    return {tuple(values): number for *values, number in counted}


@once_for_each_state(256)
def numbers_dated(_state: State, composer: Composer) -> tuple[int, int]:
    """Count the performances that have a date, and those that have none."""
    undated = ours(composer).filter(first_day__isnull=True).count()
    return ours(composer).count() - undated, undated


def ours(composer: Composer) -> Any:
    return Performance.objects.filter(composer=composer)
