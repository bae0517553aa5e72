"""What a librarian is shown of a work and a performance: forces, parts, editions, sets and hires, days and halls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from django.urls import reverse
from django.utils.safestring import SafeString

from catalogue.drawings.ninety_days import DAYS
from catalogue.gathering.readings import reading_of
from catalogue.instrumentation import Instrumentation
from catalogue.models import Composer, HiredPerformance, Performance, Work
from catalogue.rules.playings import DID_NOT_HAPPEN
from catalogue.timing import PartialDate, write_clock_time
from catalogue.web.days import how_far
from catalogue.web.programmes import called, works_of
from catalogue.web.records.of_files import FILES
from catalogue.web.records.of_materials import HIRES, SETS
from catalogue.web.records.of_works import EDITIONS
from catalogue.web.records.page import Around, around
from catalogue.web.records.registry import FILES_OF_MATERIAL
from catalogue.web.tables.performances import hall_and_town
from catalogue.web.wording import date_text, duration_text


@dataclass(frozen=True, slots=True)
class Playing:
    """A performance in a list: what, when, where; ``hired`` says for how many hires it is the reason."""

    address: str
    name: SafeString
    day: str
    far: str
    place: str
    status: str
    hired: int


@dataclass(frozen=True, slots=True)
class LibraryWork:
    """A work with its material, kind by kind."""

    work: Work
    reading: Instrumentation | None
    forces: str
    duration: str
    around: tuple[Around, ...]
    playings: tuple[Playing, ...]


@dataclass(frozen=True, slots=True)
class LibraryPerformance:
    """A performance with its works and the material of each."""

    playing: Playing
    time: str
    works: tuple[LibraryWork, ...]


def library_work_of(work: Work, *, today: date, language: str) -> LibraryWork:
    """Return a work with its material and its performances."""
    played = Performance.objects.filter(composer=work.composer_id).of_work(work).with_everything_printed()
    found = list(played.select_related("composer", "venue").latest_first())
    return material_of(work, playings_of(found, today=today, language=language), language)


def material_of(work: Work, playings: tuple[Playing, ...], language: str) -> LibraryWork:
    files = FILES.around(work).filter(kind__in=FILES_OF_MATERIAL)
    sorts = [(kind, kind.around(work)) for kind in (EDITIONS, SETS, HIRES)]
    slug = work.composer.slug
    return LibraryWork(
        work=work,
        reading=reading_of(work.instrumentation),
        forces=work.instrumentation_typed or work.instrumentation,
        duration=duration_text(work.duration, work.duration_typed, language),
        around=tuple(around(kind, rows, slug, language) for kind, rows in (*sorts, (FILES, files))),
        playings=playings,
    )


def library_performance_of(performance: Performance, *, today: date, language: str) -> LibraryPerformance:
    """Return a performance that comes from ``with_everything_printed``, with the material of its works."""
    works = Work.objects.filter(pk__in=[one.pk for one in works_of(performance)]).select_related("composer")
    return LibraryPerformance(
        playing=playings_of([performance], today=today, language=language)[0],
        time=write_clock_time(performance.time, language) if performance.time else "",
        works=tuple(material_of(work, (), language) for work in works.order_by("pk")),
    )


def coming_for_librarian(composer: Composer, *, today: date, language: str) -> tuple[Playing, ...]:
    """Return the performances of the coming days, each with whether material is on hire for it; four queries."""
    ours = Performance.objects.filter(composer=composer).from_day(today).filter(first_day__lte=today + timedelta(DAYS))
    taking_place = ours.exclude(status__in=[status.value for status in DID_NOT_HAPPEN])
    found = list(taking_place.with_everything_printed().select_related("composer", "venue").in_date_order())
    return playings_of(found, today=today, language=language)


def playings_of(performances: Sequence[Performance], *, today: date, language: str) -> tuple[Playing, ...]:
    rows = HiredPerformance.objects.filter(performance__in=performances, hire__deleted_at__isnull=True)
    hired = list(rows.values_list("performance", flat=True))
    return tuple(playing_of(one, hired.count(one.pk), today, language) for one in performances)


def playing_of(performance: Performance, hired: int, today: date, language: str) -> Playing:
    when = performance.date
    return Playing(
        address=reverse("performance-detail", args=[performance.composer.slug, performance.pk]),
        name=called(performance),
        day=date_text(when, language),
        far=how_far(when, today) if isinstance(when, PartialDate) and when.last >= today else "",
        place=", ".join(part for part in hall_and_town(performance) if part),
        status=performance.get_status_display(),
        hired=hired,
    )
