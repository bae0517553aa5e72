"""Takes back what an import has made and changed, record by record, where nobody has edited it since."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterable
from datetime import datetime
from typing import Any, cast

from django.contrib.auth.models import AbstractBaseUser, User
from django.core.exceptions import ValidationError
from django.db import models, transaction

from catalogue.actions.deletion import delete_record
from catalogue.actions.performances import delete_performance, save_performance, save_venue
from catalogue.actions.works import delete_work, save_work
from catalogue.gathering.states import (
    MODELS,
    PARTS,
    Part,
    Sort,
    State,
    agrees,
    columns_written,
    living_rows,
    states_of,
    value_of,
)
from catalogue.models import (
    Commission,
    Composer,
    ImportBatch,
    ImportedRecord,
    ImportState,
    Movement,
    Performance,
    PerformanceCredit,
    ProgrammedWork,
    Venue,
    Work,
)

ORDER = (Sort.PERFORMANCE, Sort.WORK, Sort.VENUE)  # what names another goes before it
AT_ONCE = 200

EDITED = "It has been edited since."
DELETED = "It has been deleted since."
PLAYED = "It stands on the programme of a performance."
CLOSED = "You may no longer change its catalogue."
USED = "A performance takes place there."


def undo_import(*, batch: ImportBatch, by: AbstractBaseUser | None, now: datetime) -> Generator[int, None, None]:
    """Undo an import in one transaction, giving the number of records done; what cannot be undone says why.

    Records that were made are deleted, with the usual way back; those that were changed become what they were.
    """
    number = 0
    with transaction.atomic():
        ImportBatch.objects.select_for_update().get(pk=batch.pk)
        for sort in ORDER:
            rest = batch.records.filter(sort=sort.value, is_undone=False).order_by("-record")
            for some in in_parts(list(rest)):
                undo_records(sort, some, batch, by, now)
                number += len(some)
                yield number
        batch.state, batch.undone_at = ImportState.UNDONE.value, now
        batch.save(update_fields=["state", "undone_at"])


def in_parts(records: list[ImportedRecord]) -> Iterable[list[ImportedRecord]]:
    return (records[start : start + AT_ONCE] for start in range(0, len(records), AT_ONCE))


def undo_records(
    sort: Sort, records: list[ImportedRecord], batch: ImportBatch, by: AbstractBaseUser | None, now: datetime
) -> None:
    composers = catalogues_of(batch, by)
    present = states_of(*composers, only=[(sort, one.record) for one in records])
    elsewhere = MODELS[sort]._base_manager.filter(pk__in=[one.record for one in records])
    closed = set(elsewhere.exclude(composer__in=composers).values_list("pk", flat=True))
    for one in records:
        one.hindrance = CLOSED if one.record in closed else hindrance_to(one, present.get((sort, one.record)))
        if not one.hindrance:
            one.hindrance = undo_record(sort, one, by, now)
        one.is_undone = not one.hindrance
    ImportedRecord.objects.bulk_update(records, ["is_undone", "hindrance"])


def catalogues_of(batch: ImportBatch, by: AbstractBaseUser | None) -> list[Composer]:
    """Return the catalogue of an import, and the others it reached, as far as ``by`` may still change them."""
    others = Composer.objects.filter(pk__in=batch.report.get("catalogues", [])).exclude(pk=batch.composer_id)
    return [batch.composer, *(others.editable_by(cast(User, by)) if by is not None else ())]


def hindrance_to(one: ImportedRecord, present: State | None) -> str:
    """Return why a record cannot be what it was, nothing where it can."""
    if present is None:
        return "" if one.before is None else DELETED
    return "" if agrees(present, one.after) else EDITED


def undo_record(sort: Sort, one: ImportedRecord, by: AbstractBaseUser | None, now: datetime) -> str:
    """Delete or change back one record; return what hindered it."""
    record = MODELS[sort]._base_manager.filter(pk=one.record, deleted_at__isnull=True).first()
    if record is None:
        return ""
    try:
        with transaction.atomic():
            if one.before is None:
                return REMOVE[sort](record, by, now)
            restore(sort, record, one.before, now)
    except ValidationError as refused:
        return " ".join(refused.messages)[:500]
    return ""


# ---- what was made is deleted


def remove_work(work: Any, by: AbstractBaseUser | None, now: datetime) -> str:
    living = Performance.objects.filter(pk__in=ProgrammedWork.objects.filter(work=work).values("performance"))
    if living.exists():
        return PLAYED
    delete_work(work=work, by=by, now=now)
    return ""


def remove_performance(performance: Any, by: AbstractBaseUser | None, now: datetime) -> str:
    delete_performance(performance=performance, by=by, now=now)
    return ""


def remove_venue(venue: Any, by: AbstractBaseUser | None, now: datetime) -> str:
    if Performance.objects.filter(venue=venue).exists():
        return USED
    delete_record(record=venue, by=by, now=now)
    return ""


REMOVE: dict[Sort, Callable[[Any, AbstractBaseUser | None, datetime], str]] = {
    Sort.WORK: remove_work,
    Sort.PERFORMANCE: remove_performance,
    Sort.VENUE: remove_venue,
}


# ---- what was changed becomes what it was


def restore(sort: Sort, record: models.Model, before: State, now: datetime) -> None:
    """Give a record its former columns and parts."""
    set_columns(record, before)
    rows = {part.name: former_rows(part, record, before[part.name]) for part in PARTS[sort]}
    if sort is Sort.WORK:
        movements = cast("list[Movement]", rows["movements"])
        save_work(
            work=cast(Work, record), now=now, movements=movements,
            commissions=cast("list[Commission]", rows["commissions"]),
        )  # fmt: skip
    elif sort is Sort.PERFORMANCE:
        programme = cast("list[ProgrammedWork]", rows["programme"])
        save_performance(
            performance=cast(Performance, record), now=now, programme=programme,
            credits=cast("list[PerformanceCredit]", rows["credits"]),
        )  # fmt: skip
    else:
        save_venue(venue=cast(Venue, record), now=now)


def set_columns(record: models.Model, state: State) -> None:
    """Give a record its former columns; one that the program did not have then stays as it is."""
    for column in columns_written(type(record)):
        if column.attname in state:
            setattr(record, column.attname, value_of(column, state[column.attname]))


def former_rows(part: Part, record: models.Model, states: list[State]) -> list[models.Model]:
    """Return the rows of a part as they were; one that is still there keeps its history."""
    there = {row.pk: row for row in living_rows(part.model).filter(**{part.owner: record.pk})}
    rows = []
    for state in states:
        row = there.get(state["pk"]) or part.model()
        set_columns(row, state)
        rows.append(row)
    return rows
