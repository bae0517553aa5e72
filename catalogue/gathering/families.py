"""What premieres are reckoned from and nothing else, for pages that show many performances and the claims of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import groupby
from typing import Any

from django.db.models import F, Min, Q, QuerySet, Window
from django.db.models.functions import Coalesce

from catalogue.facts import CatalogueFacts, PerformanceFacts, ProgrammedFacts, TitleFacts, WorkFacts
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.people import gather_composer
from catalogue.gathering.readings import readable
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Composer, ProgrammedWork, Work
from catalogue.rules.premieres import Claim, claims_by_programmed
from catalogue.terms import Audience, Category, Extent, PerformanceKind, PerformanceStatus

OF_WORK = ("pk", "composer", "uid", "title", "category", "version_of", "version_label", "instrumentation")
OF_PROGRAMMED = (
    "pk", "work", "extent", "part", "billing", "performance", "performance__uid", "performance__date",
    "performance__kind", "performance__audience", "performance__status", "performance__time", "performance__city",
    "performance__country", "performance__country_then", "performance__venue__city", "performance__venue__country",
    "performance__venue__region", "claim_override", "claim_reason",
)  # fmt: skip

OF_ONE_SORT = (
    "work", "extent", "part", "performance__kind", "performance__audience", "performance__status",
    "performance__country_then", "performance__country", "performance__city", "performance__venue__country",
    "performance__venue__city", "performance__venue__region",
)  # fmt: skip


def gather_families(composer: Composer, works: Iterable[int]) -> CatalogueFacts:
    """Return these works with all their versions, and every performance of them; two queries.

    Performers, presenters and all else that no premiere depends on is left out.
    """
    (found,) = families_of([composer], works)
    return found


def gather_claims(
    composers: Sequence[Composer],
    works: Iterable[int],
    *,
    today: date,
    shown: Iterable[int],
    state: State | None = None,
) -> dict[int, Claim]:
    """Return what each performance ``shown`` (by its id) of these works was the first of, by the programmed work.

    Three queries, however many composers they are of, and one while nothing changes, none of it where the caller knows
    the ``state`` of their lists.
    """
    state = state or state_of_lists([composer.pk for composer in composers])
    return reckoned_claims(state, tuple(composers), frozenset(works), today, frozenset(shown))


@once_for_each_state(64)
def reckoned_claims(
    _state: State, composers: tuple[Composer, ...], works: frozenset[int], today: date, shown: frozenset[int]
) -> dict[int, Claim]:
    claims: dict[int, Claim] = {}
    for family in families_of(composers, works, shown=shown):
        wanted = {item.id for event in family.performances if event.id in shown for item in event.programme}
        found = claims_by_programmed(family, today=today)
        claims |= {key: found[key] for key in wanted if key in found}
    return claims


def families_of(
    composers: Sequence[Composer], works: Iterable[int], *, shown: frozenset[int] | None = None
) -> tuple[CatalogueFacts, ...]:
    """Return these works with their versions and performances, for each composer those of theirs; two queries.

    Where only the claims of performances ``shown`` are asked for, those that change nothing in these are left out.
    """
    rows = rows_of_families(composers, works)
    living = living_playings(row["pk"] for row in rows)
    return told_families(composers, rows, living if shown is None else first_or_shown(living, shown))


def rows_of_families(composers: Sequence[Composer], works: Iterable[int]) -> list[dict[str, Any]]:
    """Return the columns of works with all their versions."""
    named = Work.objects.filter(composer__in=composers, pk__in=list(works))
    firsts = named.annotate(first=Coalesce("version_of", "pk")).values("first")
    family = Work.objects.filter(Q(pk__in=firsts) | Q(version_of__in=firsts))
    return list(family.order_by("pk").values(*OF_WORK))


def living_playings(works: Iterable[int]) -> QuerySet[ProgrammedWork]:
    return ProgrammedWork.objects.filter(work__in=list(works), performance__deleted_at__isnull=True)


def told_families(
    composers: Sequence[Composer], rows: Sequence[dict[str, Any]], playings: QuerySet[ProgrammedWork]
) -> tuple[CatalogueFacts, ...]:
    """Return the facts of works that were fetched and of these playings, for each composer theirs; one query."""
    owner = {row["pk"]: row["composer"] for row in rows}
    theirs: dict[int, list[WorkFacts]] = {}
    for row in rows:
        theirs.setdefault(row["composer"], []).append(work_of(row))
    played: dict[int, list[PerformanceFacts]] = {}
    for event in events_of(playings):
        played.setdefault(owner[event.programme[0].work_id], []).append(event)
    return tuple(
        CatalogueFacts(gather_composer(one), tuple(theirs.get(one.pk, ())), tuple(played.get(one.pk, ())))
        for one in composers
    )


def first_or_shown(living: QuerySet[ProgrammedWork], shown: frozenset[int]) -> QuerySet[ProgrammedWork]:
    """Leave out what was played after another playing of its sort had surely ended, unless it is shown.

    Of one sort are playings of one version and part, of one kind, standing and place. A later one of them holds no
    title and takes none from anybody: the earlier one takes the same. What is planned may turn out not to count, so it
    stays, as does what has no day.
    """
    return not_later(living, Q(performance__in=shown))


def not_later(living: QuerySet[ProgrammedWork], or_else: Q | None = None) -> QuerySet[ProgrammedWork]:
    """Leave out what was played after another playing of its sort had surely ended."""
    ended = Window(Min("performance__last_day"), partition_by=[F(column) for column in OF_ONE_SORT])
    no_day, planned = Q(performance__first_day__isnull=True), Q(performance__status=PerformanceStatus.PLANNED.value)
    may_be_first = Q(performance__first_day__lte=F("ended")) | no_day | planned
    return living.annotate(ended=ended).filter(may_be_first | or_else if or_else else may_be_first)


def work_of(row: dict[str, Any]) -> WorkFacts:
    return WorkFacts(
        id=row["pk"],
        uid=row["uid"],
        composer_id=row["composer"],
        title=TitleFacts(row["title"]),
        category=Category(row["category"]),
        version_of=row["version_of"],
        version_label=row["version_label"],
        instrumentation_text=row["instrumentation"],
    )


def events_of(playings: QuerySet[ProgrammedWork]) -> Iterator[PerformanceFacts]:
    rows = playings.order_by("performance", "order").values(*OF_PROGRAMMED)
    for _key, programme in groupby(rows.iterator(), key=lambda row: row["performance"]):
        yield event_of(list(programme))


def event_of(programme: list[dict[str, Any]]) -> PerformanceFacts:
    row = programme[0]
    return PerformanceFacts(
        id=row["performance"],
        uid=row["performance__uid"],
        date=readable(row["performance__date"], None),
        kind=PerformanceKind(row["performance__kind"]),
        audience=Audience(row["performance__audience"]),
        status=PerformanceStatus(row["performance__status"]),
        time=row["performance__time"],
        city=row["performance__venue__city"] or row["performance__city"],
        country=row["performance__venue__country"] or row["performance__country"],
        country_then=row["performance__country_then"],
        region=row["performance__venue__region"] or "",
        programme=tuple(programmed_of(one) for one in programme),
    )


def programmed_of(row: dict[str, Any]) -> ProgrammedFacts:
    return ProgrammedFacts(
        id=row["pk"],
        work_id=row["work"],
        extent=Extent(row["extent"]),
        part=row["part"],
        billing=row["billing"],
        claim_override=row["claim_override"],
        claim_reason=row["claim_reason"],
    )
