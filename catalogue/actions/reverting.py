"""Brings back what a record held before: a field, or all of it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import Any

from django.db import models, transaction

from catalogue.actions.composers import save_composer
from catalogue.actions.deletion import restore_record
from catalogue.actions.performances import restore_performance, save_performance, save_venue
from catalogue.actions.saving import check, store
from catalogue.actions.works import restore_work, save_work
from catalogue.models import Composer, Performance, Venue, Work
from catalogue.models.records import Deletable, Guarded

# what is read from a typed text and stored beside it comes back together with it
TOGETHER = (
    {"instrumentation", "instrumentation_typed"},
    {"duration", "duration_typed"},
    {"presenter_id", "presenter_name"},
    {"organisation_id", "person_id", "name"},
)


@transaction.atomic
def bring_back(*, record: Any, state: models.Model, columns: Iterable[str], now: datetime) -> None:
    """Give a record the columns that it had in a state of its history. Raises ValidationError."""
    for column in with_their_like(record, columns):
        setattr(record, column, getattr(state, column))
    save_as_its_kind(record, now)


def with_their_like(record: models.Model, columns: Iterable[str]) -> set[str]:
    """Return the columns with those that stand for the same thing.

    >>> sorted(with_their_like(Work(), ["duration_typed", "title"]))
    ['duration', 'duration_typed', 'title']
    """
    asked = set(columns)
    present = {field.attname for field in record._meta.concrete_fields}
    return asked | {name for group in TOGETHER if group <= present and group & asked for name in group}


def save_as_its_kind(record: Any, now: datetime) -> None:
    """Save a record with all that is reckoned from it."""
    if isinstance(record, Work):
        save_work(work=record, now=now)
    elif isinstance(record, Performance):
        save_performance(performance=record, now=now)
    elif isinstance(record, Venue):
        save_venue(venue=record, now=now)
    elif isinstance(record, Composer):
        save_composer(composer=record, now=now)
    elif isinstance(record, Guarded):
        store(record, now)
    else:
        check(record)
        record.save()


def restore(*, record: Deletable, now: datetime) -> None:
    """Bring a deleted record of any kind back. Raises ValidationError where that cannot be."""
    if isinstance(record, Work):
        restore_work(work=record, now=now)
    elif isinstance(record, Performance):
        restore_performance(performance=record, now=now)
    else:
        restore_record(record=record, now=now)
