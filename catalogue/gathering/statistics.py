"""The playings of a catalogue as plain rows to be added up; the number of queries does not grow with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Any

from django.db.models import Case, CharField, Count, ExpressionWrapper, F, Func, Q, QuerySet, Value, When
from django.db.models.functions import Coalesce, NullIf

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.readings import readable
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Composer, Organisation, Performance, PerformanceCredit, ProgrammedWork, Venue, Work
from catalogue.models.fields import DurationField
from catalogue.rules.playings import DID_NOT_HAPPEN
from catalogue.rules.statistics import Listed, Played
from catalogue.terms import Extent, PerformanceStatus, PerformerRole, WorkStatus

AS_DURATION = DurationField()
AS_STORED = ExpressionWrapper(F("duration"), output_field=CharField())
"""The text of a duration: many playings have the same, which is read once."""
Evening = tuple[date | None, str, bool]
"""Of a performance the first possible day, the country, and whether it is to come."""


def gather_played(composer: Composer, *, today: date) -> Iterator[Played]:
    """Give every playing that took place or is to, of works and performances that are not deleted; five queries.

    Each table is asked by itself, for the few columns that count: joined, a long history takes several times as long.
    """
    evenings, ensembles = evenings_of(composer, today=today), ensembles_of(composer)
    works = Work.objects.filter(composer=composer).values_list("pk", AS_STORED)
    lengths, complete = {work: seconds_of(duration) for work, duration in works}, Extent.COMPLETE.value
    rows = ProgrammedWork.objects.filter(performance__composer=composer).order_by()
    for event, work, extent, duration in rows.values_list("performance_id", "work_id", "extent", AS_STORED):
        if event not in evenings or work not in lengths:
            continue
        day, country, is_to_come = evenings[event]
        seconds = seconds_of(duration)
        if seconds is None and extent == complete:
            seconds = lengths[work]
        yield Played(event, work, day, seconds, country, ensembles.get(event, ()), is_to_come)


def evenings_of(composer: Composer, *, today: date) -> dict[int, Evening]:
    """Return what is asked of each performance, by its id; two queries."""
    countries = dict(Venue.objects.filter(composer=composer).values_list("pk", "country"))
    rows = taking_place(composer).order_by()
    told = rows.values_list("pk", "first_day", "last_day", "status", "venue_id", "country")
    return {
        key: (first, countries.get(venue) or country, lies_ahead(first, last, status, today))
        for key, first, last, status, venue, country in told
    }


def lies_ahead(first: date | None, last: date | None, status: str, today: date) -> bool:
    """Say whether a performance is to come: a given one where its first day is, another until its last one is over."""
    if first is None or last is None:
        return False
    return first > today if status == PerformanceStatus.GIVEN.value else last >= today


def taking_place(composer: Composer) -> QuerySet[Performance]:
    did_not = [one.value for one in DID_NOT_HAPPEN]
    found: QuerySet[Performance] = Performance.objects.filter(composer=composer).exclude(status__in=did_not)
    return found


def ensembles_of(composer: Composer) -> dict[int, tuple[str, ...]]:
    """Return the ensembles of each performance as they are called now, each once, in no order; two queries."""
    called = dict(Organisation.objects.filter(composer=composer).values_list("pk", "name"))
    is_body = Q(role=PerformerRole.ENSEMBLE.value) | Q(organisation__isnull=False)
    credits = PerformanceCredit.objects.filter(is_body, performance__composer=composer)
    found: dict[int, tuple[str, ...]] = {}
    for performance, body, billed in credits.order_by().values_list("performance_id", "organisation_id", "name"):
        name = called.get(body) or billed
        named = found.get(performance, ())
        if name and name not in named:
            found[performance] = (*named, name)
    return found


@lru_cache(maxsize=16_384)
def seconds_of(stored: str | None) -> int | None:
    lasts = readable(AS_DURATION.from_db_value(stored, None, None), None)
    return lasts.seconds if lasts else None


class Month(Func):
    """The month of a day as text, 2026-03, read from the day as the database writes it."""

    output_field = CharField()

    def as_sqlite(self, compiler: Any, connection: Any, **context: Any) -> Any:
        return self.as_sql(compiler, connection, template="SUBSTR(%(expressions)s, 1, 7)", **context)

    def as_postgresql(self, compiler: Any, connection: Any, **context: Any) -> Any:
        return self.as_sql(compiler, connection, template="TO_CHAR(%(expressions)s, 'YYYY-MM')", **context)


@dataclass(frozen=True, slots=True)
class Held:
    """So many performances of one month and country; ``day`` lies in the first that is possible, None where unknown."""

    day: date | None
    country: str
    is_to_come: bool
    number: int = 1


def gather_held(composer: Composer, *, today: date) -> tuple[Held, ...]:
    """Return the performances that took place or are to, counted in the database; one query, two the first time."""
    return held_at(state_of_lists([composer.pk]), composer, today)


@once_for_each_state(64)
def held_at(_state: State, composer: Composer, today: date) -> tuple[Held, ...]:
    given = Q(status=PerformanceStatus.GIVEN.value)
    coming = Q(given, first_day__gt=today) | Q(~given, last_day__gte=today)
    told = taking_place(composer).annotate(
        month=Month("first_day"),
        is_to_come=Case(When(coming, then=True), default=False),
        place=Coalesce(NullIf("venue__country", Value("")), "country"),
    )
    counted = told.order_by().values("month", "is_to_come", "place").annotate(number=Count("pk"))
    return tuple(Held(first_of(row["month"]), row["place"], row["is_to_come"], row["number"]) for row in counted)


def first_of(month: str | None) -> date | None:
    return date.fromisoformat(f"{month}-01") if month else None


def gather_listed(composer: Composer) -> tuple[Listed, ...]:
    """Return the works that stand in lists: finished and not withdrawn; one query."""
    works = Work.objects.filter(composer=composer, status=WorkStatus.ACTIVE.value).in_title_order()
    rows = works.values_list("pk", "title", "version_label", "completed")
    return tuple(
        Listed(pk, f"{title} ({version})" if version else title, when.year if (when := readable(done, None)) else None)
        for pk, title, version, done in rows
    )
