"""What a list of performances can be asked."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from datetime import date
from typing import Any

import django_filters as filters
from django import forms
from django.db.models import Q, QuerySet
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.among import among
from catalogue.gathering.numbers import numbers_at
from catalogue.gathering.of_composers import OfComposers
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import HELD_BY_LISTS, State, state_of_lists
from catalogue.models import Composer, Performance, ProgrammedWork, Venue, Work
from catalogue.models.conditions import choices_of
from catalogue.models.fields import refuse_unprintable
from catalogue.terms import PerformanceKind, PerformanceStatus
from catalogue.timing.dates import FIRST_YEAR, LAST_YEAR
from catalogue.web.filters.sets import ListFilter
from catalogue.web.forms.work_field import WorkField
from catalogue.web.places import write_country


def year_filter(label: Any, method: str) -> filters.NumberFilter:
    return filters.NumberFilter(
        method=method,
        label=label,
        min_value=FIRST_YEAR,
        max_value=LAST_YEAR,
        decimal_places=0,
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )


class WorkFilter(filters.Filter):
    field_class = WorkField


class EventFilter(ListFilter):
    """Words, years from and to, a country, a kind, what has become of it."""

    q = filters.CharFilter(
        method="holding",
        label=_("Hall, city, performer, work or note"),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"type": "search", "data-key": "/"}),
    )
    since = year_filter(_("From the year"), "from_year")
    until = year_filter(_("To the year"), "to_year")
    country = filters.ChoiceFilter(method="in_country", label=_("Country"), empty_label=_("All countries"))
    kind = filters.ChoiceFilter(label=_("Kind"), choices=choices_of(PerformanceKind), empty_label=_("All kinds"))
    status = filters.ChoiceFilter(
        label=_("What has become of it"), choices=choices_of(PerformanceStatus), empty_label=_("Anything")
    )

    class Meta:
        model = Performance
        fields: list[str] = []

    def __init__(self, *args: Any, composers: Sequence[Composer], state: State | None = None, **options: Any) -> None:
        super().__init__(*args, **options)
        self.state = state or state_of_lists([composer.pk for composer in composers])
        self.composer = composers[0] if len(composers) == 1 else None
        countries = countries_at(self.state, tuple(one.pk for one in composers))
        self.filters["country"].extra["choices"] = [(code, write_country(code)) for code in countries]

    def holding(self, performances: Any, _name: str, text: str) -> QuerySet[Performance]:
        return performances.matching(text, composer=self.composer)

    def from_year(self, performances: Any, _name: str, year: int) -> QuerySet[Performance]:
        return performances.from_day(date(int(year), 1, 1))

    def to_year(self, performances: Any, _name: str, year: int) -> QuerySet[Performance]:
        return performances.filter(first_day__lte=date(int(year), 12, 31))

    def in_country(self, performances: QuerySet[Performance], _name: str, code: str) -> QuerySet[Performance]:
        own = Q(country=code) & (Q(venue__isnull=True) | Q(venue__country=""))
        return performances.filter(Q(venue__country=code) | own)


class PerformanceFilter(EventFilter):
    """What is asked of one composer's performances: a work besides."""

    work = WorkFilter(method="with_work", label=_("Work"), empty_label=_("All works"))

    def __init__(self, *args: Any, composer: Composer, **options: Any) -> None:
        super().__init__(*args, composers=[composer], **options)
        self.filters["work"].field.offer_all(composer, self.state)

    def with_work(self, performances: QuerySet[Performance], _name: str, work: Work) -> QuerySet[Performance]:
        return performances.filter(pk__in=ProgrammedWork.objects.filter(work=work).values("performance"))


@once_for_each_state(256)
def countries_at(state: State, composers: tuple[int, ...]) -> tuple[str, ...]:
    """Return the countries in which the composers' music was performed, by name."""
    if len(composers) == 1:
        (composer,) = composers
        places = ((composer, *place) for place in numbers_at(state, composer).places)  # counted anyway
        found = among_halls(composers, places)
    else:
        owners = {key: key for key in composers}
        found = _countries.to(state, owners, None, countries_of)
    return tuple(sorted(set().union(*found.values()) - {""}, key=write_country))


def countries_of(composers: Collection[int]) -> dict[int, frozenset[str]]:
    """Return the countries in which the music of some composers was performed, of each; two queries."""
    performances = Performance.objects.filter(among("composer_id", composers)).order_by()
    places = performances.values_list("composer", "venue", "city", "country").distinct()  # as an index has them
    return among_halls(composers, places)


def among_halls(composers: Collection[int], places: Iterable[tuple[Any, ...]]) -> dict[int, frozenset[str]]:
    """Return the countries of places, by the composer: a place names composer, hall, city and its own country."""
    halls = dict(Venue.with_deleted.filter(among("composer_id", composers)).values_list("pk", "country"))
    found: dict[int, set[str]] = {key: set() for key in composers}
    for composer, hall, _city, own in places:
        found[composer].add(halls.get(hall) or own)
    return {key: frozenset(some) for key, some in found.items()}


_countries: OfComposers[int, frozenset[str]] = OfComposers(HELD_BY_LISTS, most_askings=1, most=20_000)
