"""Pictures of the catalogue; each says in words what it shows."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from catalogue.models.conditions import choices_of, filled, known
from catalogue.models.fields import LONG_LINE, PartialDateField, SearchTextField, line
from catalogue.models.kept import KeptOfComposer
from catalogue.models.people import Person
from catalogue.models.performances import Performance
from catalogue.models.works import Work
from catalogue.terms import Permission, PictureKind

SUFFIXES = ("png", "jpg", "webp")


class Picture(KeptOfComposer):
    """A picture, kept under the SHA-256 of its content; ``alternative`` says what it shows to who cannot see it."""

    kind = models.CharField(max_length=20, choices=choices_of(PictureKind), default=PictureKind.PORTRAIT.value)
    alternative = line(LONG_LINE, blank=False)
    caption = line(LONG_LINE)
    credit = line()
    taken = PartialDateField()
    permission = models.CharField(max_length=20, choices=choices_of(Permission), default=Permission.NOT_ASKED.value)
    work = models.ForeignKey(Work, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    performance = models.ForeignKey(Performance, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    person = models.ForeignKey(Person, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    sha256 = models.CharField(max_length=64, editable=False)
    suffix = models.CharField(max_length=5, editable=False)
    width = models.PositiveIntegerField(editable=False)
    height = models.PositiveIntegerField(editable=False)
    byte_count = models.PositiveIntegerField(editable=False)
    search_text = SearchTextField(of=("alternative", "caption", "credit", "notes"))

    class Meta:
        constraints = [
            known("picture", "kind", PictureKind),
            known("picture", "permission", Permission),
            filled("picture", "alternative"),
            models.CheckConstraint(
                condition=Q(suffix__in=SUFFIXES, width__gte=1, height__gte=1, byte_count__gte=1),
                name="picture_is_kept",
            ),
        ]

    def __str__(self) -> str:
        return self.caption or self.alternative
