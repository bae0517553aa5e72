"""The addresses of a catalogue's calendar: making one, shutting it, and opening the calendar to everybody."""

from __future__ import annotations

import secrets
from datetime import date, datetime

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.saving import check
from catalogue.models import CalendarAddress, Composer
from catalogue.models.people import sha256_of
from catalogue.terms import CalendarHolds

TOKEN_BYTES = 32


@transaction.atomic
def make_address(
    *,
    composer: Composer,
    keeper: User,
    label: str,
    now: datetime,
    holds: CalendarHolds = CalendarHolds.EVERYTHING,
    query: str = "",
) -> str:
    """Make an address for one program and return its token, which is shown once and kept as its hash alone.

    ``query`` narrows the performances as the address of their list does. Raises ValidationError for a label or a query
    that must not be stored.
    """
    token = secrets.token_urlsafe(TOKEN_BYTES)
    address = CalendarAddress(
        composer=composer, keeper=keeper, label=label, holds=holds.value, query=query, made_at=now
    )
    address.token_sha256 = sha256_of(token)
    check(address)
    address.save()
    return token


def shut_address(*, address: CalendarAddress) -> None:
    """Shut an address for good: what subscribed to it finds nothing there any more."""
    address.delete()


def note_reading(*, address: CalendarAddress, day: date) -> None:
    """Note that a program asked on this day; once a day, so that reading seldom writes."""
    if address.read_on != day:
        CalendarAddress.objects.filter(pk=address.pk).update(read_on=day)


@transaction.atomic
def open_to_all(*, composer: Composer, is_open: bool) -> None:
    """Open the calendar of announced performances to everybody, or shut it."""
    composer.feed_is_public = is_open
    composer.save(update_fields=["feed_is_public"])
