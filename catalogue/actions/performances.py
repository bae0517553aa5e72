"""Writing performances and their venues: saved, dated, revised for calendars, deleted, brought back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from django.contrib.auth.models import AbstractBaseUser
from django.db import transaction
from django.db.models import F, QuerySet

from catalogue.actions.deletion import delete_record, restore_record
from catalogue.actions.saving import differs, latest_of, refuse_overtaken, set_rows, store
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork, Venue
from catalogue.timing import MomentError, PartialDate, moment_at

PLACE_OF_VENUE = ("name", "city", "region", "country", "zone", "latitude", "longitude")
SHOWN_IN_CALENDARS = ("date", "time", "zone", "second_time", "venue_id", "city", "country", "status", "event_title")
RECKONED = ("first_day", "last_day", "starts_at", "search_text")
SEARCH_TEXT: Any = Performance._meta.get_field("search_text")
AT_ONCE = 500
"""Performances that are written at once: a database takes only so many values in a statement."""


@transaction.atomic
def save_performance(
    *,
    performance: Performance,
    now: datetime,
    programme: Sequence[ProgrammedWork] | None = None,
    credits: Sequence[PerformanceCredit] | None = None,
) -> Performance:
    """Save a performance with the days and the moment reckoned from its date, time and zone.

    ``programme`` and ``credits`` replace what there was, in this order; ``None`` leaves it. ``uid`` never changes;
    ``sequence`` rises by one when date, time, place, status, title, programme or performers change (RFC 5545, 3.8.7.4).
    Raises ValidationError for what must not be stored, Overtaken where somebody saved it in between.
    """
    before = latest_of(performance)
    refuse_overtaken(performance, before)
    reckon_days(performance)
    if before is None:
        store(performance, now)
        set_parts(performance, programme, credits)
    else:
        changed = set_parts(performance, programme, credits) or differs(performance, before, SHOWN_IN_CALENDARS)
        performance.sequence = before.sequence + changed
        store(performance, now)
    return performance


def set_parts(
    performance: Performance,
    programme: Sequence[ProgrammedWork] | None,
    credits: Sequence[PerformanceCredit] | None,
) -> bool:
    """Make these the programme and the performers, in this order; say whether anything has changed."""
    for programmed in programme or ():
        programmed.performance = performance
    for credit in credits or ():
        credit.performance = performance
    # Asked anew: what was fetched along with the performance leaves out works that have been deleted.
    works = ProgrammedWork.objects.filter(performance=performance)
    performers = PerformanceCredit.objects.filter(performance=performance)
    changed = programme is not None and set_rows(existing=works, rows=programme, number="order")
    return (credits is not None and set_rows(existing=performers, rows=credits, number="order")) or changed


def reckon_days(performance: Performance) -> None:
    """Fill in the first and the last day that the date may mean, and the moment in UTC where it can be told."""
    when = performance.date if isinstance(performance.date, PartialDate) else None
    performance.first_day, performance.last_day = (when.first, when.last) if when else (None, None)
    performance.starts_at = starting_moment(performance)


def starting_moment(performance: Performance) -> datetime | None:
    """Return the start in UTC; none where it cannot be told, as of a time that comes twice and is not said which."""
    day = performance.date.exact if isinstance(performance.date, PartialDate) else None
    if day is None or performance.time is None or not performance.local_zone:
        return None
    try:
        return moment_at(day, performance.time, performance.local_zone, second=performance.second_time)
    except MomentError:
        return None


@transaction.atomic
def announce(*, performances: QuerySet[Performance], now: datetime) -> None:
    """Save performances whose entries in calendars have changed through another record, each with a new revision.

    A work may stand on hundreds of programmes, and whoever saves it holds up everybody who writes meanwhile: all are
    counted and dated by one statement, and only what is reckoned anew and comes out differently is written for each.
    """
    found = performances.select_related("venue").select_for_update(of=("self",)).order_by("pk")
    rows = list(found)
    for start in range(0, len(rows), AT_ONCE):
        announce_together(rows[start : start + AT_ONCE], now)


def announce_together(rows: Sequence[Performance], now: datetime) -> None:
    others = [row for row in rows if reckoned_otherwise(row)]
    stored = Performance._base_manager.filter(pk__in=[row.pk for row in rows])
    stored.update(sequence=F("sequence") + 1, saves=F("saves") + 1, changed_at=now)
    Performance._base_manager.bulk_update(others, RECKONED)
    for row in rows:
        row.sequence += 1
        row.saves += 1
        row.changed_at = now
    Performance.history.bulk_history_create(rows, update=True, default_change_reason=None)


def reckoned_otherwise(performance: Performance) -> bool:
    """Reckon the columns of a performance that follow from others; return whether any comes out differently."""
    before = [getattr(performance, column) for column in RECKONED]
    reckon_days(performance)
    SEARCH_TEXT.pre_save(performance, add=False)
    return before != [getattr(performance, column) for column in RECKONED]


@transaction.atomic
def save_venue(*, venue: Venue, now: datetime) -> Venue:
    """Save a venue; where its name, place or clocks have changed, its performances follow in calendars.

    Raises ValidationError for what must not be stored, Overtaken where somebody saved it in between.
    """
    before = latest_of(venue)
    refuse_overtaken(venue, before)
    store(venue, now)
    if before is not None and differs(venue, before, PLACE_OF_VENUE):
        announce(performances=Performance.objects.filter(venue=venue), now=now)
    return venue


def delete_performance(*, performance: Performance, by: AbstractBaseUser | None, now: datetime) -> None:
    """Mark a performance as deleted; it leaves every list and calendar until it is restored."""
    delete_record(record=performance, by=by, now=now)


def restore_performance(*, performance: Performance, now: datetime) -> None:
    """Bring a deleted performance back. Raises ValidationError where a newer one has taken its place."""
    restore_record(record=performance, now=now)
