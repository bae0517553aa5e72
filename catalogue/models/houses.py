"""The houses under whose roof composers are kept: a publisher, a hire library, a department with its letterhead."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.db.models import Exists, OuterRef

from catalogue.models.conditions import choices_of, filled, ink, known, known_or_empty, refuse_pale_ink
from catalogue.models.fields import LONG_LINE, line
from catalogue.models.records import AnyUser, Contact, Guarded, Record, TenantQuerySet
from catalogue.terms import FaceFamily, HouseStyle, PaperMargins, Role


class Dressing(models.Model):
    """How papers look: a house style, and what is worn instead of what it has."""

    house_style = models.CharField(max_length=20, choices=choices_of(HouseStyle), default=HouseStyle.CLASSIC.value)
    paper_face = models.CharField(max_length=20, choices=choices_of(FaceFamily), blank=True, default="")
    paper_ink = line(7, validators=[refuse_pale_ink])
    paper_margins = models.CharField(max_length=20, choices=choices_of(PaperMargins), default=PaperMargins.USUAL.value)

    class Meta:
        abstract = True


def dressing_holds(table: str) -> list[models.CheckConstraint]:
    """Return what has to hold for each row with a dressing."""
    return [
        known(table, "house_style", HouseStyle),
        known_or_empty(table, "paper_face", FaceFamily),
        known(table, "paper_margins", PaperMargins),
        ink(table, "paper_ink"),
    ]


class HouseQuerySet(TenantQuerySet["House"]):
    memberships_path = "composers__memberships"

    def _of_members(self, user: AnyUser, roles: tuple[Role, ...]) -> Self:
        return super()._of_members(user, roles).distinct()

    def kept_by(self, user: AnyUser) -> Self:
        """Return the houses that the user may change: those of whose composers they own every one."""
        composers: Any = self.model._meta.get_field("composers").related_model
        owned = composers.objects.owned_by(user)
        others = composers.objects.filter(house=OuterRef("pk")).exclude(pk__in=owned.values("pk"))
        ours = owned.filter(house=OuterRef("pk"))
        return self.filter(Exists(ours), ~Exists(others))


class House(Record, Contact, Dressing, Guarded):
    """A letterhead and a look that the papers of several composers share; ``registration`` is told under the address.

    The logo is kept under its content, as pictures are: ``logo_sha256`` and ``logo_suffix`` name its file.
    """

    name = line(blank=False)
    registration = line(LONG_LINE)
    logo_sha256 = models.CharField(max_length=64, blank=True, default="", editable=False)
    logo_suffix = models.CharField(max_length=4, blank=True, default="", editable=False)
    logo_alternative = line()

    objects = HouseQuerySet.as_manager()

    class Meta:
        constraints = [*dressing_holds("house"), filled("house", "name")]

    def __str__(self) -> str:
        return self.name
