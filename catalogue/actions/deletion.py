"""Deleting without losing: a record is marked, and can be brought back."""

from __future__ import annotations

from datetime import datetime
from typing import cast

from django.contrib.auth.models import AbstractBaseUser, User
from django.db import transaction

from catalogue.actions.saving import check, read_again
from catalogue.models.records import Deletable, Guarded


@transaction.atomic
def delete_record(*, record: Deletable, by: AbstractBaseUser | None, now: datetime) -> None:
    """Mark a record as deleted; what names it goes on naming it. Deleting twice keeps the first date."""
    read_again(record)
    if record.deleted_at is None:
        record.deleted_at, record.deleted_by = now, cast("User | None", by)
        mark_changed(record, now)
        record.save()


@transaction.atomic
def restore_record(*, record: Deletable, now: datetime) -> None:
    """Bring a deleted record back; ValidationError where a newer one has taken its place."""
    read_again(record)
    if record.deleted_at is not None:
        record.deleted_at = record.deleted_by = None
        check(record)
        mark_changed(record, now)
        record.save()


def mark_changed(record: Deletable, now: datetime) -> None:
    """Count and date the change, so that a form opened before it is overtaken."""
    if isinstance(record, Guarded):
        record.saves += 1
        record.changed_at = now
