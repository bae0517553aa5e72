"""Letting people in: making keys, and founding a catalogue with one.

A token has 256 random bits and is shown once; the database holds its SHA-256 only.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils.text import slugify

from catalogue.models import Composer, EntryKey, EntryPurpose, Membership
from catalogue.terms import Role

LASTS = timedelta(hours=24)


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


def sha256_of(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def make_entry_key(purpose: EntryPurpose, *, now: datetime, user: User | None = None) -> str:
    """Store a key that lasts a day, and return its token, which cannot be found out afterwards.

    A demo key needs the user whom it signs in.
    """
    token = secrets.token_urlsafe(32)
    EntryKey.objects.create(
        purpose=purpose, token_sha256=sha256_of(token), user=user, made_at=now, expires_at=now + LASTS
    )
    return token


def find_entry_key(purpose: EntryPurpose, token: str, *, now: datetime) -> EntryKey | None:
    """Return the key of a token, or None where it is unknown, used up or too old."""
    return EntryKey.objects.usable(purpose, now).filter(token_sha256=sha256_of(token)).select_related("user").first()


@transaction.atomic
def found_catalogue(token: str, founder: Founder, *, now: datetime) -> User:
    """Use up an owner's key and make the user, the composer and the membership. Raises KeyUsed."""
    usable = EntryKey.objects.usable(EntryPurpose.OWNER, now).filter(token_sha256=sha256_of(token))
    if not usable.update(used_at=now):
        raise KeyUsed(KeyUsed.reason)
    user = User.objects.create_user(founder.user_name, founder.email, founder.password)
    composer = Composer.objects.create(
        name=founder.composer_name,
        sort_name=sort_name_of(founder.composer_name),
        slug=free_slug(founder.composer_name),
        email=founder.email,
    )
    Membership.objects.create(user=user, composer=composer, role=Role.OWNER)
    return user


def sort_name_of(name: str) -> str:
    """Guess how a name is sorted: its last word first. The composer's profile corrects it.

    >>> sort_name_of("Rana Maria Ostrevik"), sort_name_of("Ostrevik")
    ('Ostrevik, Rana Maria', 'Ostrevik')
    """
    *given, family = name.split()
    return f"{family}, {' '.join(given)}" if given else family


def free_slug(name: str) -> str:
    """Return an address for a composer that no other composer has; a name in another script gives a plain one."""
    slug = slugify(name)[:80] or "composer"
    taken = set(Composer.objects.filter(slug__startswith=slug).values_list("slug", flat=True))
    numbered = (f"{slug}-{number}" for number in range(2, len(taken) + 3))
    return slug if slug not in taken else next(each for each in numbered if each not in taken)
