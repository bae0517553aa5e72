"""In which catalogues somebody has a seat, and with which role.

Who may do what is asked of the database each time; the composers, of whom a house may have a thousand, are fetched once
for each state of theirs.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.contrib.auth.models import User

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_composers
from catalogue.models import Composer, Membership
from catalogue.terms import Role


@dataclass(frozen=True, slots=True)
class Seat:
    """A composer and what somebody may do with the catalogue."""

    composer: Composer
    role: Role


def seats_of(user: User) -> tuple[Seat, ...]:
    """Return the user's seats by the composers' names; one query, two more while their composers are new."""
    roles = dict(Membership.objects.filter(user=user).order_by("composer").values_list("composer", "role"))
    composers = composers_at(state_of_composers(), tuple(roles)) if roles else ()
    return tuple(Seat(one, Role(roles[one.pk])) for one in composers)


@once_for_each_state(64)
def composers_at(_state: State, keys: tuple[int, ...]) -> tuple[Composer, ...]:
    """Return composers by their names."""
    return tuple(Composer.objects.filter(pk__in=keys).order_by("sort_name", "pk"))
