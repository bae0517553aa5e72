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
    roles = dict(Membership.objects.filter(user=user).order_by("composer").values_list("composer", "role"))
    composers = composers_at(state_of_composers(), tuple(roles)) if roles else ()
    return tuple(Seat(one, Role(roles[one.pk])) for one in composers)


@once_for_each_state(64)
def composers_at(_state: State, keys: tuple[int, ...]) -> tuple[Composer, ...]:
    """Return composers by their names."""
    return tuple(Composer.objects.filter(pk__in=keys).order_by("sort_name", "pk"))
