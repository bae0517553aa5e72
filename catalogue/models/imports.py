"""Imports: a table that was brought in, how it is read, what it made and changed, and the way back."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Self

from django.conf import settings
from django.core.serializers.json import DjangoJSONEncoder
from django.db import models

from catalogue.models.conditions import choices_of, known
from catalogue.models.fields import LONG_LINE, line
from catalogue.models.people import Composer
from catalogue.models.records import TenantQuerySet


class ImportSource(StrEnum):
    """Where the records of an import come from; those of a tour are typed, and kept at once."""

    FILE = "file"
    PASTED = "pasted"
    TYPED = "typed"


class ImportState(StrEnum):
    """An import is read and looked over, then kept, and may be undone."""

    READ = "read"
    KEPT = "kept"
    UNDONE = "undone"


class ImportBatchQuerySet(TenantQuerySet["ImportBatch"]):
    def latest_first(self) -> Self:
        return self.order_by("-made_at", "-pk").defer("content", "reading", "report")

    def abandoned(self, before: datetime) -> Self:
        """Return the imports that were read before a moment and never kept."""
        return self.filter(state=ImportState.READ, made_at__lt=before)


class ImportBatch(models.Model):
    """One table that was brought in.

    ``content`` is the file, or what was read from a pasted text, until the import is kept; ``reading`` how it is to be
    read, ``report`` what became, or would become, of each row: both as plain JSON.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="imports")
    name = line()
    source = models.CharField(max_length=10, choices=choices_of(ImportSource), default=ImportSource.FILE.value)
    state = models.CharField(max_length=10, choices=choices_of(ImportState), default=ImportState.READ.value)
    content = models.BinaryField(default=bytes)
    reading = models.JSONField(default=dict)
    report = models.JSONField(default=dict)
    made_at = models.DateTimeField()
    made_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.SET_NULL, null=True, blank=True, related_name="+"
    )
    kept_at = models.DateTimeField(null=True, blank=True)
    undone_at = models.DateTimeField(null=True, blank=True)

    objects = ImportBatchQuerySet.as_manager()

    class Meta:
        indexes = [models.Index(fields=["composer", "-made_at"], name="import_latest_first")]
        constraints = [known("import", "source", ImportSource), known("import", "state", ImportState)]

    def __str__(self) -> str:
        return self.name


class ImportedRecordQuerySet(TenantQuerySet["ImportedRecord"]):
    memberships_path = "batch__composer__memberships"


class ImportedRecord(models.Model):
    """A record that an import made (``before`` is null) or changed, as it was and as it was left.

    ``sort`` is the kind of record, ``record`` its number, ``row`` the first row that speaks of it, 0 where none does;
    ``hindrance`` says why it was not undone.
    """

    batch = models.ForeignKey(ImportBatch, on_delete=models.CASCADE, related_name="records")
    sort = models.CharField(max_length=20)
    record = models.BigIntegerField()
    row = models.PositiveIntegerField(default=0)
    label = line(LONG_LINE)
    before = models.JSONField(null=True, encoder=DjangoJSONEncoder)
    after = models.JSONField(encoder=DjangoJSONEncoder)
    is_undone = models.BooleanField(default=False)
    hindrance = line(LONG_LINE)

    objects = ImportedRecordQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["batch", "sort", "record"], name="imported_record_once")]

    def __str__(self) -> str:
        return self.label
