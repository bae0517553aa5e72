"""Records that were two spellings of one and have been merged, with the way back; and pairs that are not one."""

from __future__ import annotations

from typing import Self

from django.conf import settings
from django.db import models

from catalogue.models.fields import LONG_LINE, line
from catalogue.models.people import Composer
from catalogue.models.records import TenantQuerySet


class MergeQuerySet(TenantQuerySet["Merge"]):
    def latest_first(self) -> Self:
        return self.order_by("-made_at", "-pk")


class Merge(models.Model):
    """Two records that became one: ``kept`` stays, ``gone`` is deleted.

    ``sort`` is the kind of record; ``moved`` lists what named the one and now names the other, as model, number,
    column, value before and value after; ``filled`` what the kept record took over, by column: before and after.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="merges")
    sort = models.CharField(max_length=20)
    kept = line(LONG_LINE)
    gone = line(LONG_LINE)
    kept_name = line(LONG_LINE)
    gone_name = line(LONG_LINE)
    moved = models.JSONField(default=list)
    filled = models.JSONField(default=dict)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    undone_at = models.DateTimeField(null=True, blank=True)

    objects = MergeQuerySet.as_manager()

    def __str__(self) -> str:
        return f"{self.gone_name} → {self.kept_name}"


class SetApart(models.Model):
    """Two records that look alike and are not one; ``one`` and ``other`` are their keys in this order."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="set_apart")
    sort = models.CharField(max_length=20)
    one = line(LONG_LINE)
    other = line(LONG_LINE)

    objects = TenantQuerySet["SetApart"].as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["composer", "sort", "one", "other"], name="set_apart_once")]

    def __str__(self) -> str:
        return f"{self.one} ≠ {self.other}"
