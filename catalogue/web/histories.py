"""The whole history of a record: who saved it when, what each field held before and after, and what can come back."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from typing import Any

from django.db import models
from django.utils.translation import gettext as _

from catalogue.timing import Duration, PartialDate
from catalogue.web.changes import change_between
from catalogue.web.record_kinds import RecordKind
from catalogue.web.wording import date_text, duration_text

PER_PAGE = 30
LONGEST = 400  # letters shown of a text


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
    """One saving: ``entry`` names the state after it, ``former`` the one before; ``became`` says deleted or back."""

    entry: int
    former: int | None
    moment: datetime
    who: str
    is_first: bool
    became: str
    fields: tuple[FieldChange, ...]
    is_present: bool


@dataclass(frozen=True, slots=True)
class History:
    saved: tuple[Saved, ...]
    has_older: bool


def history_of(kind: RecordKind, record: Any, language: str, page: int = 1) -> History:
    """Return one page of a record's history, the latest first; one query, and one for each kind of record it names."""
    start = (page - 1) * PER_PAGE
    entries = record.history.select_related("history_user").order_by("-history_date", "-history_id")
    states = list(entries[start : start + PER_PAGE + 1])
    columns = tuple(column for column in (*kind.columns, "deleted_at") if has_column(kind.model, column))
    said = Sayer(kind, states, record, language)
    shown = [saved(kind, new, old, record, columns, said) for new, old in pairwise([*states, None])][:PER_PAGE]
    return History(tuple(one for one in shown if one.fields or one.became or one.is_first), len(states) > PER_PAGE)


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


class Sayer:
    """Says what a column held, in words; records that are named are fetched once for all entries."""

    def __init__(self, kind: RecordKind, states: Iterable[Any], record: Any, language: str) -> None:
        self.language = language
        self.fields = {field.attname: field for field in kind.model._meta.concrete_fields}
        self.names: dict[str, dict[Any, str]] = {}
        for column in kind.columns:
            field: Any = self.fields[column]
            keys = {getattr(one, column) for one in (*states, record)} - {None} if field.is_relation else set()
            if keys:
                found = field.related_model._base_manager.in_bulk(keys)
                self.names[column] = {key: str(one) for key, one in found.items()}

    def value(self, column: str, value: Any) -> str:
        field: Any = self.fields[column]
        if value in (None, "", ()):
            return ""
        if field.is_relation:
            return self.names.get(column, {}).get(value, _("something that is gone"))
        if field.choices:
            return str(dict(field.flatchoices).get(value, value))
        if isinstance(value, bool):
            return _("yes") if value else _("no")
        return self.text(value)

    def text(self, value: Any) -> str:
        if isinstance(value, PartialDate):
            return date_text(value, self.language)
        if isinstance(value, Duration):
            return duration_text(value, "", self.language)
        words = ".".join(str(one) for one in value) if isinstance(value, tuple | list) else str(value)
        return words if len(words) <= LONGEST else f"{words[:LONGEST].rstrip()}…"
