"""A series, a tour or a festival: the performances that name it, what is played in them, and what is due for all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Max, Min
from django.urls import reverse
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.documents.contents.credits import performers
from catalogue.documents.labels import labels
from catalogue.documents.model import Text
from catalogue.gathering.journeys import gather_around, stages_asked
from catalogue.gathering.performances import gather_performance
from catalogue.models import Composer, Performance, Work
from catalogue.rules.journey import Stage, Standing
from catalogue.terms import StepKind
from catalogue.web.days import how_far
from catalogue.web.journeys import SOON, STEPS, far_text
from catalogue.web.performance_page import when_of
from catalogue.web.programmes import called, works_of


@dataclass(frozen=True, slots=True)
class SeriesRow:
    """A series in the list: how many performances, in which years."""

    name: str
    number: int
    years: str


@dataclass(frozen=True, slots=True)
class Evening:
    """A performance of a series. Texts are ready to print; ``open`` says in a line what is late and to do."""

    address: str
    name: SafeString
    when: str
    far: str
    who: Text
    open: str


@dataclass(frozen=True, slots=True)
class CommonStep:
    """A step that is open for several performances, the earliest day told."""

    words: str
    slug: str
    number: str
    far: str
    look: str


@dataclass(frozen=True, slots=True)
class SeriesPage:
    name: str
    summary: str
    evenings: tuple[Evening, ...]
    works: tuple[tuple[Work, int], ...]
    steps: tuple[CommonStep, ...]


def all_series(composer: Composer) -> tuple[SeriesRow, ...]:
    """Return every series that a performance names, the latest first; one query."""
    named = Performance.objects.filter(composer=composer).exclude(series="").order_by().values("series")
    found = named.annotate(number=Count("pk"), first=Min("first_day"), last=Max("first_day"))
    rows = sorted(found, key=lambda row: (-(row["last"] or date.min).toordinal(), row["series"]))
    return tuple(SeriesRow(row["series"], row["number"], years_of(row["first"], row["last"])) for row in rows)


def years_of(first: date | None, last: date | None) -> str:
    if first is None or last is None:
        return ""
    return str(first.year) if first.year == last.year else f"{first.year}–{last.year}"


def performances_of_series(composer: Composer, name: str) -> Sequence[Performance]:
    """Return the performances that name a series, in date order; three queries."""
    ours = Performance.objects.filter(composer=composer, series=name)
    return list(ours.with_everything_printed().in_date_order())


def open_stages(composer: Composer, found: Sequence[Performance], *, today: date) -> dict[int, list[Stage]]:
    """Return the steps that are still to be taken, by the performance; eight queries."""
    around = gather_around(found)
    return {one.pk: stages_asked(one, around[one.pk], today=today) for one in found}


def series_page(
    composer: Composer, name: str, found: Sequence[Performance], *, today: date, language: str
) -> SeriesPage:
    stages = open_stages(composer, found, today=today)
    counted = Counter(work for one in found for work in works_of(one))
    return SeriesPage(
        name=name,
        summary=summed(found, len(counted)),
        evenings=tuple(evening(one, stages[one.pk], composer.slug, today=today, language=language) for one in found),
        works=tuple(sorted(counted.items(), key=lambda pair: (-pair[1], pair[0].title))),
        steps=tuple(common_steps(stages.values(), today=today)),
    )


def summed(found: Sequence[Performance], works: int) -> str:
    performances = ngettext("One performance", "%(number)s performances", len(found)) % {"number": len(found)}
    played = ngettext("one work", "%(number)s works", works) % {"number": works}
    days = [one.first_day for one in found if one.first_day]
    years = years_of(min(days), max(days)) if days else ""
    return ", ".join(part for part in (performances, played, years) if part)


def evening(one: Performance, stages: Sequence[Stage], slug: str, *, today: date, language: str) -> Evening:
    facts = gather_performance(one)
    return Evening(
        address=reverse("performance-detail", args=[slug, one.pk]),
        name=called(one),
        when=when_of(facts, language),
        far=how_far(facts.date, today) if facts.date else "",
        who=performers(facts, labels(language), sentence=False),
        open=open_text(stages),
    )


def open_text(stages: Iterable[Stage]) -> str:
    numbers = Counter(stage.standing for stage in stages)
    told = ((Standing.LATE, _("%d late")), (Standing.OPEN, _("%d to do")))
    return ", ".join(words % numbers[standing] for standing, words in told if numbers[standing])


def common_steps(stages: Iterable[Sequence[Stage]], *, today: date) -> Iterable[CommonStep]:
    """Give the steps that are open for more than one performance, the most urgent first."""
    found: dict[StepKind, list[date]] = {}
    for each in stages:
        for stage in each:
            if stage.kind in STEPS and stage.due:
                found.setdefault(stage.kind, []).append(stage.due)
    shared = {kind: days for kind, days in found.items() if len(days) > 1}
    for kind, days in sorted(shared.items(), key=lambda pair: min(pair[1])):
        first = min(days)
        look = "late" if first < today else "soon" if (first - today).days <= SOON else ""
        number = _("for %d performances") % len(days)
        yield CommonStep(str(STEPS[kind]), kind.name.lower(), number, far_text(first, today), look)
