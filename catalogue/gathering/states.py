"""How the records of a catalogue stand, as plain values: what an import changes is the difference of two states.

A state holds the columns that people write, as they are stored, and the same of the record's parts in their order.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

from django.db import models

from catalogue.models import (
    Commission,
    Composer,
    Movement,
    Performance,
    PerformanceCredit,
    ProgrammedWork,
    Venue,
    Work,
)
from catalogue.models.fields import ValueField
from catalogue.models.records import Deletable


class Sort(StrEnum):
    """The kinds of records that an import makes or changes."""

    WORK = "work"
    VENUE = "venue"
    PERFORMANCE = "performance"


MODELS: dict[Sort, type[models.Model]] = {Sort.WORK: Work, Sort.VENUE: Venue, Sort.PERFORMANCE: Performance}


@dataclass(frozen=True, slots=True)
class Part:
    """Rows that belong to a record: by what name, which they are, by which column, in which order."""

    name: str
    model: type[models.Model]
    owner: str
    order: str


PARTS: dict[Sort, tuple[Part, ...]] = {
    Sort.WORK: (Part("movements", Movement, "work_id", "number"), Part("commissions", Commission, "work_id", "pk")),
    Sort.VENUE: (),
    Sort.PERFORMANCE: (
        Part("programme", ProgrammedWork, "performance_id", "order"),
        Part("credits", PerformanceCredit, "performance_id", "order"),
    ),
}

AT_ONCE = 100  # rows that are asked of the database together
State = dict[str, Any]
Key = tuple[Sort, int]


def states_of(
    *composers: Composer, only: Iterable[Key] | None = None, newest: Mapping[Sort, int] | None = None
) -> dict[Key, State]:
    """Return the states of the composers' works, venues and performances that are not deleted; seven queries.

    ``only`` leaves out all others, ``newest`` (of each kind the key) those that were made later.
    """
    wanted = None if only is None else list(only)
    found: dict[Key, State] = {}
    for sort, model in MODELS.items():
        living = model._base_manager.filter(composer__in=composers, deleted_at__isnull=True)
        if newest is not None:
            living = living.filter(pk__lte=newest.get(sort, 0))
        keys = None if wanted is None else [key for of, key in wanted if of is sort]
        if keys is None:
            found |= states_of_sort(sort, living)
        elif keys:
            found |= states_of_sort(sort, living.filter(pk__in=keys))
    return found


def newest_in(states: Iterable[Key]) -> dict[Sort, int]:
    """Return of each kind the key of the record that was made last."""
    newest: dict[Sort, int] = {}
    for sort, key in states:
        newest[sort] = max(key, newest.get(sort, 0))
    return newest


def states_of_sort(sort: Sort, chosen: models.QuerySet[Any]) -> dict[Key, State]:
    found: dict[Key, State] = {(sort, record.pk): columns_of(record) for record in told_of(chosen)}
    for part in PARTS[sort]:
        for state in found.values():
            state[part.name] = []
        rows = living_rows(part.model).filter(**{f"{part.owner}__in": chosen.values("pk")})
        for row in told_of(rows.order_by(part.owner, part.order, "pk"), part.owner):
            found[sort, getattr(row, part.owner)][part.name].append({"pk": row.pk, **columns_of(row)})
    return found


def told_of(rows: models.QuerySet[Any], *more: str) -> Iterator[Any]:
    """Give rows one after another with the columns that people write, so that no more lies in memory than is kept."""
    model: type[models.Model] = rows.model
    names = (column.attname for column in columns_written(model))
    return rows.only("pk", *names, *more).iterator(AT_ONCE)


def living_rows(model: type[models.Model]) -> models.QuerySet[Any]:
    """Return the rows of a part that are not deleted, those of deleted records included."""
    rows = model._base_manager.all()
    return rows.filter(deleted_at__isnull=True) if issubclass(model, Deletable) else rows


@cache
def columns_written(model: type[models.Model]) -> tuple[models.Field[Any, Any], ...]:
    """Return the columns that people write, without those that say what a record belongs to."""
    owners = {"composer", *(part.owner.removesuffix("_id") for parts in PARTS.values() for part in parts)}
    own = {"work"} if model is ProgrammedWork else set()
    return tuple(
        column
        for column in model._meta.concrete_fields
        if column.editable and not column.primary_key and column.name not in owners - own
    )


def columns_of(record: models.Model) -> State:
    return {column.attname: stored_value(column, record) for column in columns_written(type(record))}


def agrees(present: Any, then: Any) -> bool:
    """Say whether a state is still what it was; columns that the program did not have then are not compared."""
    if isinstance(then, dict):
        return all(name in present and agrees(present[name], value) for name, value in then.items())
    if isinstance(then, list):
        return len(present) == len(then) and all(map(agrees, present, then))
    return bool(present == then)


def stored_value(column: models.Field[Any, Any], record: models.Model) -> Any:
    """Return a column as JSON holds it: numbers, truth and nothing as they are, all else as text."""
    value = column.value_from_object(record)
    if isinstance(column, ValueField):
        value = column.get_prep_value(value)
    return value if isinstance(value, bool | int | float | None) else str(value)


def value_of(column: models.Field[Any, Any], stored: Any) -> Any:
    """Undo :func:`stored_value`."""
    if isinstance(column, ValueField):
        return column.from_db_value(stored, None, None)
    target = getattr(column, "target_field", column)
    return target.to_python(stored)
