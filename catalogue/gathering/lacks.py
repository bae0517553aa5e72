"""What the records of a catalogue lack, so that something cannot be told, counted, found or proved from them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date, time
from enum import StrEnum
from functools import reduce
from operator import or_
from types import MappingProxyType
from typing import Any

from django.db.models import Case, Exists, OuterRef, Q, QuerySet, When

from catalogue.gathering.families import families_of
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Commission, Composer, Performance, ProgrammedWork, Venue, Work
from catalogue.rules.identifiers import Identifier, doubt_about
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import PerformanceStatus
from catalogue.timing import PartialDate


class Lack(StrEnum):
    """What is lacking: the first four of works, one of commissions, the last of the composer, all others of events."""

    DURATION = "duration"
    FORCES = "instrumentation"
    READING = "reading"
    NUMBER = "number"
    DELIVERY = "delivery"
    COUNTRY = "country"
    DATE = "date"
    PROGRAMME = "programme"
    OUTCOME = "outcome"
    BILLING = "billing"
    OWN_NUMBER = "own-number"


OF_WORKS = (Lack.DURATION, Lack.FORCES, Lack.READING, Lack.NUMBER)
EXPECTED = (PerformanceStatus.PLANNED, PerformanceStatus.CONFIRMED)
COUNTS_FOR_NOTHING = (PerformanceStatus.WITHDRAWN, PerformanceStatus.OLD_STYLE_DATE, PerformanceStatus.DUPLICATE)


def gather_lacks(composer: Composer, *, today: date) -> dict[Lack, tuple[int, ...]]:
    """Return the ids of the records or the composer that lack something, by what; seven to nine queries.

    What lacks nothing has no key. Works stand in title order, performances with the latest first.
    """
    found: dict[Lack, list[int]] = defaultdict(list)
    state = state_of_lists([composer.pk])
    for lack, key in (*lacking_at(state, composer, today), *undelivered(composer, today)):
        found[lack].append(key)
    if doubt_about_any((Identifier.IPI, composer.ipi), (Identifier.ISNI, composer.isni)):
        found[Lack.OWN_NUMBER].append(composer.pk)
    return {lack: tuple(found[lack]) for lack in Lack if found[lack]}


@once_for_each_state(16)
def lacking_at(state: State, composer: Composer, today: date) -> tuple[tuple[Lack, int], ...]:
    """Return what works and performances lack, found once for each state of them."""
    doubted = contradicted(contradictions_at(state, composer, today))
    return (*works_lacking(composer), *performances_lacking(composer, today), *doubted)


def works_lacking(composer: Composer) -> Iterator[tuple[Lack, int]]:
    incomplete, numbered = Q(duration__isnull=True) | Q(instrumentation=""), ~Q(iswc="") | ~Q(ismn="")
    wanting = Work.objects.filter(composer=composer).filter(incomplete | numbered).in_title_order()
    columns = ("pk", "duration", "instrumentation", "instrumentation_typed", "iswc", "ismn")
    for key, duration, read, typed, iswc, ismn in wanting.values_list(*columns):
        if duration is None:
            yield Lack.DURATION, key
        if not read:
            yield (Lack.READING if typed else Lack.FORCES), key
        if doubt_about_any((Identifier.ISWC, iswc), (Identifier.ISMN, ismn)):
            yield Lack.NUMBER, key


def undelivered(composer: Composer, today: date) -> Iterator[tuple[Lack, int]]:
    """Give the commissions whose day of delivery is over, and of which nobody has said that they were delivered."""
    open_ones = Commission.objects.filter(work__composer=composer, due__isnull=False, delivered__isnull=True)
    for key, due in open_ones.order_by("due", "pk").values_list("pk", "due"):
        if isinstance(due, PartialDate) and due.last < today:
            yield Lack.DELIVERY, key


def doubt_about_any(*numbers: tuple[Identifier, str]) -> bool:
    return any(text and doubt_about(kind, text) for kind, text in numbers)


def performances_lacking(composer: Composer, today: date) -> list[tuple[Lack, int]]:
    """Return what performances lack; those that count for nothing, being recorded twice, lack nothing.

    The database finds those that lack something, so that a long history costs no more than looking through it. It is
    asked in the order of the index that holds what is looked at, so that it reads the rows of those alone (SQLite,
    which keeps no count of its rows, takes the index whose order is wanted); they are put in order when they are here.
    """
    lacks = {
        Lack.COUNTRY: Q(country="") & (Q(venue__isnull=True) | Q(venue__in=nowhere(composer))),
        Lack.DATE: Q(first_day__isnull=True),
        Lack.PROGRAMME: without_works(composer),
        Lack.OUTCOME: Q(status__in=EXPECTED, last_day__lt=today),
    }
    ours = Performance.objects.filter(composer=composer).exclude(status__in=COUNTS_FOR_NOTHING)
    wanting = ours.filter(reduce(or_, lacks.values())).order_by("first_day", "last_day", "status")
    rows = wanting.values_list("first_day", "time", "pk", *(condition(lacking) for lacking in lacks.values()))
    return [
        (lack, key)
        for _day, _time, key, *found in sorted(rows, key=latest_first_key, reverse=True)
        for lack, is_lacking in zip(lacks, found, strict=True)
        if is_lacking
    ]


def nowhere(composer: Composer) -> QuerySet[Any]:
    return Venue.with_deleted.filter(composer=composer, country="").values("pk")


def without_works(composer: Composer) -> Q:
    """Say of a performance that it names no work, or none that has not been deleted."""
    rows = ProgrammedWork.objects.filter(performance=OuterRef("pk"))
    gone = Work.with_deleted.filter(composer=composer, deleted_at__isnull=False).values("pk")
    of_gone = ProgrammedWork.objects.filter(work__in=gone).values("performance")
    return Q(~Exists(rows)) | (Q(pk__in=of_gone) & Q(~Exists(rows.exclude(work__in=gone))))


def latest_first_key(row: tuple[Any, ...]) -> tuple[Any, ...]:
    """Order rows that begin with day, time and key as ``latest_first`` does, once they are turned round."""
    day, at, key, *_found = row
    return (day is not None, day or date.min, at is not None, at or time.min, key)


def condition(lacking: Q) -> Case:
    return Case(When(lacking, then=True), default=False)


def contradicted(sentences: Mapping[int, str]) -> Iterator[tuple[Lack, int]]:
    """Give the performances with a billing that the records do not bear out, told by the programmed work."""
    performances = ProgrammedWork.objects.filter(pk__in=list(sentences)).values_list("performance", flat=True)
    for key in Performance.objects.filter(pk__in=set(performances)).latest_first().values_list("pk", flat=True):
        yield Lack.BILLING, key


def contradictions(composer: Composer, *, today: date) -> Mapping[int, str]:
    """Return why a billing is not borne out, by the id of the programmed work; one query while nothing changes.

    Where somebody has set by hand what it was, and why, there is nothing left to settle.
    """
    return contradictions_at(state_of_lists([composer.pk]), composer, today)


@once_for_each_state(64)
def contradictions_at(_state: State, composer: Composer, today: date) -> Mapping[int, str]:
    """Reckon once for each state of the records, since a large catalogue takes long; only what was billed is asked."""
    ours = ProgrammedWork.objects.filter(performance__composer=composer)
    billed = ours.filter(claim_override="", work__deleted_at__isnull=True).exclude(billing="")
    asked = list(billed.values_list("work", "performance"))
    works, shown = ({pair[place] for pair in asked} for place in (0, 1))
    (family,) = families_of([composer], works, shown=frozenset(shown))
    claims = claims_by_programmed(family, today=today)
    doubted = {key: claim for key, claim in claims.items() if not claim.overridden}
    return MappingProxyType({key: claim.contradicts for key, claim in doubted.items() if claim.contradicts})
