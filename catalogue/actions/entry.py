"""Letting people in: making keys, and founding a catalogue with one.

A token has 256 random bits and is shown once; the database holds its SHA-256 only.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction

from catalogue.actions.composers import create_composer
from catalogue.actions.turns import wait_turn
from catalogue.models import EntryKey, EntryPurpose
from catalogue.models.people import sha256_of

LASTS = {
    EntryPurpose.OWNER: timedelta(hours=24),
    EntryPurpose.DEMO: timedelta(hours=24),
    EntryPurpose.MEMBER: timedelta(days=7),
}


@dataclass(frozen=True, slots=True)
class Founder:
    """What the first owner of a catalogue says about himself or herself and the composer."""

    composer_name: str
    user_name: str
    password: str
    email: str = ""


class KeyUsed(ValueError):
    """The key has founded a catalogue already, or ran out."""

    reason = "This address has been used already, or it ran out; start the program again for a new one."


def make_entry_key(purpose: EntryPurpose, *, now: datetime, user: User | None = None) -> str:
    """Store a key that lasts a day, a member's a week, and return its token, which cannot be found out afterwards.

    A demo key and a member's key need the user whom they let in.
    """
    token = secrets.token_urlsafe(32)
    EntryKey.objects.create(
        purpose=purpose, token_sha256=sha256_of(token), user=user, made_at=now, expires_at=now + LASTS[purpose]
    )
    return token


def find_entry_key(purpose: EntryPurpose, token: str, *, now: datetime) -> EntryKey | None:
    """Return the key of a token, or None where it is unknown, used up or too old."""
    return EntryKey.objects.usable(purpose, now).filter(token_sha256=sha256_of(token)).select_related("user").first()


class NameTaken(ValueError):
    """Somebody else signs in by this name."""

    reason = "Somebody signs in with this name already."


@transaction.atomic
def found_catalogue(token: str, founder: Founder, *, now: datetime) -> User:
    """Use up an owner's key and make the user, the composer and the membership. Raises KeyUsed and NameTaken."""
    usable = EntryKey.objects.usable(EntryPurpose.OWNER, now).filter(token_sha256=sha256_of(token))
    if not usable.update(used_at=now):
        raise KeyUsed(KeyUsed.reason)
    if user_named(founder.user_name) is not None:
        raise NameTaken(NameTaken.reason)
    user = User.objects.create_user(founder.user_name, founder.email, founder.password)
    name = founder.composer_name
    create_composer(name=name, owner=user, sort_name=sort_name_of(name), email=founder.email)
    return user


def user_named(name: str) -> User | None:
    """Return who signs in by a name, whatever its capitals; whoever else asks waits until the transaction is over."""
    wait_turn(f"a user's name: {name.casefold()}")
    return User.objects.filter(username__iexact=name).first()


def sort_name_of(name: str) -> str:
    """Guess how a name is sorted: its last word first. The composer's profile corrects it.

    >>> sort_name_of("Ilka Maria Marovand"), sort_name_of("Marovand")
    ('Marovand, Ilka Maria', 'Marovand')
    """
    *given, family = name.split()
    return f"{family}, {' '.join(given)}" if given else family
