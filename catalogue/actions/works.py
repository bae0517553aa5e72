"""Writing works: saved, indexed, deleted and brought back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from django.contrib.auth.models import AbstractBaseUser
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from catalogue.actions.deletion import delete_record, restore_record
from catalogue.actions.forces import forces_of, rows_of
from catalogue.actions.performances import announce
from catalogue.actions.saving import latest_of, refuse_overtaken, set_rows, store
from catalogue.gathering import reading_of
from catalogue.models import Commission, Cue, InstrumentationLine, Movement, Performance, Work


@transaction.atomic
def save_work(
    *,
    work: Work,
    now: datetime,
    movements: Sequence[Movement] | None = None,
    commissions: Sequence[Commission] | None = None,
    cues: Sequence[Cue] | None = None,
) -> Work:
    """Save a work with its index; performances whose calendar entry shows its title get a new revision.

    ``movements`` and ``cues`` (numbered in this order) and ``commissions`` replace what there was; ``None`` leaves it.
    A tempo map that is not the one before is dated. Raises ValidationError for what must not be stored, Overtaken where
    somebody saved the work in between.
    """
    before = latest_of(work)
    refuse_overtaken(work, before)
    if work.tempo_map != (before.tempo_map if before else ""):
        work.tempo_map_dated = timezone.localdate(now) if work.tempo_map else None
    work.least_players, work.most_players, work.electronics = forces_of(reading_of(work.instrumentation))
    store(work, now)
    index_work(work=work)
    if movements is not None:
        set_movements(work=work, movements=movements)
    if commissions is not None:
        set_commissions(work=work, commissions=commissions)
    if cues is not None:
        set_cues(work=work, cues=cues)
    if before is not None and before.title != work.title:
        announce(performances=Performance.objects.of_work(work), now=now)
    return work


@transaction.atomic
def index_work(*, work: Work) -> int:
    """Rebuild the rows by which works are found by their instruments; return how many there are."""
    InstrumentationLine.objects.filter(work=work).delete()
    rows = rows_of(reading_of(work.instrumentation))
    InstrumentationLine.objects.bulk_create(InstrumentationLine(work=work, **row) for row in rows)
    return len(rows)


def set_movements(*, work: Work, movements: Sequence[Movement]) -> bool:
    """Make these the movements of the work, numbered in this order; say whether anything has changed."""
    for movement in movements:
        movement.work = work
    return set_rows(existing=Movement.objects.filter(work=work), rows=movements, number="number")


def set_commissions(*, work: Work, commissions: Sequence[Commission]) -> bool:
    """Make these the commissions of the work; say whether anything has changed."""
    for commission in commissions:
        commission.work = work
    return set_rows(existing=Commission.objects.filter(work=work), rows=commissions, number=None)


def set_cues(*, work: Work, cues: Sequence[Cue]) -> bool:
    """Make these the cues of the work, in this order; say whether anything has changed."""
    for cue in cues:
        cue.work = work
    return set_rows(existing=Cue.objects.filter(work=work), rows=cues, number="order")


@transaction.atomic
def delete_work(*, work: Work, by: AbstractBaseUser | None, now: datetime) -> None:
    """Mark a work as deleted; it leaves every list and programme until it is restored."""
    version = Work.objects.filter(version_of=work).order_by("pk").first()
    if version is not None:
        raise ValidationError(f"“{version}” is a version of this work; delete that one first.")
    delete_record(record=work, by=by, now=now)


@transaction.atomic
def restore_work(*, work: Work, now: datetime) -> None:
    """Bring a deleted work back; ValidationError where its number has been given away or its first version is gone."""
    if work.version_of is not None and work.version_of.deleted_at is not None:
        raise ValidationError(f"This is a version of “{work.version_of}”; restore that one first.")
    restore_record(record=work, now=now)
