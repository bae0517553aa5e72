"""A note of each catalogue that was handed over: when, to or from whom, and the checksum of the file."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from catalogue.models.conditions import choices_of, known
from catalogue.models.fields import line
from catalogue.models.people import Composer
from catalogue.models.records import TenantQuerySet
from catalogue.terms import HandOverWay


class HandOver(models.Model):
    """``party`` is who was given the file, as noted; ``records`` is how many were in it."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="hand_overs")
    way = models.CharField(max_length=10, choices=choices_of(HandOverWay))
    party = line()
    sha256 = models.CharField(max_length=64, editable=False)
    records = models.PositiveIntegerField()
    made_at = models.DateTimeField()
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, related_name="+")

    objects = TenantQuerySet["HandOver"].as_manager()

    class Meta:
        constraints = [known("hand_over", "way", HandOverWay)]

    def __str__(self) -> str:
        return f"{self.composer}, {self.way} {self.made_at:%Y-%m-%d}"
