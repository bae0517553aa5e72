"""What a composer has made public: works chosen for it, and their performances that are announced and open to all."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from catalogue.facts import CatalogueFacts, PerformanceFacts
from catalogue.gathering.people import gather_composer
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.works import gather_work
from catalogue.models import Composer, Performance, Work
from catalogue.models.performances import PerformanceQuerySet
from catalogue.models.works import WorkQuerySet
from catalogue.rules.playings import ANNOUNCED, OPEN_TO_ALL
from catalogue.terms import WorkStatus


def public_works(composer: Composer) -> WorkQuerySet:
    """Return the works of a composer that everybody may see."""
    return chosen_works().filter(composer=composer)


def chosen_works() -> WorkQuerySet:
    return Work.objects.filter(is_public=True, status=WorkStatus.ACTIVE.value)


def public_performances(composer: Composer) -> PerformanceQuerySet:
    """Return the performances that hold a public work, are announced and open to all."""
    return announced_with(public_works(composer)).filter(composer=composer)


def announced_with(works: WorkQuerySet) -> PerformanceQuerySet:
    return Performance.objects.filter(
        pk__in=works.values("programmed__performance"),
        audience__in=[one.value for one in OPEN_TO_ALL],
        status__in=[one.value for one in ANNOUNCED],
    )


def works_of_the_site() -> WorkQuerySet:
    """Return the public works of all composers whose pages are open."""
    return chosen_works().filter(composer__is_public=True)


def performances_of_the_site() -> PerformanceQuerySet:
    """Return the public performances of all composers whose pages are open."""
    return announced_with(works_of_the_site()).filter(composer__is_public=True)


def gather_public(
    composer: Composer, *, works: WorkQuerySet | None = None, performances: PerformanceQuerySet | None = None
) -> CatalogueFacts:
    """Return public works and performances, all of them or of those the ones that are given; five queries.

    On the programmes stand public works alone.
    """
    shown = public_works(composer) if works is None else works
    events = public_performances(composer) if performances is None else performances
    known = set(public_works(composer).values_list("pk", flat=True))
    return CatalogueFacts(
        composer=gather_composer(composer),
        works=tuple(gather_work(work) for work in shown.with_everything_printed().in_title_order()),
        performances=tuple(
            of_public_works(gather_performance(event), known)
            for event in events.with_everything_printed().in_date_order()
        ),
    )


def of_public_works(event: PerformanceFacts, known: set[int]) -> PerformanceFacts:
    return replace(event, programme=tuple(item for item in event.programme if item.work_id in known))


def coming_in_public(composer: Composer, today: date) -> PerformanceQuerySet:
    """Return the performances from a day on that everybody may see."""
    return public_performances(composer).from_day(today)
