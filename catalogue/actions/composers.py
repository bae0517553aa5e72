"""Writing composers: a new catalogue with its owner, and what is known of the person."""

from __future__ import annotations

from datetime import datetime
from itertools import count
from typing import Any, cast

from django.contrib.auth.models import AbstractBaseUser, User
from django.db import transaction
from django.utils.text import slugify

from catalogue.actions.saving import check, latest_of, refuse_overtaken, store
from catalogue.actions.turns import wait_turn
from catalogue.models import Composer, Membership
from catalogue.rules.search import fold
from catalogue.terms import Role


@transaction.atomic
def create_composer(*, name: str, owner: AbstractBaseUser | None, **columns: Any) -> Composer:
    """Make a composer's catalogue, and its owner a member. ValidationError where it must not be stored."""
    composer = Composer(name=name, **columns)
    composer.slug = composer.slug or free_slug(name)
    check(composer)
    composer.save()
    if owner is not None:
        Membership.objects.create(user=cast(User, owner), composer=composer, role=Role.OWNER.value)
    return composer


@transaction.atomic
def save_composer(*, composer: Composer, now: datetime) -> Composer:
    """Save what is known of a composer.

    Raises ValidationError for what must not be stored, Overtaken where somebody saved it in between.
    """
    refuse_overtaken(composer, latest_of(composer))
    store(composer, now)
    return composer


def free_slug(name: str) -> str:
    """Return a slug that no composer has, from the name where its letters allow.

    To be called in the transaction that stores it: whoever else asks waits until that is over.
    """
    wait_turn("a composer's slug")
    stem = slugify(fold(name))[:80] or "composer"
    taken = set(Composer.objects.filter(slug__startswith=stem).values_list("slug", flat=True))
    numbered = (f"{stem}-{number}" for number in count(2))
    return stem if stem not in taken else next(slug for slug in numbered if slug not in taken)
