"""How a guarded record is saved: checked, counted and dated, and never over somebody else's later save."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from functools import cache
from typing import Any, TypeVar

from django.db import models, transaction
from django.db.models import F

from catalogue.models.records import Guarded

M = TypeVar("M", bound=models.Model)

OUT_OF_THE_WAY = 10_000  # added to the numbers of rows while they change places; no work has so many movements


class Overtaken(ValueError):
    """Somebody saved the record after it was read; ``latest`` is the record as it stands."""

    def __init__(self, latest: Guarded) -> None:
        self.latest = latest
        self.reason = f"Somebody has saved “{latest}” since you opened it; nothing of yours has been saved yet."
        super().__init__(self.reason)


def refuse_overtaken(record: Guarded, latest: Guarded | None) -> None:
    if latest is not None and latest.saves != record.saves:
        raise Overtaken(latest)


def check(record: models.Model) -> None:
    """Raise ValidationError where the record must not be stored, with a sentence at its column.

    The database's own constraints are not asked beforehand, one query each: what they hold, the columns and ``clean``
    have explained by then. Nor is it asked whether a record is there that is at hand, nor about what nobody types.
    """
    untyped, keys = left_out_of_checks(type(record))
    at_hand = {one.name for one in keys if one.is_cached(record)}
    record.full_clean(exclude=untyped | at_hand, validate_constraints=False)


@cache
def left_out_of_checks(model: type[models.Model]) -> tuple[frozenset[str], tuple[models.ForeignKey[Any, Any], ...]]:
    """Return the columns of a model that nobody types, and those that name another record."""
    columns = model._meta.concrete_fields
    keys = tuple(one for one in columns if isinstance(one, models.ForeignKey))
    return frozenset(one.name for one in columns if not one.editable), keys


def store(record: Guarded, now: datetime) -> None:
    """Check, count, date and save."""
    check(record)
    record.saves += 1
    record.changed_at = now
    record.save()


def latest_of(record: M) -> M | None:
    """Return the record as it is stored, its row locked until the transaction ends."""
    model = type(record)
    return model._base_manager.select_for_update().filter(pk=record.pk).first() if record.pk else None


def read_again(record: models.Model) -> None:
    """Read a record as it is stored now, its row locked until the transaction ends.

    For a change that nobody typed over what there was: what others have saved meanwhile stays.
    """
    record.refresh_from_db(from_queryset=type(record)._base_manager.select_for_update())


@transaction.atomic
def set_rows(*, existing: models.QuerySet[M], rows: Sequence[M], number: str | None) -> bool:
    """Make these rows the ones that exist, numbered from 1 in this order; say whether anything has changed.

    Rows that are the same are not written, so that their history holds changes only.
    """
    before = {row.pk: row for row in existing}
    for position, row in enumerate(rows, start=1):
        if number is not None:
            setattr(row, number, position)
    changed = [row for row in rows if row.pk not in before or differs(row, before[row.pk], typed_columns(row))]
    gone = [row for pk, row in before.items() if pk not in {row.pk for row in rows}]
    for row in gone:
        row.delete()
    if number is not None:
        existing.filter(pk__in=[row.pk for row in changed if row.pk]).update(**{number: F(number) + OUT_OF_THE_WAY})
    for row in changed:
        check(row)
        if isinstance(row, Guarded):
            row.saves += 1
        row.save()
    return bool(gone or changed)


def typed_columns(row: models.Model) -> tuple[str, ...]:
    return tuple(field.attname for field in row._meta.concrete_fields if field.editable)


def differs(row: models.Model, stored: models.Model, columns: Iterable[str]) -> bool:
    return any(getattr(row, column) != getattr(stored, column) for column in columns)
