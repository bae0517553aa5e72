"""The groups in which performances stand where they are ordered by something of which there are few: kind, place.

How many there are in each is known (``catalogue.gathering.numbers``); so a page asks only for the groups that it shows,
and those who ask for the last page wait no longer than those who ask for the first.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from typing import Any

from django.db.models import DateField, F, Q, QuerySet
from django.db.models.functions import Coalesce

from catalogue.gathering.numbers import Number, numbers_at
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.models import Composer, Performance, Venue
from catalogue.models.performances import LATEST_FIRST
from catalogue.rules.search import fold
from catalogue.web.tables.lists import Group
from catalogue.web.tables.placed import MOST_PLACES, Place, PlacedGroup

AnyGroup = Group | PlacedGroup

COUNTED = ("kind", "status")
YEARS = ("since", "until")
EARLIEST_FIRST = (F("first_day").asc(nulls_first=True), F("time").asc(nulls_first=True), "pk")
"""The order of ``latest_first`` from its other end, so that one index has both."""
LATEST_OF_FEW = (Coalesce(F("first_day"), date.min, output_field=DateField()).desc(), *LATEST_FIRST[1:])
"""The order of ``latest_first`` for the few that an index of something else finds, not for going through all of them.

SQLite would do that, where it has not counted how few there are.
"""


def groups_in_order(order: str, composer: Composer, state: State) -> tuple[AnyGroup, ...] | None:
    """Return the groups of all performances of a composer in an order, falling where it begins with a minus.

    None where they are in no groups.
    """
    word, is_falling = order.removeprefix("-"), order.startswith("-")
    find = GROUPED.get(word)
    return find(word, is_falling, composer, state) if find else None


def group_with(column: str, value: str, composer: Composer, state: State) -> Group:
    """Return those performances of a composer that have this value in a column that is ``COUNTED``."""
    number = values_in(column, composer, state).get((value,), 0)
    return Group(number, lambda: ours(composer).filter(**{column: value}).latest_first())


def groups_of_years(since: int | None, until: int | None, composer: Composer, state: State) -> tuple[Group, ...]:
    """Return the performances from one year on, up to another: those that begin then, and those that began before.

    The latter, of which no more is known than a season or a year, are few.
    """
    years = numbers_at(state, composer.pk).years
    parts = zip(of_years(composer, years, since, until), numbers_of_years(years, since, until), strict=True)
    return tuple(Group(number, found.latest_first) for found, number in parts)


def of_years(composer: Composer, years: Number, since: int | None, until: int | None) -> tuple[Any, ...]:
    """Ask for both; for those that began before from the year on in which the first of them begins, not all earlier."""
    begun = ours(composer).filter(first_day__lte=date(until, 12, 31)) if until else ours(composer)
    if not since:
        return (begun,)
    day = date(since, 1, 1)
    earliest = min((first for first, last in years if first is not None and first < since <= last), default=since)
    before = begun.filter(first_day__gte=date(earliest, 1, 1), first_day__lt=day).from_day(day)
    return begun.filter(first_day__gte=day), before


def numbers_of_years(years: Number, since: int | None, until: int | None) -> tuple[int, ...]:
    """Add up the performances of some years: those that begin then, and those that began before and last until then."""
    begun = {
        span: number for span, number in years.items() if until is None or (span[0] is not None and span[0] <= until)
    }
    if since is None:
        return (sum(begun.values()),)
    dated = {span: number for span, number in begun.items() if span[0] is not None}
    then = sum(number for (first, _last), number in dated.items() if first >= since)
    before = sum(number for (first, last), number in dated.items() if first < since <= last)
    return then, before


def values_in(column: str, composer: Composer, state: State) -> Number:
    """Return how many performances have each value in a column that is ``COUNTED``."""
    numbers = numbers_at(state, composer.pk)
    return {"kind": numbers.kinds, "status": numbers.statuses}[column]


def by_value(column: str, is_falling: bool, composer: Composer, state: State) -> tuple[Group, ...]:
    values = sorted((value for (value,) in values_in(column, composer, state)), reverse=is_falling)
    return tuple(group_with(column, value, composer, state) for value in values)


def by_date(_word: str, is_falling: bool, composer: Composer, state: State) -> tuple[Group, ...] | None:
    """From the earliest on, those without a date last; the latest first are in one index, which needs no groups."""
    if is_falling:
        return None
    numbers = numbers_at(state, composer.pk)
    undated = numbers.years.get((None, None), 0)
    dated = numbers.all - undated
    return (
        Group(dated, lambda: ours(composer).filter(first_day__isnull=False).order_by(*EARLIEST_FIRST)),
        Group(undated, lambda: ours(composer).filter(first_day__isnull=True).order_by(*EARLIEST_FIRST[1:])),
    )


def by_place(_word: str, is_falling: bool, composer: Composer, state: State) -> tuple[AnyGroup, ...]:
    """By the town as it is sorted, those without one last."""
    towns = towns_at(state, composer)
    named = sorted((town for town in towns if town), reverse=is_falling)
    return tuple(placed(composer, towns[town], state) for town in (*named, *([""] if "" in towns else [])))


def group_in_country(country: str, composer: Composer, state: State) -> AnyGroup:
    """Return the performances of a composer in a country: that of the hall, or where none is told of it, their own."""
    return placed(composer, countries_with_places(state, composer).get(country, {}), state)


GROUPED: Mapping[str, Callable[[str, bool, Composer, State], tuple[AnyGroup, ...] | None]] = {
    "date": by_date,
    "kind": by_value,
    "status": by_value,
    "place": by_place,
}

Places = Mapping[Place, int]


def placed(composer: Composer, places: Places, state: State) -> AnyGroup:
    """Return the group of the performances at some places; if these are very many, its order is remembered."""
    number = sum(places.values())
    if len(places) <= MOST_PLACES:
        return PlacedGroup(number, composer, tuple(places))
    return Group(number, partial(at_places, composer, places), state)


def at_places(composer: Composer, places: Places) -> QuerySet[Performance]:
    """Ask for the performances in these halls, each with what is written beside it."""
    halls: dict[tuple[str, str], list[int]] = defaultdict(list)
    asked = Q(pk__in=())
    for hall, city, country in places:
        if hall is None:
            asked |= Q(venue__isnull=True, city=city, country=country)
        else:
            halls[city, country].append(hall)
    for (city, country), found in halls.items():
        asked |= Q(venue__in=found, city=city, country=country)
    return ours(composer).filter(asked).order_by(*LATEST_OF_FEW)


@once_for_each_state(64)
def towns_at(state: State, composer: Composer) -> dict[str, Places]:
    """Return how many performances there are at each place, by the town that it is in, as towns are sorted."""
    cities: dict[int | None, str] = dict(halls_of(composer).values_list("pk", "city"))
    return by_what(numbers_at(state, composer.pk).places, lambda hall, city, _own: fold(cities.get(hall) or city))


@once_for_each_state(64)
def countries_with_places(state: State, composer: Composer) -> dict[str, Places]:
    """Return how many performances there are at each place, by the country that it is in."""
    countries: dict[int | None, str] = dict(halls_of(composer).values_list("pk", "country"))
    return by_what(numbers_at(state, composer.pk).places, lambda hall, _city, own: countries.get(hall) or own)


def by_what(numbers: Number, named: Callable[[int | None, str, str], str]) -> dict[str, Places]:
    found: dict[str, dict[Place, int]] = defaultdict(dict)
    for (hall, city, country), number in numbers.items():
        found[named(hall, city, country)][hall, city, country] = number
    return dict(found)


def halls_of(composer: Composer) -> QuerySet[Venue]:
    return Venue.with_deleted.filter(composer=composer).order_by()


def ours(composer: Composer) -> Any:
    return Performance.objects.filter(composer=composer)
