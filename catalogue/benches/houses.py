"""A house of many composers with the people who work in it and the programs that read its calendars."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import uuid4

from django.contrib.auth.models import User
from django.db import transaction
from django.test import Client
from django.urls import reverse

from catalogue.actions.calendars import make_address
from catalogue.benches.invented import NOW
from catalogue.benches.large import add_composers
from catalogue.models import Composer, Membership
from catalogue.terms import Role

PEOPLE = 50
WORKS, PERFORMANCES = 5, 20
"""Of each composer."""

_made: dict[int, str] = {}  # by the number of composers, the name of whoever keeps them all


@dataclass(frozen=True, slots=True)
class PeopleOfHouse:
    """Who keeps all composers, and who works: each with a catalogue of theirs and the session they are signed in by."""

    publisher: str
    at_work: tuple[tuple[Composer, str], ...]


def house_of(composers: int) -> tuple[User, tuple[Composer, ...]]:
    """Return who keeps so many composers, and these, made once in a database."""
    publisher = User.objects.filter(username=_made.get(composers, "")).first()
    if publisher is None:
        publisher = User.objects.create_user(f"publisher-{uuid4().hex[:12]}")
        add_members(publisher, add_composers([(WORKS, PERFORMANCES)] * composers, today=NOW.date()))
        _made[composers] = publisher.username
    return publisher, tuple(Composer.objects.filter(memberships__user=publisher).order_by("pk"))


def add_members(publisher: User, composers: tuple[Composer, ...]) -> None:
    """Let the publisher own every catalogue and each of those at work edit their share of them, at least one."""
    names = [f"{publisher.username}-{number}" for number in range(PEOPLE)]
    people = User.objects.bulk_create(User(username=name) for name in names)
    shares = range(max(PEOPLE, len(composers)))
    seats = {(people[one % PEOPLE].pk, composers[one % len(composers)].pk) for one in shares}
    Membership.objects.bulk_create(Membership(user=publisher, composer=one, role=Role.OWNER) for one in composers)
    Membership.objects.bulk_create(
        Membership(user_id=user, composer_id=composer, role=Role.EDITOR) for user, composer in sorted(seats)
    )


def people_of(publisher: User) -> PeopleOfHouse:
    """Sign everybody in."""
    people = User.objects.filter(username__startswith=f"{publisher.username}-").order_by("pk")
    seats = ((one.memberships.select_related("composer").order_by("pk")[0].composer, one) for one in people)
    return PeopleOfHouse(session_of(publisher), tuple((composer, session_of(one)) for composer, one in seats))


def session_of(user: User) -> str:
    client = Client()
    client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
    return client.cookies["sessionid"].value


@transaction.atomic
def calendars_of(publisher: User, composers: tuple[Composer, ...], clients: int) -> list[str]:
    """Make an address for each of so many programs, of the composers in turn, and return the addresses."""
    tokens = (
        make_address(composer=composers[one % len(composers)], keeper=publisher, label=f"Program {one}", now=NOW)
        for one in range(clients)
    )
    return [reverse("feed", args=[token, "calendar"]) for token in tokens]
