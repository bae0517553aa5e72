"""What the records around works have in common: an identity, a way back, a count of saves, one catalogue for all.

Some hang on a work, others on the catalogue itself; those of a work that has been deleted are out of sight with it.
"""

from __future__ import annotations

from typing import Any, Generic
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.db import models

from catalogue.models.fields import line, text
from catalogue.models.people import Composer, Organisation, Person
from catalogue.models.records import Deletable, Guarded, LivingManager, M, Record, SearchableQuerySet


class KeptQuerySet(SearchableQuerySet[M], Generic[M]):
    """Records of a catalogue."""


class KeptOfWorkQuerySet(SearchableQuerySet[M], Generic[M]):
    """Records of a work."""

    memberships_path = "work__composer__memberships"


class LivingOfWorkManager(LivingManager):
    """Leaves out what has been deleted, and what hangs on a work that has been."""

    def get_queryset(self) -> Any:
        return super().get_queryset().filter(work__deleted_at__isnull=True)


class KeptRecord(Record, Deletable, Guarded):
    """``uid`` is the identity that a form gives it, so that one sent twice makes one; ``notes`` are not printed."""

    uid = models.UUIDField(default=uuid4, unique=True, editable=False)
    notes = text()

    class Meta:
        abstract = True

    @property
    def catalogue_id(self) -> int | None:
        """The composer whose catalogue it stands in."""
        raise TypeError(f"{type(self).__name__} does not say whose it is.")

    def clean(self) -> None:
        for field in self._meta.concrete_fields:
            if field.is_relation and field.name not in {"composer", "deleted_by"}:
                self._refuse_record_of_another(field)

    def _refuse_record_of_another(self, field: Any) -> None:
        other = getattr(self, field.name) if getattr(self, field.attname) is not None else None
        if other is not None and whose(other) != self.catalogue_id:
            raise ValidationError({field.name: f"“{other}” stands in another composer’s catalogue."})


def whose(record: Any) -> int | None:
    """Return the composer in whose catalogue a record stands."""
    found: int | None = record.composer_id if hasattr(record, "composer_id") else record.catalogue_id
    return found


class KeptOfComposer(KeptRecord):
    """A record of the catalogue itself."""

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="+")

    objects = LivingManager.from_queryset(KeptQuerySet)()
    with_deleted = KeptQuerySet.as_manager()

    class Meta:
        abstract = True

    @property
    def catalogue_id(self) -> int | None:
        return self.composer_id


class KeptOfWork(KeptRecord):
    """A record of one work."""

    work = models.ForeignKey("catalogue.Work", on_delete=models.CASCADE, related_name="+")

    objects = LivingOfWorkManager.from_queryset(KeptOfWorkQuerySet)()
    with_deleted = KeptOfWorkQuerySet.as_manager()

    class Meta:
        abstract = True

    @property
    def catalogue_id(self) -> int | None:
        return self.work.composer_id if self.work_id is not None else None


class Somebody(models.Model):
    """A person or an organisation of the catalogue, or a name as it is to be printed, or both."""

    person = models.ForeignKey(Person, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    organisation = models.ForeignKey(Organisation, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    name = line()

    class Meta:
        abstract = True

    def clean(self) -> None:
        super().clean()
        if self.person is not None and self.organisation is not None:
            raise ValidationError({"organisation": "This is for a person or for an organisation; write one for each."})
        if not self.billed_name:
            raise ValidationError({"name": "Name a person or an organisation."})

    @property
    def billed_name(self) -> str:
        return self.name or str(self.person or self.organisation or "")
