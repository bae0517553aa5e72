"""Invented catalogues as rows, written in bulk; each call makes a composer of its own."""

from __future__ import annotations

from datetime import date, datetime
from uuid import uuid4

from django.contrib.auth.models import User

from catalogue.actions.forces import forces_of
from catalogue.benches.invented import NOW, PLACES, performance, work
from catalogue.facts import PerformanceFacts, WorkFacts
from catalogue.models import Composer, Membership, Performance, PerformanceCredit, ProgrammedWork, Venue, Work
from catalogue.terms import Role

AT_ONCE = 500


def store(*, works: int, performances: int) -> Composer:
    """Write so many works and performances and return whose they are."""
    composer = composer_with_owner()
    stored = Work.objects.bulk_create((work_row(work(number), composer) for number in range(works)), batch_size=AT_ONCE)
    venues = Venue.objects.bulk_create(
        Venue(composer=composer, name=name, city=city, country=country, zone=zone)
        for name, city, country, zone in PLACES
    )
    told = [performance(number, works) for number in range(performances)]
    evenings = Performance.objects.bulk_create(
        (performance_row(one, composer, venues) for one in told), batch_size=AT_ONCE
    )
    ProgrammedWork.objects.bulk_create(
        (
            ProgrammedWork(performance=evening, work=stored[item.work_id - 1], order=1)
            for evening, one in zip(evenings, told, strict=True)
            for item in one.programme
        ),
        batch_size=AT_ONCE,
    )
    PerformanceCredit.objects.bulk_create(
        (PerformanceCredit(performance=evening, name="Kestrel Ensemble", role="ensemble") for evening in evenings),
        batch_size=AT_ONCE,
    )
    return composer


def composer_with_owner() -> Composer:
    mark = uuid4().hex[:12]
    composer = Composer.objects.create(name=f"Orla Quenby {mark}", sort_name=f"Quenby, Orla {mark}", slug=f"o-{mark}")
    Membership.objects.create(user=User.objects.create_user(mark), composer=composer, role=Role.OWNER.value)
    return composer


def work_row(told: WorkFacts, composer: Composer) -> Work:
    least, most, electronics = forces_of(told.instrumentation)
    return Work(
        composer=composer,
        title=told.title.title,
        category=told.category.value,
        catalogue_number=told.catalogue_number,
        completed=told.completed,
        duration=told.duration,
        instrumentation=told.instrumentation_text,
        instrumentation_typed=told.instrumentation_typed,
        least_players=least,
        most_players=most,
        electronics=electronics,
        search_text="",
        changed_at=NOW,
    )


def performance_row(told: PerformanceFacts, composer: Composer, venues: list[Venue]) -> Performance:
    day: date | None = told.date.first if told.date else None
    starts: datetime | None = told.starts_at
    return Performance(
        composer=composer,
        date=told.date,
        first_day=day,
        last_day=day,
        time=told.time,
        starts_at=starts,
        status=told.status.value,
        event_title=told.event_title,
        venue=venues[(told.venue.id if told.venue else 1) - 1],
        changed_at=NOW,
    )
