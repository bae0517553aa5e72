"""Writing houses: a letterhead and a look, and who is under their roof.

Who had chosen a look keeps it when they come under a roof; a house without composers is let go.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from django.db import transaction

from catalogue.actions.saving import latest_of, read_again, refuse_overtaken, store
from catalogue.models import Composer, House
from catalogue.models.houses import Dressing

CHOSEN = tuple(one.name for one in Dressing._meta.get_fields())


@transaction.atomic
def save_house(*, house: House, composers: Sequence[Composer], now: datetime) -> House:
    """Save a house and let these composers, and no others, be under its roof.

    Raises ValidationError for what must not be stored, Overtaken where somebody saved it in between.
    """
    refuse_overtaken(house, latest_of(house))
    store(house, now)
    wanted = {one.pk for one in composers}
    held = house.composers.select_for_update()
    for composer in held.exclude(pk__in=wanted):
        leave(composer, now)
    for composer in Composer.objects.select_for_update().filter(pk__in=wanted).exclude(house=house):
        composer.house, composer.own_look = house, has_chosen(composer)
        store(composer, now)
    return house


def has_chosen(composer: Composer) -> bool:
    """Whether the papers of a composer look otherwise than they begin."""
    fresh = Composer()
    return any(getattr(composer, name) != getattr(fresh, name) for name in CHOSEN)


def leave(composer: Composer, now: datetime) -> None:
    composer.house = None
    store(composer, now)


@transaction.atomic
def leave_house(*, composer: Composer, now: datetime) -> None:
    """Take a composer from under a roof; a house that was theirs alone goes with them, its history stays."""
    read_again(composer)
    house = composer.house
    if house is not None:
        read_again(house)  # so that of two who leave at the same moment the second finds it empty
    leave(composer, now)
    if house is not None and not house.composers.exists():
        house.delete()


@transaction.atomic
def dissolve_house(*, house: House, now: datetime) -> None:
    """Let everybody go, and the house after them."""
    for composer in house.composers.select_for_update():
        leave(composer, now)
    house.delete()
