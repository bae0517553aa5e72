"""Records for tests: one plain function each, the defaults written out, nothing random. All names are invented."""

from __future__ import annotations

from datetime import UTC, datetime, time
from typing import Any

from django.contrib.auth.models import User

from catalogue.actions.composers import create_composer
from catalogue.actions.performances import save_performance, save_venue
from catalogue.actions.works import save_work
from catalogue.models import (
    Commission,
    Composer,
    Cue,
    Membership,
    Movement,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Recording,
    Venue,
    Work,
)
from catalogue.terms import Role
from catalogue.timing import read_date, read_duration

NOW = datetime(2026, 1, 15, 12, 0, tzinfo=UTC)


def make_user(username: str = "ilse", *, password: str | None = None, **columns: Any) -> User:
    """Return a user, without a password unless one is given: a good password takes long to store."""
    return User.objects.create_user(username, f"{username}@example.org", password, **columns)


def make_composer(name: str = "Ilse Tarnow", *, owner: User | None = None, **columns: Any) -> Composer:
    return create_composer(name=name, owner=owner, **{"sort_name": "Tarnow, Ilse", **columns})


def make_member(composer: Composer, username: str, role: Role) -> User:
    user = make_user(username)
    Membership.objects.create(user=user, composer=composer, role=role.value)
    return user


def the_composer() -> Composer:
    """Return the composer that a test has made, or make one: a test about one work need not name its composer."""
    return Composer.objects.order_by("pk").first() or make_composer()


def make_work(
    title: str = "Tides",
    *,
    composer: Composer | None = None,
    duration: str = "",
    completed: str = "",
    movements: tuple[str, ...] = (),
    commissioned_by: tuple[str, ...] = (),
    cues: tuple[tuple[str, str, str], ...] = (),
    now: datetime = NOW,
    **columns: Any,
) -> Work:
    work = Work(composer=composer or the_composer(), title=title, **columns)
    work.duration = read_duration(duration) if duration else None
    work.completed = read_date(completed) if completed else None
    return save_work(
        work=work,
        now=now,
        movements=[Movement(title=name) for name in movements],
        commissions=[Commission(name=name) for name in commissioned_by],
        cues=[Cue(number=number, place=place, action=action) for number, place, action in cues],
    )


def make_venue(name: str = "Old Granary", *, composer: Composer | None = None, **columns: Any) -> Venue:
    defaults = {"city": "Zurich", "country": "CH", "zone": "Europe/Zurich"}
    return save_venue(venue=Venue(composer=composer or the_composer(), name=name, **{**defaults, **columns}), now=NOW)


def make_performance(
    *works: Work,
    date: str = "2026-05-16",
    at: time | None = time(19, 30),
    composer: Composer | None = None,
    performers: tuple[str, ...] = (),
    now: datetime = NOW,
    **columns: Any,
) -> Performance:
    owner = composer or (works[0].composer if works else the_composer())
    performance = Performance(composer=owner, date=read_date(date) if date else None, time=at, **columns)
    return save_performance(
        performance=performance,
        now=now,
        programme=[ProgrammedWork(work=work) for work in works],
        credits=[PerformanceCredit(name=name) for name in performers],
    )


def make_person(name: str = "Noor Halvorsen", *, composer: Composer | None = None, **columns: Any) -> Person:
    return Person.objects.create(composer=composer or the_composer(), name=name, **columns)


def make_organisation(
    name: str = "Kestrel Ensemble", *, composer: Composer | None = None, **columns: Any
) -> Organisation:
    return Organisation.objects.create(composer=composer or the_composer(), name=name, **columns)


def make_recording(work: Work, **columns: Any) -> Recording:
    defaults = {"performers": "Kestrel Ensemble", "label": "Slate Records", "number": "SL 12"}
    return Recording.objects.create(work=work, **{**defaults, **columns})
