"""Published recordings of works."""

from __future__ import annotations

from django.db import models

from catalogue.models.conditions import lasts
from catalogue.models.fields import LONG_LINE, DurationField, PartialDateField, line
from catalogue.models.records import Record
from catalogue.models.works import Work, WorkPartQuerySet


class Recording(Record):
    """A recording as it is cited: who plays, on which label, under which number; and how long it lasts."""

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="recordings")
    performers = line(LONG_LINE)
    label = line()
    number = line(50)
    released = PartialDateField()
    duration = DurationField()

    objects = WorkPartQuerySet["Recording"].as_manager()

    class Meta:
        constraints = [lasts("recording")]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.performers, self.label, self.number) if part)
