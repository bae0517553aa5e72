"""What the records of a catalogue lack, so that something cannot be told, counted, found or proved from them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date
from enum import StrEnum
from types import MappingProxyType

from django.db.models import Exists, OuterRef, Q

from catalogue.gathering.families import gather_families
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Commission, Composer, Performance, ProgrammedWork, Work
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
    of_performances = (*performances_lacking(composer, today), *contradicted(composer, today))
    for lack, key in (*works_lacking(composer), *undelivered(composer, today), *of_performances):
        found[lack].append(key)
    if doubt_about_any((Identifier.IPI, composer.ipi), (Identifier.ISNI, composer.isni)):
        found[Lack.OWN_NUMBER].append(composer.pk)
    return {lack: tuple(found[lack]) for lack in Lack if found[lack]}


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


def performances_lacking(composer: Composer, today: date) -> Iterator[tuple[Lack, int]]:
    """Give what performances lack; those that count for nothing, being recorded twice, lack nothing."""
    ours = Performance.objects.filter(composer=composer).exclude(status__in=COUNTS_FOR_NOTHING).latest_first()
    programmed = ProgrammedWork.objects.filter(performance=OuterRef("pk"), work__deleted_at__isnull=True)
    columns = ("pk", "country", "venue__country", "first_day", "last_day", "status", "has_programme")
    for key, own, country, first, last, status, programme in ours.annotate(
        has_programme=Exists(programmed)
    ).values_list(*columns):
        if not (own or country):
            yield Lack.COUNTRY, key
        if first is None:
            yield Lack.DATE, key
        if not programme:
            yield Lack.PROGRAMME, key
        if status in EXPECTED and last is not None and last < today:
            yield Lack.OUTCOME, key


def contradicted(composer: Composer, today: date) -> Iterator[tuple[Lack, int]]:
    """Give the performances with a billing that the records do not bear out."""
    sentences = contradictions(composer, today=today)
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
    billed = ours.filter(claim_override="").exclude(billing="")
    works = billed.filter(work__deleted_at__isnull=True).values_list("work", flat=True).distinct()
    claims = claims_by_programmed(gather_families(composer, works), today=today)
    doubted = {key: claim for key, claim in claims.items() if not claim.overridden}
    return MappingProxyType({key: claim.contradicts for key, claim in doubted.items() if claim.contradicts})
