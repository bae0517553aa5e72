"""Performances that are to come or still ask for something, and as much of each as decides whether a page shows it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.drawings.ninety_days import DAYS, Concert
from catalogue.facts import PerformanceFacts
from catalogue.gathering import reading_of
from catalogue.gathering.among import among
from catalogue.gathering.journeys import stages_asked
from catalogue.gathering.performances import gather_performance
from catalogue.models import Performance
from catalogue.models.performances import PerformanceQuerySet
from catalogue.rules.journey import Around, Stage
from catalogue.rules.needs import Due, has_open_strings, needs_of
from catalogue.rules.playings import DID_NOT_HAPPEN, is_to_come
from catalogue.terms import PerformanceStatus
from catalogue.timing import PartialDate
from catalogue.timing.words import words_in
from catalogue.web.days import short_day
from catalogue.web.pictures import line_svg
from catalogue.web.programmes import works_of

NEXT = 3  # shown of what comes later where the coming days are empty


@dataclass(frozen=True, slots=True)
class Event:
    """A performance with its facts, what it lacks, and the steps that are still to be taken.

    Those that come after it are told once it is over.
    """

    record: Performance
    facts: PerformanceFacts
    dues: tuple[Due, ...]
    stages: tuple[Stage, ...]

    def days_due(self, last: date) -> tuple[date, ...]:
        """Return the days on which something is due, up to the last one."""
        days = (*(due.day for due in self.dues), *(stage.due for stage in self.stages))
        return tuple(day for day in days if day is not None and day <= last)


@dataclass(frozen=True, slots=True)
class Glance:
    """As much of a performance as decides whether it is shown, and how it stands on the line of the coming days.

    ``days`` are those on which something is due until the last of the coming days, and what is late.
    """

    key: int
    composer: int
    first_day: date | None
    is_to_come: bool
    days: tuple[date, ...]
    concert: Concert


@dataclass(frozen=True, slots=True)
class Arranged:
    """Which performances are near, which of those to come are shown first, which others ask for something.

    Where none is near, the next ones are shown. ``number`` are all that are to come.
    """

    near: tuple[Glance, ...]
    shown: tuple[Glance, ...]
    ahead: tuple[Glance, ...]
    over: tuple[Glance, ...]
    number: int

    @property
    def is_later(self) -> bool:
        return bool(self.shown) and not self.near

    @property
    def due(self) -> int:
        """How much is due."""
        return sum(len(one.days) for one in (*self.near, *self.ahead, *self.over))


def arranged(coming: Iterable[Glance], past: Iterable[Glance], last: date, *, most: int | None = None) -> Arranged:
    """Tell performances apart that come in the order of their days; at most so many are shown first."""
    to_come = tuple(one for one in coming if one.is_to_come)
    near = tuple(one for one in to_come if one.first_day and one.first_day <= last)
    shown = (near or to_come[:NEXT])[:most]
    first = {one.key for one in (*near, *shown)}
    return Arranged(
        near=near,
        shown=shown,
        ahead=tuple(one for one in to_come if one.key not in first and one.days),
        over=tuple(one for one in past if one.days),
        number=len(to_come),
    )


def coming_performances(composers: Collection[int], today: date) -> PerformanceQuerySet:
    """Ask for what may be to come and takes place, as ``is_to_come`` says it of one."""
    ours: PerformanceQuerySet = Performance.objects.filter(among("composer_id", composers)).from_day(today)
    taking_place = ours.exclude(status__in=[status.value for status in DID_NOT_HAPPEN])
    return taking_place.exclude(status=PerformanceStatus.GIVEN.value, first_day__lte=today)


def performances_over(composers: Collection[int], today: date, back: timedelta) -> PerformanceQuerySet:
    """Ask for what was given not longer ago than that."""
    ours: PerformanceQuerySet = Performance.objects.filter(among("composer_id", composers))
    return ours.filter(status=PerformanceStatus.GIVEN.value).before_day(today).from_day(today - back)


def event_of(record: Performance, around: Around, today: date) -> Event:
    facts = gather_performance(record)
    stages = tuple(stages_asked(record, around, today=today))
    if not is_to_come(facts, today=today):
        return Event(record, facts, (), stages)
    is_open = any(has_open_strings(reading_of(work.instrumentation)) for work in works_of(record))
    stated = any(work.string_strengths for work in works_of(record))
    return Event(record, facts, needs_of(facts, strings_are_open=is_open and not stated), stages)


def glance_of(event: Event, today: date, language: str) -> Glance:
    record = event.record
    return Glance(
        key=record.pk,
        composer=record.composer_id,
        first_day=record.first_day,
        is_to_come=is_to_come(event.facts, today=today),
        days=event.days_due(today + timedelta(days=DAYS)),
        concert=concert_of(event, today, language),
    )


def counted(number: int, due: int, *, is_part: bool = False) -> str:
    """Say how many performances and how many things due there are; ``is_part`` where others were not looked at."""
    performances = ngettext("one performance", "%d performances", number) if number else _("no performance")
    things = ngettext("one thing due", "%d things due", due) if due else _("nothing due")
    if is_part and due:
        things = ngettext("at least one thing due", "at least %d things due", due)
    told = (
        (performances % number if "%d" in performances else performances),
        (things % due if "%d" in things else things),
    )
    return ", ".join(told)


# ---- the picture


def picture_of(near: Sequence[Glance], today: date, language: str) -> SafeString:
    concerts = [one.concert for one in near]
    due = [day for one in near for day in one.days]
    said = [f"{one.day_text}{_(' in ') if one.place else ''}{one.place}" for one in concerts]
    told = counted(len(near), len(due)).capitalize()
    title = f"{told}{': ' if said else ''}{'; '.join(said)}."
    return line_svg(today, concerts, due, title=title, today_word=_("today"), months=words_in(language).months)


def concert_of(event: Event, today: date, language: str) -> Concert:
    """Return a performance as it stands on the line; of a month or a year, its first day that is not over."""
    works = works_of(event.record)
    first = works[0] if works else None
    others = f" + {len(works) - 1}" if len(works) > 1 else ""
    when = event.facts.date or PartialDate.of(today)
    return Concert(
        day=max(when.first, today),
        title=f"{first.title}{others}" if first else event.facts.event_title or _("Performance"),
        day_text=short_day(when, language),
        place=event.facts.city,
        language=first.title_language if first else "",
        certain=event.facts.status is not PerformanceStatus.PLANNED,
    )
