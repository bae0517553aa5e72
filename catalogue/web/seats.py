"""In which catalogues somebody has a seat, and with which role.

Who may do what is asked of the database each time; the composers, of whom a house may have a thousand, are fetched once
for each state of theirs.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.contrib.auth.models import User
from django.db import DEFAULT_DB_ALIAS
from django.db.models import Count, OuterRef, Subquery
from django.http import Http404

from catalogue.gathering.among import among
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.prepared import columns_of, values_about
from catalogue.gathering.versions import State, state_of_composers
from catalogue.models import Composer, Membership
from catalogue.terms import Role


@dataclass(frozen=True, slots=True)
class Seat:
    """A composer and what somebody may do with the catalogue."""

    composer: Composer
    role: Role


OF_COMPOSER = columns_of(Composer)


def seat_of(user: User, slug: str) -> tuple[Seat, int]:
    """Return the user's seat with the composer whom an address names, and how many seats they have; one query.

    Raises Http404 for a stranger.
    """
    found = values_about(asked_seat, user.pk, slug)
    if not found:
        raise Http404
    ((role, seats, *told),) = found
    return Seat(Composer.from_db(DEFAULT_DB_ALIAS, OF_COMPOSER, told), Role(role)), seats


def asked_seat(told: Sequence[Any]) -> Any:
    user, slug = told
    theirs = Membership.objects.filter(user=OuterRef("user")).order_by().values("user")
    seats = Subquery(theirs.annotate(number=Count("pk")).values("number"))
    asked = Membership.objects.filter(user=user).filter(composer__slug=slug)
    return asked.values_list("role", seats, *(f"composer__{name}" for name in OF_COMPOSER))


def seats_of(user: User) -> tuple[Seat, ...]:
    """Return the user's seats by the composers' names; one query, two more while their composers are new."""
    roles = tuple(Membership.objects.filter(user=user).order_by("composer").values_list("composer", "role"))
    return seats_at(state_of_composers(), roles) if roles else ()


@once_for_each_state(64)
def seats_at(_state: State, roles: tuple[tuple[int, str], ...]) -> tuple[Seat, ...]:
    """Return seats by the composers' names, of composers and roles."""
    role_of = dict(roles)
    composers = Composer.objects.filter(among("pk", role_of)).order_by("sort_name", "pk")
    return tuple(Seat(one, Role(role_of[one.pk])) for one in composers)
