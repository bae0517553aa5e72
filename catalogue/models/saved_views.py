"""A list as somebody likes to see it: what it is asked, in which order, with which columns, under a name."""

from __future__ import annotations

from typing import Self

from django.db import models

from catalogue.models.fields import line, refuse_unprintable
from catalogue.models.ordering import Folded
from catalogue.models.people import Composer
from catalogue.models.records import TenantQuerySet

LONGEST = 2000


class SavedViewQuerySet(TenantQuerySet["SavedView"]):
    def in_name_order(self) -> Self:
        return self.order_by(Folded("name"), "pk")


class SavedView(models.Model):
    """``table`` is the list it is of, ``query`` what its address asks for, without the page."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="saved_views")
    table = models.CharField(max_length=20)
    name = line(60, blank=False)
    query = models.CharField(max_length=LONGEST, blank=True, validators=[refuse_unprintable])

    objects = SavedViewQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["composer", "table", "name"], name="saved_view_name_once")]

    def __str__(self) -> str:
        return self.name
