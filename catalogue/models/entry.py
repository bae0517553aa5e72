"""Keys that stand in an address and let somebody in: a catalogue's first owner, a new member, a visitor of the demo."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Self

from django.conf import settings
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import choices_of, known


class EntryPurpose(StrEnum):
    """An owner's key founds a catalogue, a member's sets a password, once; a demo key signs in as often as wanted."""

    OWNER = "owner"
    DEMO = "demo"
    MEMBER = "member"


class EntryKeyQuerySet(models.QuerySet["EntryKey"]):
    def usable(self, purpose: EntryPurpose, moment: datetime) -> Self:
        """Return the keys that still open something at this moment."""
        alive = self.filter(purpose=purpose, expires_at__gt=moment)
        return alive if purpose is EntryPurpose.DEMO else alive.filter(used_at__isnull=True)


class EntryKey(models.Model):
    """A key that was given out; only the SHA-256 of its token is kept."""

    purpose = models.CharField(max_length=10, choices=choices_of(EntryPurpose))
    token_sha256 = models.CharField(max_length=64, unique=True)
    user = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, null=True, related_name="+")
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True)

    objects = EntryKeyQuerySet.as_manager()

    class Meta:
        constraints = [
            known("entry_key", "purpose", EntryPurpose),
            models.CheckConstraint(
                condition=Q(purpose=EntryPurpose.OWNER.value) | Q(user__isnull=False),
                name="entry_key_has_user",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.purpose} key of {self.made_at:%Y-%m-%d %H:%M}"
