"""Recordings of works: releases as they are cited, and those that a composer keeps and sends."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import F, Q

from catalogue.models.conditions import between, choices_of, known, lasts
from catalogue.models.fields import IDENTIFIER, LONG_LINE, DurationField, PartialDateField, SearchTextField, line, mark
from catalogue.models.kept import KeptOfWork
from catalogue.models.performances import Performance
from catalogue.models.works import Work
from catalogue.terms import Permission, RecordingForm, RecordingKind


class Recording(KeptOfWork):
    """A recording: who plays, how it came about, in what form it is there, and with whom it may be shared.

    ``excerpt_from`` and ``excerpt_until`` are seconds from its beginning: the part to be played to a jury.
    ``file_name`` says where the composer keeps it. ``quality`` is the composer's own mark, for choosing what to send.
    """

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="recordings")
    kind = models.CharField(max_length=20, choices=choices_of(RecordingKind), default=RecordingKind.STUDIO.value)
    form = models.CharField(max_length=20, choices=choices_of(RecordingForm), default=RecordingForm.RELEASE.value)
    performers = line(LONG_LINE)
    title = line(LONG_LINE)
    label = line()
    number = line(50)
    released = PartialDateField()
    duration = DurationField()
    recorded = PartialDateField()
    place = line()
    performance = models.ForeignKey(Performance, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    isrc = line(IDENTIFIER)
    ean = line(IDENTIFIER)
    address = models.URLField(max_length=500, blank=True, default="")
    file_name = line(LONG_LINE)
    excerpt_from = models.PositiveIntegerField(null=True, blank=True)
    excerpt_until = models.PositiveIntegerField(null=True, blank=True)
    permission = models.CharField(max_length=20, choices=choices_of(Permission), default=Permission.NOT_ASKED.value)
    permission_note = line(LONG_LINE)
    quality = mark()
    search_text = SearchTextField(of=("performers", "title", "label", "number", "place", "file_name", "notes"))

    class Meta:
        constraints = [
            between("recording", "quality", 1, 5),
            lasts("recording"),
            known("recording", "kind", RecordingKind),
            known("recording", "form", RecordingForm),
            known("recording", "permission", Permission),
            models.CheckConstraint(
                condition=Q(excerpt_from__isnull=True)
                | Q(excerpt_until__isnull=True)
                | Q(excerpt_from__lt=F("excerpt_until")),
                name="recording_excerpt_in_order",
            ),
        ]

    def __str__(self) -> str:
        named = (self.performers, self.title, self.label, self.number)
        return ", ".join(part for part in named if part) or "Recording"

    def clean(self) -> None:
        super().clean()
        begins, ends = self.excerpt_from, self.excerpt_until
        if begins is not None and ends is not None and ends <= begins:
            raise ValidationError({"excerpt_until": "The excerpt has to end after it begins."})
