"""The whole history of a record: who saved it when, what each field held before and after, and what can come back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise
from typing import Any

from django.db import models
from django.utils.translation import gettext as _

from catalogue.gathering.row_lists import AT_ONCE
from catalogue.web.changes import change_between
from catalogue.web.record_kinds import RecordKind
from catalogue.web.row_histories import RowsTold, told_rows
from catalogue.web.sayer import Sayer

PER_PAGE = 30


@dataclass(frozen=True, slots=True)
class FieldChange:
    """A field before and after; ``can_return`` where it now holds something else than before."""

    column: str
    label: str
    before: str
    after: str
    can_return: bool


@dataclass(frozen=True, slots=True)
class Saved:
    """One saving: ``entry`` names the state after it, ``former`` the one before; ``became`` says deleted or back.

    ``rows`` is what became of the lists inside the record; of rows that were saved alone there is no ``entry``.
    """

    entry: int | None
    former: int | None
    moment: datetime
    who: str
    is_first: bool
    became: str
    fields: tuple[FieldChange, ...]
    is_present: bool
    rows: tuple[RowsTold, ...] = ()


@dataclass(frozen=True, slots=True)
class History:
    saved: tuple[Saved, ...]
    has_older: bool


def history_of(kind: RecordKind, record: Any, language: str, page: int = 1) -> History:
    """Return one page of a record's history, the latest first.

    One query, one for each list of rows inside the record, and one for each kind of record that is named.
    """
    start = (page - 1) * PER_PAGE
    entries = record.history.select_related("history_user").order_by("-history_date", "-history_id")
    states = list(entries[start : start + PER_PAGE + 1])
    columns = tuple(column for column in (*kind.columns, "deleted_at") if has_column(kind.model, column))
    said = Sayer(kind.model, kind.columns, (*states, record), language)
    shown = [saved(kind, new, old, record, columns, said) for new, old in pairwise([*states, None])][:PER_PAGE]
    has_older = len(states) > PER_PAGE
    older = states[PER_PAGE].history_date if has_older else None
    told = with_rows(shown, told_rows(record, language), newer=page > 1, older=older)
    return History(tuple(one for one in told if one.fields or one.became or one.is_first or one.rows), has_older)


def with_rows(
    shown: list[Saved], rows: Iterable[RowsTold], *, newer: bool, older: datetime | None
) -> tuple[Saved, ...]:
    """Put what became of rows to the saving that they came with, or between the savings of the page.

    What a record began with is no change. ``newer`` says that a page comes before this one, ``older`` is when the one
    after it begins.
    """
    found = list(shown)
    for change in rows:
        place = next((place for place, one in enumerate(found) if came_with(change, one)), None)
        if place is not None and found[place].is_first:
            continue
        if place is not None:
            found[place] = replace(found[place], rows=(*found[place].rows, change))
        elif is_of_page(change, shown, newer=newer, older=older):
            found.append(alone(change))
    return tuple(sorted(found, key=lambda one: one.moment, reverse=True))


def came_with(change: RowsTold, one: Saved) -> bool:
    return abs(change.moment - one.moment) <= AT_ONCE and change.who == one.who


def is_of_page(change: RowsTold, shown: list[Saved], *, newer: bool, older: datetime | None) -> bool:
    return not (newer and shown and change.moment > shown[0].moment) and not (older and change.moment <= older)


def alone(change: RowsTold) -> Saved:
    return Saved(None, None, change.moment, change.who, False, "", (), is_present=True, rows=(change,))


def has_column(model: type[models.Model], column: str) -> bool:
    return any(field.attname == column for field in model._meta.concrete_fields)


def saved(kind: RecordKind, new: Any, old: Any, record: Any, columns: tuple[str, ...], said: Sayer) -> Saved:
    change = change_between(new, old, columns)
    fields = (
        FieldChange(
            column,
            kind.label(column),
            said.value(column, getattr(old, column)),
            said.value(column, getattr(new, column)),
            getattr(old, column) != getattr(record, column),
        )
        for column in change.fields
        if column != "deleted_at"
    )
    deleted = "deleted_at" in change.fields
    return Saved(
        entry=new.history_id,
        former=old.history_id if old else None,
        moment=change.moment,
        who=change.who,
        is_first=change.is_first,
        became="" if not deleted else _("Deleted") if new.deleted_at else _("Brought back"),
        fields=tuple(fields),
        is_present=all(getattr(new, column) == getattr(record, column) for column in kind.columns),
    )
