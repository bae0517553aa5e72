"""Files that the catalogue keeps: scores, parts, recordings, what electronics are played from."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import models

from catalogue.models.conditions import choices_of, filled, known
from catalogue.models.editions import Edition
from catalogue.models.fields import LONG_LINE, SearchTextField, line
from catalogue.models.kept import KeptOfComposer
from catalogue.models.recordings import Recording
from catalogue.models.technical import TechnicalSetup
from catalogue.models.works import Work
from catalogue.terms import FileKind

PARTS_OF_WORKS = ("edition", "recording", "setup")


class StoredFile(KeptOfComposer):
    """A file, kept under the SHA-256 of its content, which never changes; another state of it is another file.

    ``suffix`` says what it is by its content, ``original_name`` what it was called when it came, ``found`` what was
    read in it then. Through an edition, a recording or a setup it belongs to the work of that.
    """

    kind = models.CharField(max_length=20, choices=choices_of(FileKind), default=FileKind.SCORE.value)
    name = line()
    version = line(50)
    work = models.ForeignKey(Work, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    edition = models.ForeignKey(Edition, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    recording = models.ForeignKey(Recording, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    setup = models.ForeignKey(TechnicalSetup, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    original_name = line(LONG_LINE, blank=False, editable=False)
    sha256 = models.CharField(max_length=64, editable=False)
    suffix = models.CharField(max_length=5, editable=False)
    byte_count = models.PositiveBigIntegerField(editable=False)
    found = models.JSONField(default=dict, editable=False)
    search_text = SearchTextField(of=("name", "original_name", "version", "notes"))

    class Meta:
        constraints = [
            known("stored_file", "kind", FileKind),
            filled("stored_file", "original_name"),
            models.CheckConstraint(condition=models.Q(byte_count__gte=1), name="stored_file_is_kept"),
        ]

    def __str__(self) -> str:
        return self.name or self.original_name

    def clean(self) -> None:
        super().clean()
        for column in PARTS_OF_WORKS:
            named = getattr(self, column) if getattr(self, f"{column}_id") is not None else None
            if named is not None and named.work_id != self.work_id:
                raise ValidationError({column: f"“{named}” is of another work; choose its work, or none of these."})
