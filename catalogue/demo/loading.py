"""Loading the invented demo house: its files become three catalogues that one user keeps.

Loading again adds what is missing and leaves the rest as it stands, but for the performances that the files tell from
the day of loading: they move along, so that some are always recent and some always to come.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time
from functools import partial
from typing import Any, TypeVar

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.composers import create_composer
from catalogue.actions.houses import save_house
from catalogue.actions.performances import save_performance
from catalogue.actions.works import save_work
from catalogue.demo.calls import load_calls
from catalogue.demo.hires import load_hires
from catalogue.demo.records import load_records
from catalogue.demo.rows import (
    House,
    Row,
    composer_columns,
    copied,
    core_of,
    day_of,
    new_cue,
    new_movement,
    new_organisation,
    new_performance,
    new_person,
    new_programmed,
    new_recording,
    new_venue,
    new_work,
    read_house,
)
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
from catalogue.models import House as Letterhead
from catalogue.terms import Role
from catalogue.timing import read_date

FOLDER = settings.ROOT / "fixtures" / "demo"
USER_NAME = "demo"
LIBRARIAN = "hanne.rosskamp"

R = TypeVar("R", Person, Organisation, Venue)


@dataclass(frozen=True, slots=True)
class Loading:
    """One composer's catalogue while it is loaded: what it names so far, by the slugs of the files."""

    house: House
    composer: Composer
    today: date
    now: datetime
    people: dict[str, Person] = field(default_factory=dict)
    organisations: dict[str, Organisation] = field(default_factory=dict)
    venues: dict[str, Venue] = field(default_factory=dict)
    works: dict[str, Work] = field(default_factory=dict)


@transaction.atomic
def load_demo(today: date, *, now: datetime | None = None, only_core: bool = False) -> User:
    """Load the demo house as of a day; return the user who keeps its catalogues, who has no password.

    ``now`` is the time at which its records say that they were changed, else noon of that day. ``only_core`` loads the
    small selection: fifteen works and forty performances of one composer.
    """
    now = now or datetime.combine(today, time(12), UTC)
    house = core_of(read_house(FOLDER)) if only_core else read_house(FOLDER)
    user = User.objects.filter(username=USER_NAME).first() or User.objects.create_user(USER_NAME)
    for row in house.composers.values():
        loading = Loading(house, composer_for(row, user), today, now)
        load_works(loading)
        load_performances(loading)
        load_records(
            FOLDER / "records.toml",
            composer=loading.composer,
            works=loading.works,
            people=partial(person, loading),
            organisations=partial(organisation, loading),
            now=loading.now,
        )
        load_calls(house.calls, composer=loading.composer, works=loading.works, today=today, now=loading.now)
        load_hires(
            FOLDER / "hires.toml",
            composer=loading.composer,
            works=loading.works,
            organisations=partial(organisation, loading),
            today=today,
        )
    load_members(house)
    load_houses(house, now=now)
    return user


def load_houses(house: House, *, now: datetime) -> None:
    """Make the houses that are not there yet, with the composers under their roof."""
    for row in house.houses.values():
        if not Letterhead.objects.filter(name=row["name"]).exists():
            made = Letterhead(**copied(row, "name", "address", "telephone", "email", "website", "registration"))
            save_house(house=made, composers=list(Composer.objects.filter(slug__in=row["composers"])), now=now)


def load_members(house: House) -> None:
    """Let in who keeps the catalogues beside their owner, without passwords."""
    for name, row in house.members.items():
        names = {"first_name": row["given_name"], "last_name": row["family_name"]}
        member = User.objects.filter(username=name).first() or User.objects.create_user(name, **names)
        for slug, role in row["roles"].items():
            composer = Composer.objects.get(slug=slug)
            Membership.objects.get_or_create(user=member, composer=composer, defaults={"role": Role(role).value})


def composer_for(row: Row, user: User) -> Composer:
    composer = Composer.objects.filter(slug=row["slug"]).first()
    if composer is None:
        return create_composer(owner=user, **composer_columns(row))
    Membership.objects.get_or_create(user=user, composer=composer, defaults={"role": Role.OWNER.value})
    return composer


def add_parts(model: Any, parts: list[Any], loading: Loading) -> None:
    """Store parts of new records at once, each with the first entry of its history."""
    added = model.objects.bulk_create(parts)
    model.history.bulk_history_create(added, default_date=loading.now)


# --- people, bodies and halls, added when they are first named ---


def stored(record: R, *columns: str) -> R:
    """Return the record that has the same values in these columns, deleted or not, or store this one."""
    same = {column: getattr(record, column) for column in ("composer", *columns)}
    known: R | None = type(record).with_deleted.filter(**same).first()
    if known is not None:
        return known
    record.full_clean()
    record.save()
    return record


def person(loading: Loading, slug: str) -> Person:
    if slug not in loading.people:
        loading.people[slug] = stored(new_person(loading.composer, loading.house.people[slug]), "name")
    return loading.people[slug]


def organisation(loading: Loading, slug: str) -> Organisation:
    if slug not in loading.organisations:
        row = loading.house.organisations[slug]
        loading.organisations[slug] = stored(new_organisation(loading.composer, row), "name")
    return loading.organisations[slug]


def venue(loading: Loading, slug: str) -> Venue:
    if slug not in loading.venues:
        loading.venues[slug] = stored(new_venue(loading.composer, loading.house.venues[slug]), "name", "city")
    return loading.venues[slug]


# --- works ---


def load_works(loading: Loading) -> None:
    known = {work.uid: work for work in Work.with_deleted.filter(composer=loading.composer)}
    added = []
    for slug, row in loading.house.works_of(loading.composer.slug).items():
        work = new_work(loading.composer, loading.house, row)
        loading.works[slug] = known.get(work.uid, work)
        if work.uid not in known:
            work.version_of = loading.works.get(row.get("version_of", ""))
            added.append((save_work(work=work, now=loading.now), row))
    add_parts(Movement, [part for work, row in added for part in movements(work, row)], loading)
    add_parts(Commission, [part for work, row in added for part in commissions(loading, work, row)], loading)
    add_parts(Cue, [part for work, row in added for part in cues(work, row)], loading)
    add_parts(
        Recording, [new_recording(work, part) for work, row in added for part in row.get("recordings", [])], loading
    )


def movements(work: Work, row: Row) -> Iterator[Movement]:
    return (new_movement(work, number, part) for number, part in enumerate(row.get("movements", []), start=1))


def cues(work: Work, row: Row) -> Iterator[Cue]:
    return (new_cue(work, order, part) for order, part in enumerate(row.get("cues", []), start=1))


def commissions(loading: Loading, work: Work, row: Row) -> Iterator[Commission]:
    for part in row.get("commissions", []):
        body, funder = organisation(loading, part["body"]), loading.house.name_of(part.get("funder"))
        days = {name: read_date(part[name]) for name in ("due", "delivered") if name in part}
        yield Commission(work=work, organisation=body, place=part["place"], funder=funder, **days)


# --- performances ---


def load_performances(loading: Loading) -> None:
    known = {one.uid: one for one in Performance.with_deleted.filter(composer=loading.composer)}
    added = []
    for row in loading.house.performances_of(loading.composer.slug).values():
        performance = new_performance(loading.composer, row, loading.today)
        if performance.uid in known:
            move(known[performance.uid], row, loading)
        else:
            added.append((add_performance(performance, row, loading), row))
    add_parts(ProgrammedWork, [part for one, row in added for part in programme(loading, one, row)], loading)
    add_parts(PerformanceCredit, [part for one, row in added for part in performers(loading, one, row)], loading)


def move(performance: Performance, row: Row, loading: Loading) -> None:
    """Let a performance that is told from the day of loading follow that day."""
    day = day_of(row, loading.today)
    if "day" in row and performance.date != day:
        performance.date = day
        save_performance(performance=performance, now=loading.now)


def add_performance(performance: Performance, row: Row, loading: Loading) -> Performance:
    if "venue" in row:
        performance.venue = venue(loading, row["venue"])
    if "presenter" in row:
        performance.presenter = organisation(loading, row["presenter"])
    return save_performance(performance=performance, now=loading.now)


def programme(loading: Loading, performance: Performance, row: Row) -> Iterator[ProgrammedWork]:
    for order, entry in enumerate(row["programme"], start=1):
        yield new_programmed(performance, order, loading.works[entry["work"]], entry)


def performers(loading: Loading, performance: Performance, row: Row) -> Iterator[PerformanceCredit]:
    for order, one in enumerate(row["performers"], start=1):
        credit = PerformanceCredit(performance=performance, order=order, **copied(one, "name", "role", "plays"))
        if one.get("who") in loading.house.people:
            credit.person = person(loading, one["who"])
        elif "who" in one:
            credit.organisation = organisation(loading, one["who"])
        yield credit
