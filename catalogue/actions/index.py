"""Rebuilding what is derived from the records: search text, instruments, days and moments of performances."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.apps import apps
from django.db import models, transaction

from catalogue.actions.forces import forces_of, rows_of
from catalogue.actions.performances import reckon_days
from catalogue.actions.works import index_work
from catalogue.gathering import reading_of
from catalogue.models import InstrumentationLine, Performance, Work
from catalogue.models.fields import SearchTextField

AT_ONCE = 500


@dataclass(frozen=True, slots=True)
class Reindexed:
    """How many records were looked at, and how many had to be put right."""

    records: int
    mended: int


@transaction.atomic
def reindex() -> Reindexed:
    """Rebuild every derived column and row, of deleted records too. History and dates of change stay as they are."""
    outcomes = [mend(record) for record in derived_records()]
    return Reindexed(records=len(outcomes), mended=sum(outcomes))


def derived_records() -> Iterator[models.Model]:
    for model in apps.get_app_config("catalogue").get_models():
        if derived_columns(model) and not hasattr(model, "history_id"):
            yield from model._base_manager.order_by("pk").iterator(AT_ONCE)


def derived_columns(model: type[models.Model]) -> tuple[str, ...]:
    """Return the names of the columns that are reckoned from the others."""
    own: dict[type[models.Model], tuple[str, ...]] = {
        Work: ("least_players", "most_players", "electronics"),
        Performance: ("first_day", "last_day", "starts_at"),
    }
    search = tuple(field.attname for field in model._meta.concrete_fields if isinstance(field, SearchTextField))
    return (*search, *own.get(model, ()))


def mend(record: models.Model) -> bool:
    """Reckon one record's derived columns and rows; say whether they were wrong."""
    columns = derived_columns(type(record))
    before = {name: getattr(record, name) for name in columns}
    reckon(record)
    after = {name: getattr(record, name) for name in columns}
    if after != before:
        type(record)._base_manager.filter(pk=record.pk).update(**after)
    return _mend_rows(record) or after != before


def reckon(record: models.Model) -> None:
    for field in record._meta.concrete_fields:
        if isinstance(field, SearchTextField):
            field.pre_save(record, add=False)
    if isinstance(record, Work):
        record.least_players, record.most_players, record.electronics = forces_of(reading_of(record.instrumentation))
    if isinstance(record, Performance):
        reckon_days(record)


def _mend_rows(record: models.Model) -> bool:
    if not isinstance(record, Work) or rows_are_right(record):
        return False
    index_work(work=record)
    return True


def rows_are_right(work: Work) -> bool:
    stored = InstrumentationLine.objects.filter(work=work).order_by("pk")
    columns = ("instrument", "family", "role", "least_players", "most_players", "is_doubling")
    return list(stored.values(*columns)) == rows_of(reading_of(work.instrumentation))
