"""Adding many new performances at once, with their programmes and performers: a few queries for hundreds of them.

What is stored is what ``save_performance`` stores of each, its history included.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, TypeVar

from django.db import connection, models, transaction

from catalogue.actions.performances import reckon_days
from catalogue.actions.saving import check
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork

AT_ONCE = 200  # records in one statement
M = TypeVar("M", bound=models.Model)
Part = TypeVar("Part", ProgrammedWork, PerformanceCredit)


@dataclass(frozen=True, slots=True)
class Addition:
    """A performance that is not stored yet, with the works and the performers in their order."""

    performance: Performance
    programme: Sequence[ProgrammedWork]
    credits: Sequence[PerformanceCredit]


def prepared(
    *,
    performance: Performance,
    programme: Sequence[ProgrammedWork],
    credits: Sequence[PerformanceCredit],
    now: datetime,
) -> Addition:
    """Return a new performance reckoned, counted, dated and checked. Raises ValidationError."""
    reckon_days(performance)
    performance.saves, performance.changed_at = 1, now
    check(performance)
    for parts in (numbered(programme, performance), numbered(credits, performance)):
        for part in parts:
            check(part)
    return Addition(performance, programme, credits)


def numbered(parts: Sequence[Part], performance: Performance) -> Sequence[Part]:
    """Say which performance the parts belong to, and number them in their order."""
    for position, part in enumerate(parts, start=1):
        part.performance, part.order = performance, position
    return parts


@transaction.atomic
def add_performances(additions: Sequence[Addition], now: datetime) -> None:
    """Store new performances that have been prepared; their numbers are known afterwards."""
    add(Performance, [one.performance for one in additions], now)
    # Numbered once more: only now do the parts learn the number of their performance.
    add(ProgrammedWork, [part for one in additions for part in numbered(one.programme, one.performance)], now)
    add(PerformanceCredit, [part for one in additions for part in numbered(one.credits, one.performance)], now)


def add(model: type[M], records: list[M], now: datetime) -> None:
    """Store new records, and of each the first line of its history."""
    model._default_manager.bulk_create(records, batch_size=AT_ONCE)
    for start in range(0, len(records), AT_ONCE):
        begin_history(model, [record.pk for record in records[start : start + AT_ONCE]], now)


def begin_history(model: type[M], numbers: list[Any], now: datetime) -> None:
    """Write the first line of the history of records just stored, copied from their table within the database."""
    lines: Any = model.history.model  # type: ignore[attr-defined]
    by = lines.get_default_history_user(None)
    columns = ", ".join(quoted(column.column) for column in lines.tracked_fields)
    told = {"history_date": now, "history_type": "+", "history_user_id": by.pk if by else None}
    copying = (
        f"INSERT INTO {quoted(lines._meta.db_table)} ({columns}, {', '.join(map(quoted, told))}) "  # noqa: S608 - names of ours
        f"SELECT {columns}, {places(told)} FROM {quoted(model._meta.db_table)} "
        f"WHERE {quoted(str(model._meta.pk.column))} IN ({places(numbers)})"
    )
    with connection.cursor() as cursor:
        cursor.execute(copying, [*told.values(), *numbers])


def places(values: Collection[object]) -> str:
    return ", ".join(["%s"] * len(values))


def quoted(name: str) -> str:
    return str(connection.ops.quote_name(name))
