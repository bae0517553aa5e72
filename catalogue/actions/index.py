"""Rebuilding what is derived from the records: search text, instruments, days and moments of performances."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from django.db import models, transaction

from catalogue.actions.forces import forces_of, rows_of
from catalogue.actions.performances import reckon_days
from catalogue.actions.works import index_work
from catalogue.gathering import reading_of
from catalogue.gathering.checks import AT_ONCE, Finding, Kind, name_of, records_of_the_catalogue
from catalogue.gathering.kept_counts import let_go
from catalogue.models import InstrumentationLine, Performance, Work
from catalogue.models.fields import SearchTextField

RECKONED: dict[type[models.Model], tuple[str, ...]] = {
    Work: ("least_players", "most_players", "electronics"),
    Performance: ("first_day", "last_day", "starts_at"),
}
ALONG: dict[type[models.Model], str] = {Work: "instrumentation_lines", Performance: "venue"}
OF_LINE = ("instrument", "family", "role", "least_players", "most_players", "is_doubling")


@dataclass(frozen=True, slots=True)
class Reindexed:
    """How many records were looked at, and how many had to be put right."""

    records: int
    mended: int


@transaction.atomic
def reindex(*, after_each: Callable[[], None] = lambda: None) -> Reindexed:
    """Rebuild every derived column and row, of deleted records too. History and dates of change stay as they are."""
    records = mended = 0
    for record in derived_records():
        stale = stale_columns(record)
        mend(record, stale)
        records, mended = records + 1, mended + bool(stale)
        after_each()
    if mended:
        transaction.on_commit(let_go)
    return Reindexed(records, mended)


def find_stale() -> Iterator[Finding]:
    """Tell the records whose derived columns or rows are not what the record says."""
    for record in derived_records():
        stale = stale_columns(record)
        if stale:
            reason = "This was not rebuilt when the record changed; run “reindex”."
            yield Finding(Kind.STALE, name_of(record), record.pk, str(record), ", ".join(stale), "", reason)


def count_derived() -> int:
    """Return how many records have something that is derived."""
    return sum(model._base_manager.count() for model in records_of_the_catalogue() if derived_columns(model))


def derived_records() -> Iterator[models.Model]:
    for model in records_of_the_catalogue():
        if derived_columns(model):
            along = [ALONG[model]] if model in ALONG else []
            yield from model._base_manager.order_by("pk").prefetch_related(*along).iterator(AT_ONCE)


def derived_columns(model: type[models.Model]) -> tuple[str, ...]:
    """Return the names of the columns that are reckoned from the others."""
    search = tuple(field.attname for field in model._meta.concrete_fields if isinstance(field, SearchTextField))
    return search + RECKONED.get(model, ())


def stale_columns(record: models.Model) -> tuple[str, ...]:
    """Reckon the record's derived columns anew, in memory, and name what was wrong, the rows of a work included."""
    columns = derived_columns(type(record))
    before = {name: getattr(record, name) for name in columns}
    reckon(record)
    stale = tuple(name for name in columns if getattr(record, name) != before[name])
    return stale if rows_are_right(record) else (*stale, "instrumentation_lines")


def reckon(record: models.Model) -> None:
    for field in record._meta.concrete_fields:
        if isinstance(field, SearchTextField):
            field.pre_save(record, add=False)
    if isinstance(record, Work):
        record.least_players, record.most_players, record.electronics = forces_of(reading_of(record.instrumentation))
    if isinstance(record, Performance):
        reckon_days(record)


def rows_are_right(record: models.Model) -> bool:
    if not isinstance(record, Work):
        return True
    stored: list[InstrumentationLine] = sorted(record.instrumentation_lines.all(), key=lambda row: row.pk)
    reckoned = rows_of(reading_of(record.instrumentation))
    return [{name: getattr(row, name) for name in OF_LINE} for row in stored] == reckoned


def mend(record: models.Model, stale: tuple[str, ...]) -> None:
    """Write the reckoned columns and rows; ``update`` passes the history by, since the record itself is unchanged.

    Its newest line alone tells them as they are now: counts are brought forward from it.
    """
    columns = {name: getattr(record, name) for name in stale if name in derived_columns(type(record))}
    if columns:
        type(record)._base_manager.filter(pk=record.pk).update(**columns)
        if hasattr(record, "history"):
            tell_newest_line(record, columns)
    if isinstance(record, Work) and "instrumentation_lines" in stale:
        index_work(work=record)


def tell_newest_line(record: Any, columns: dict[str, Any]) -> None:
    lines = record.history
    newest = lines.order_by("-history_id").values_list("history_id", flat=True).first()
    if newest is not None:
        lines.filter(history_id=newest).update(**columns)
