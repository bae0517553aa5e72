"""Performances as lists show them, and nothing else of them: three queries, however many they are.

A list of fifty makes four hundred records where it asks for records, and shows a tenth of what they hold.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.db import connection

from catalogue.gathering.prepared import rows_about
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork
from catalogue.terms import PerformerRole
from catalogue.timing import PartialDate

OF_PERFORMANCE = (
    "pk", "composer", "date", "kind", "status", "event_title", "city", "country", "presenter_name", "presenter__name",
    "venue", "venue__name", "venue__city", "venue__country",
)  # fmt: skip
OF_WORK = ("work", "work__title", "work__title_language", "work__instrumentation", "work__instrumentation_typed")
NAMES = ("name", "person__name", "organisation__name")
DATE: Any = Performance._meta.get_field("date")


@dataclass(slots=True, eq=False)
class ListedWork:
    """A work on a programme, made once for all performances; its instrumentation as it was read and as it was typed."""

    pk: int
    title: str
    title_language: str
    instrumentation: str
    instrumentation_typed: str


@dataclass(slots=True, eq=False)
class ListedHall:
    name: str
    city: str
    country: str


@dataclass(slots=True, eq=False)
class ListedPerformance:
    """A performance. ``played`` are its rows on the programme in order, ``works`` what stands there, each once.

    ``performers`` are named as they were billed and in their order; whoever looked after electronics is none.
    """

    pk: int
    composer_id: int
    date: PartialDate | str | None
    kind: str
    status: str
    event_title: str
    city: str
    country: str
    presenter: str
    venue: ListedHall | None
    played: tuple[int, ...]
    works: tuple[ListedWork, ...]
    performers: tuple[str, ...]


@dataclass(slots=True, eq=False)
class Programme:
    played: tuple[int, ...]
    works: tuple[ListedWork, ...]


NOTHING = Programme((), ())


def gather_listed(keys: Sequence[int]) -> list[ListedPerformance]:
    """Return the performances of these keys in this order, without those that are deleted."""
    programmes, performers = programmes_of(keys), performers_of(keys)
    found = {
        row[0]: listed(row, programmes.get(row[0], NOTHING), tuple(performers.get(row[0], ())))
        for row in rows_about(asked_performances, keys)
    }
    return [found[key] for key in keys if key in found]


def asked_performances(keys: Sequence[int]) -> Any:
    return Performance.objects.filter(pk__in=keys).order_by().values_list(*OF_PERFORMANCE)


def listed(row: tuple[Any, ...], programme: Programme, performers: tuple[str, ...]) -> ListedPerformance:
    key, composer, date, kind, status, title, city, country, named, presenter, hall, *of_hall = row
    return ListedPerformance(
        pk=key,
        composer_id=composer,
        date=DATE.from_db_value(date, None, connection),
        kind=kind,
        status=status,
        event_title=title,
        city=city,
        country=country,
        presenter=named or presenter or "",
        venue=None if hall is None else ListedHall(*of_hall),
        played=programme.played,
        works=programme.works,
        performers=performers,
    )


def programmes_of(keys: Sequence[int]) -> Mapping[int, Programme]:
    """Return what is played at each performance; works that are deleted are left out."""
    rows = defaultdict(list)
    works: dict[int, ListedWork] = {}
    for performance, key, *told in rows_about(asked_programmes, keys):
        work = works.get(told[0]) or works.setdefault(told[0], ListedWork(*told))
        rows[performance].append((key, work))
    return {
        performance: Programme(tuple(key for key, _work in found), tuple(dict.fromkeys(work for _key, work in found)))
        for performance, found in rows.items()
    }


def asked_programmes(keys: Sequence[int]) -> Any:
    living = ProgrammedWork.objects.filter(performance__in=keys, work__deleted_at__isnull=True)
    return living.order_by("order").values_list("performance", "pk", *OF_WORK)


def performers_of(keys: Sequence[int]) -> Mapping[int, list[str]]:
    """Return who performed, named as ``PerformanceCredit.billed_name`` does."""
    found: dict[int, list[str]] = defaultdict(list)
    for performance, *names in rows_about(asked_performers, keys):
        found[performance].append(next((name for name in names if name), ""))
    return found


def asked_performers(keys: Sequence[int]) -> Any:
    credits = PerformanceCredit.objects.filter(performance__in=keys).exclude(role=PerformerRole.ELECTRONICS)
    return credits.order_by("order", "pk").values_list("performance", *NAMES)
