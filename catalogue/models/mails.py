"""Mails that somebody asked for: counted, so that nobody is flooded and no address tried out; never who they were."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Self

from django.db import models

from catalogue.models.conditions import choices_of, known


class MailPurpose(StrEnum):
    INVITATION = "invitation"
    RECOVERY = "recovery"


class AskedMailQuerySet(models.QuerySet["AskedMail"]):
    def since(self, moment: datetime, purpose: MailPurpose) -> Self:
        return self.filter(purpose=purpose, asked_at__gt=moment)


class AskedMail(models.Model):
    """That a mail was asked for, sent or not; ``recipient`` and ``asker`` are keyed digests that tell nobody who."""

    purpose = models.CharField(max_length=10, choices=choices_of(MailPurpose))
    recipient = models.CharField(max_length=64)
    asker = models.CharField(max_length=64)
    asked_at = models.DateTimeField(db_index=True)

    objects = AskedMailQuerySet.as_manager()

    class Meta:
        constraints = [known("asked_mail", "purpose", MailPurpose)]

    def __str__(self) -> str:
        return f"{self.purpose} of {self.asked_at:%Y-%m-%d %H:%M}"
