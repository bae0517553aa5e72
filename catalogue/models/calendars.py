"""The secret addresses at which a catalogue's calendar is read, each of one member, for one program."""

from __future__ import annotations

from typing import Self

from django.conf import settings
from django.db import models
from django.db.models import F

from catalogue.models.conditions import choices_of, filled, known
from catalogue.models.fields import line, refuse_unprintable
from catalogue.models.people import Composer, sha256_of
from catalogue.models.records import READING_ROLES, TenantQuerySet
from catalogue.terms import CalendarHolds

LONGEST = 2000


class CalendarAddressQuerySet(TenantQuerySet["CalendarAddress"]):
    def with_token(self, token: str) -> Self:
        """Return the address that a token opens, as long as whoever made it still sees the whole catalogue."""
        ours = self.filter(token_sha256=sha256_of(token), keeper__is_active=True)
        return ours.filter(keeper__memberships__composer=F("composer"), keeper__memberships__role__in=READING_ROLES)

    def latest_first(self) -> Self:
        return self.order_by("-made_at", "-pk")


class CalendarAddress(models.Model):
    """``query`` is what the list of performances was asked, as its address says it; empty for all of them.

    The token is shown once and kept as its SHA-256 alone. ``read_on`` is the day on which a program last asked.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="calendar_addresses")
    keeper = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="calendar_addresses")
    label = line(60, blank=False)
    holds = models.CharField(max_length=20, choices=choices_of(CalendarHolds), default=CalendarHolds.EVERYTHING.value)
    query = models.CharField(max_length=LONGEST, blank=True, validators=[refuse_unprintable])
    token_sha256 = models.CharField(max_length=64, unique=True, editable=False)
    made_at = models.DateTimeField(editable=False)
    read_on = models.DateField(null=True, blank=True, editable=False)

    objects = CalendarAddressQuerySet.as_manager()

    class Meta:
        constraints = [
            known("calendar_address", "holds", CalendarHolds),
            filled("calendar_address", "label"),
        ]

    def __str__(self) -> str:
        return self.label
