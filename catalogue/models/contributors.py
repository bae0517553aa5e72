"""Who else made a work: librettist, arranger, co-composer, publisher, with role and share."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from catalogue.models.conditions import between, choices_of, known, names_somebody
from catalogue.models.fields import IDENTIFIER, SearchTextField, line
from catalogue.models.kept import KeptOfWork, Somebody
from catalogue.terms import ContributorRole


class Contributor(Somebody, KeptOfWork):
    """Somebody beside the composer. ``share`` is in per cent of the work, as agreed; ``society`` administers it."""

    role = models.CharField(max_length=30, choices=choices_of(ContributorRole), default=ContributorRole.OTHER.value)
    contribution = line()
    share = models.DecimalField(
        max_digits=6,
        decimal_places=3,
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(100)],
    )
    society = line()
    ipi = line(IDENTIFIER)
    isni = line(IDENTIFIER)
    position = models.PositiveSmallIntegerField(default=0)
    search_text = SearchTextField(of=("name", "contribution", "society", "notes"))

    class Meta:
        constraints = [
            known("contributor", "role", ContributorRole),
            between("contributor", "share", 0, 100),
            *names_somebody("contributor"),
        ]

    def __str__(self) -> str:
        return f"{self.billed_name} ({self.role})"
