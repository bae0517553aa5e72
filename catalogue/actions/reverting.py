"""Brings back what a record held before: a field, or all of it; a list of rows inside it, or one row."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from django.db import models, transaction

from catalogue.actions.composers import save_composer
from catalogue.actions.deletion import restore_record
from catalogue.actions.performances import restore_performance, save_performance, save_venue
from catalogue.actions.saving import check, store
from catalogue.actions.works import restore_work, save_work
from catalogue.gathering.row_lists import RowList
from catalogue.models import Composer, Performance, ProgrammedWork, Venue, Work
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


@transaction.atomic
def bring_rows_back(*, record: Any, rows: RowList, states: Sequence[Any], now: datetime) -> None:
    """Make a list inside a record what it was, ``states`` being lines of its history. Raises ValidationError.

    Works of a programme that have been deleted meanwhile stay in it, out of sight, to come back with the work.
    """
    target = [as_row(state, rows, record) for state in states]
    keys = {row.pk for row in target}
    unseen = [row for row in rows.stored(record) if row.pk not in keys and is_out_of_sight(row)]
    save_as_its_kind(record, now, **{rows.word: [*target, *unseen]})


@transaction.atomic
def bring_row_back(*, record: Any, rows: RowList, state: Any, among: Sequence[Any], now: datetime) -> None:
    """Put one row as it was into a list inside a record, at the place that it had. Raises ValidationError.

    ``among`` is the whole list as it was. A row that was changed since is changed back; one that holds now what another
    held then has only moved up, and stays.
    """
    stored, row = rows.stored(record), as_row(state, rows, record)
    then = [rows.held(one) for one in among]
    moved = next((one for one in stored if one.pk == row.pk and rows.held(one) in then), None)
    if moved is not None:
        row.pk, row._state.adding = None, True
    others = [one for one in stored if one.pk != row.pk]
    place = getattr(state, rows.number) - 1 if rows.number else len(others)
    save_as_its_kind(record, now, **{rows.word: [*others[:place], row, *others[place:]]})


def as_row(state: Any, rows: RowList, record: models.Model) -> Any:
    """Return a row as it was, with its old key, so that its history goes on; whom it names and is gone is left out."""
    row = state.instance
    latest: Any = rows.model._base_manager.filter(pk=row.pk).first()
    if latest is not None and getattr(latest, f"{rows.owner}_id") != record.pk:
        row.pk, latest = None, None
    row._state.adding = latest is None
    if isinstance(latest, Guarded):
        row.saves = latest.saves
    for column in row._meta.concrete_fields:
        if isinstance(column, models.ForeignKey) and column.null and is_gone(column, row):
            setattr(row, column.name, None)
    return row


def is_gone(column: Any, row: models.Model) -> bool:
    key = getattr(row, column.attname)
    return key is not None and not column.related_model._base_manager.filter(pk=key).exists()


def is_out_of_sight(row: models.Model) -> bool:
    return isinstance(row, ProgrammedWork) and row.work.deleted_at is not None


def save_as_its_kind(record: Any, now: datetime, **lists: Any) -> None:
    """Save a record with all that is reckoned from it; ``lists`` are the rows inside it that are to be replaced."""
    if isinstance(record, Work):
        save_work(work=record, now=now, **lists)
    elif isinstance(record, Performance):
        save_performance(performance=record, now=now, **lists)
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
