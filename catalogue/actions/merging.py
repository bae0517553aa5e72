"""Makes one record of two spellings of it: what named the one names the other, and there is a way back."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, cast

from django.contrib.auth.models import AbstractBaseUser, User
from django.core.exceptions import ValidationError
from django.db import models, transaction

from catalogue.actions.deletion import delete_record, restore_record
from catalogue.actions.performances import announce, save_venue
from catalogue.actions.saving import read_again, store
from catalogue.actions.works import save_work
from catalogue.gathering.likenesses import Alike
from catalogue.gathering.states import columns_written, stored_value, value_of
from catalogue.models import (
    Award,
    BilledName,
    Biography,
    Commission,
    Composer,
    ContactPerson,
    Contributor,
    Cue,
    Edition,
    Hire,
    LeadTimes,
    MaterialSet,
    Merge,
    Movement,
    NotationSign,
    Organisation,
    PercussionInstrument,
    Performance,
    PerformanceCredit,
    PerformanceNote,
    Person,
    Picture,
    ProgrammedWork,
    ProgrammeNote,
    Recording,
    Retuning,
    Review,
    Sending,
    SetApart,
    StoredFile,
    SubmittedWork,
    TextSource,
    TuningSystem,
    Venue,
    Work,
)
from catalogue.rules.refused import Refused

MODELS: dict[Alike, type[models.Model]] = {
    Alike.WORK: Work,
    Alike.VENUE: Venue,
    Alike.PERSON: Person,
    Alike.ORGANISATION: Organisation,
}
AROUND_A_WORK: tuple[type[models.Model], ...] = (
    Contributor, Edition, NotationSign, PercussionInstrument, PerformanceNote, Picture, ProgrammeNote, Recording,
    Retuning, Review, StoredFile, TextSource, TuningSystem, Award, MaterialSet, Hire, Sending,
)  # fmt: skip
# What names a record of each kind, and in which column.
NAMING: dict[Alike, tuple[tuple[type[models.Model], str], ...]] = {
    Alike.WORK: (
        (ProgrammedWork, "work_id"),
        (Work, "version_of_id"),
        (SubmittedWork, "work_id"),
        *((model, "work_id") for model in AROUND_A_WORK),
    ),
    Alike.VENUE: ((Performance, "venue_id"),),
    Alike.PERSON: (
        (PerformanceCredit, "person_id"),
        (Sending, "person_id"),
        *((model, "person_id") for model in (Contributor, Biography, BilledName, ContactPerson, Picture, Hire)),
    ),
    Alike.ORGANISATION: (
        (PerformanceCredit, "organisation_id"),
        (Performance, "presenter_id"),
        (Edition, "publisher_id"),
        (Award, "body_id"),
        (LeadTimes, "organisation_id"),
        *((model, "organisation_id") for model in (Commission, Contributor, BilledName, ContactPerson, Hire, Sending)),
    ),
    Alike.NAME: ((PerformanceCredit, "name"), (Performance, "presenter_name")),
}
MOVED_WHERE_NONE: dict[Alike, tuple[type[models.Model], ...]] = {Alike.WORK: (Movement, Commission, Cue)}
MODEL_NAMED = {
    model.__name__: model
    for naming in NAMING.values()
    for model, _column in naming
} | {"Movement": Movement, "Cue": Cue}  # fmt: skip


class NotMerged(Refused):
    """Two records that cannot become one, or not be parted again; ``reason`` is one sentence."""


@dataclass(slots=True)
class Moves:
    """What has been moved, and the performances that look different for it."""

    now: datetime
    moved: list[list[Any]] = field(default_factory=list)
    performances: set[int] = field(default_factory=set)

    def move(self, row: models.Model, column: str, value: Any) -> None:
        self.moved.append([type(row).__name__, row.pk, column, getattr(row, column), value])
        self.set(row, column, value)

    def set(self, row: models.Model, column: str, value: Any) -> None:
        """Put a value into a row and save it; a performance is saved once, with all that has changed."""
        if isinstance(row, Performance):
            Performance.objects.filter(pk=row.pk).update(**{column: value})
            self.performances.add(row.pk)
            return
        setattr(row, column, value)
        row.save()
        if isinstance(row, PerformanceCredit | ProgrammedWork):
            self.performances.add(row.performance_id)

    def announce(self) -> None:
        announce(performances=Performance.objects.filter(pk__in=self.performances), now=self.now)


# ---- merging


@transaction.atomic
def merge(
    *, composer: Composer, sort: Alike, kept: str, gone: str, by: AbstractBaseUser | None, now: datetime
) -> Merge:
    """Let ``gone`` be another spelling of ``kept`` (keys of one kind); return the way back. Raises NotMerged."""
    if kept == gone:
        raise NotMerged("This is one record already.")
    moves = Moves(now)
    if sort is Alike.NAME:
        names, filled = (kept, gone), {}
        rename(composer, moves, gone, kept)
    else:
        stays, goes = record_of(composer, sort, kept), record_of(composer, sort, gone)
        names = (str(stays), str(goes))
        filled = merge_records(sort, stays, goes, moves, by)
    moves.announce()
    return Merge.objects.create(
        composer=composer, sort=sort.value, kept=kept, gone=gone, kept_name=names[0], gone_name=names[1],
        moved=moves.moved, filled=filled, made_at=now, made_by=cast("User | None", by),
    )  # fmt: skip


def record_of(composer: Composer, sort: Alike, key: str) -> Any:
    """Return the living record of a key, its row locked. Raises NotMerged."""
    living = MODELS[sort]._base_manager.filter(composer=composer, deleted_at__isnull=True).select_for_update()
    found = living.filter(pk=int(key)).first() if key.isdecimal() and len(key) < 19 else None
    if found is None:
        raise NotMerged("One of the two is no longer there.")
    return found


def merge_records(
    sort: Alike, stays: Any, goes: Any, moves: Moves, by: AbstractBaseUser | None
) -> dict[str, list[Any]]:
    """Move what names the one to the other, delete it, and fill in what only it knew; return what was filled in."""
    refuse_versions_of_each_other(stays, goes)
    for model, column in NAMING[sort]:
        for row in model._base_manager.filter(**{column: goes.pk}).order_by("pk"):
            if not (is_submitted_already(row, stays) or has_lead_times(row, stays)):
                moves.move(row, column, stays.pk)
    for model in MOVED_WHERE_NONE.get(sort, ()):
        if not model._base_manager.filter(work_id=stays.pk).exists():
            for row in model._base_manager.filter(work_id=goes.pk).order_by("pk"):
                moves.move(row, "work_id", stays.pk)
    filled = missing(stays, goes)
    delete_record(record=goes, by=by, now=moves.now)
    set_columns(stays, {name: after for name, (_before, after) in filled.items()})
    if filled:
        fill(stays, moves.now)
    return filled


def is_submitted_already(row: models.Model, stays: models.Model) -> bool:
    """Say whether a submission holds the work that stays beside the one that goes: it holds each work once."""
    if not isinstance(row, SubmittedWork):
        return False
    return SubmittedWork.objects.filter(submission=row.submission_id, work_id=stays.pk).exists()


def has_lead_times(row: models.Model, stays: models.Model) -> bool:
    """Say whether both bodies have lead times: those of the one that stays count, the others wait for a way back."""
    return isinstance(row, LeadTimes) and LeadTimes.objects.filter(organisation_id=stays.pk).exists()


def fill(record: Any, now: datetime) -> None:
    try:
        save(record, now)
    except ValidationError as refused:
        raise NotMerged(" ".join(refused.messages)) from refused


def refuse_versions_of_each_other(one: Any, other: Any) -> None:
    if isinstance(one, Work) and (one.version_of_id == other.pk or other.version_of_id == one.pk):
        raise NotMerged("One of the two is a version of the other; both stay.")


def missing(stays: models.Model, goes: models.Model) -> dict[str, list[Any]]:
    """Return the columns that only the record that goes has filled: values before and after, as they are stored."""
    pairs = {
        column.attname: [stored_value(column, stays), stored_value(column, goes)]
        for column in columns_written(type(stays))
        if column.attname != "version_of_id"
    }
    return {name: pair for name, pair in pairs.items() if pair[0] in (None, "") and pair[1] not in (None, "")}


def rename(composer: Composer, moves: Moves, gone: str, kept: str) -> None:
    """Write the name of a performer or presenter as it is spelled elsewhere. Raises NotMerged."""
    credits = PerformanceCredit.objects.filter(performance__composer=composer)
    presented = Performance.objects.filter(composer=composer)
    rows = [
        *(
            (row, "name")
            for row in credits.filter(name=gone, person__isnull=True, organisation__isnull=True).order_by("pk")
        ),
        *(
            (row, "presenter_name")
            for row in presented.filter(presenter_name=gone, presenter__isnull=True).order_by("pk")
        ),
    ]
    is_there = credits.filter(name=kept).exists() or presented.filter(presenter_name=kept).exists()
    if not rows or not is_there:
        raise NotMerged("One of the two is no longer there.")
    for row, column in rows:
        moves.move(row, column, kept)


def set_columns(record: models.Model, stored: dict[str, Any]) -> None:
    columns = {column.attname: column for column in columns_written(type(record))}
    for name, value in stored.items():
        setattr(record, name, value_of(columns[name], value))


def save(record: Any, now: datetime) -> None:
    """Save a record in the way of its kind. Raises ValidationError."""
    if isinstance(record, Work):
        save_work(work=record, now=now)
    elif isinstance(record, Venue):
        save_venue(venue=record, now=now)
    else:
        store(record, now)


# ---- the way back


@transaction.atomic
def undo_merge(*, merged: Merge, now: datetime) -> int:
    """Part two records again; return how many of the rows that were moved have been changed since, and stay.

    Raises NotMerged where the record that is gone cannot come back.
    """
    read_again(merged)
    if merged.undone_at is not None:
        return 0
    moves = Moves(now)
    try:
        if merged.sort != Alike.NAME:
            bring_back(merged, now)
    except ValidationError as refused:
        raise NotMerged(" ".join(refused.messages)) from refused
    left = sum(not moved_back(moves, *one) for one in merged.moved)
    moves.announce()
    merged.undone_at = now
    merged.save(update_fields=["undone_at"])
    return left


def bring_back(merged: Merge, now: datetime) -> None:
    """Take back what was filled in where it still stands so, then restore the record that went."""
    model = MODELS[Alike(merged.sort)]
    stays: Any = model._base_manager.filter(pk=int(merged.kept)).first()
    goes: Any = model._base_manager.filter(pk=int(merged.gone)).first()
    if goes is None:
        raise NotMerged("The record that was merged is no longer there.")
    if stays is not None and stays.deleted_at is None:
        columns = {column.attname: column for column in columns_written(model)}
        same = {
            name: before
            for name, (before, after) in merged.filled.items()
            if stored_value(columns[name], stays) == after
        }
        set_columns(stays, same)
        if same:
            save(stays, now)
    restore_record(record=goes, now=now)


def moved_back(moves: Moves, model: str, key: int, column: str, before: Any, after: Any) -> bool:
    """Let a row name what it named before, where it still names what it was moved to; say whether it does."""
    row = MODEL_NAMED[model]._base_manager.filter(pk=key).first()
    if row is None or getattr(row, column) != after:
        return False
    moves.set(row, column, before)
    return True


# ---- not one


def set_apart(*, composer: Composer, sort: Alike, one: str, other: str) -> SetApart:
    """Remember that two records that look alike are two."""
    found, _made = SetApart.objects.get_or_create(composer=composer, sort=sort.value, one=one[:500], other=other[:500])
    return found
