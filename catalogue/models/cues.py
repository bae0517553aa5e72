"""Cues: what happens at a place of a work, for those who play the electronics and those who wait for them."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import lasts
from catalogue.models.fields import LONG_LINE, DurationField, line
from catalogue.models.records import Record
from catalogue.models.works import Work, WorkPartQuerySet


class Cue(Record):
    """One cue. ``place`` is a bar and beat or a time as they were typed, empty for what is done before the beginning.

    ``media`` names a file, or says live, fade, off; ``length`` is how long that lasts. ``who`` acts.
    """

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="cues")
    order = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1)])
    number = line(10, blank=False)
    place = line(40)
    action = line(LONG_LINE, blank=False)
    media = line()
    length = DurationField()
    who = line(60)
    notes = line(LONG_LINE)

    objects = WorkPartQuerySet["Cue"].as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["work", "order"],
                name="cue_order_once",
                violation_error_message="Another cue has this place in the list.",
            ),
            models.CheckConstraint(condition=Q(order__gte=1), name="cue_order_from_one"),
            models.CheckConstraint(condition=~Q(number=""), name="cue_has_number"),
            lasts("cue", "length"),
        ]

    def __str__(self) -> str:
        return f"{self.number}. {self.action}"
