"""The history of a record, as one reads it: when, who, and which fields."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from typing import Any

from django.db import models

SHOWN = 12
NOT_TYPED = {"saves", "changed_at", "deleted_by"}


@dataclass(frozen=True, slots=True)
class Change:
    """One saving of a record; ``fields`` are the names of the columns that changed, none where it was made."""

    moment: datetime
    who: str
    fields: tuple[str, ...]
    is_first: bool


def changes_of(record: Any) -> tuple[Change, ...]:
    """Return the last changes of a record, the latest first, in one query."""
    states = list(record.history.select_related("history_user").order_by("-history_date", "-history_id")[: SHOWN + 1])
    columns = typed_columns(type(record))
    told = [change_between(new, old, columns) for new, old in pairwise([*states, None])]
    return tuple(change for change in told[:SHOWN] if change.fields or change.is_first)


def typed_columns(model: type[models.Model]) -> tuple[str, ...]:
    """Return the columns that people write, and the mark of deletion."""
    columns = (field for field in model._meta.concrete_fields if field.editable or field.name == "deleted_at")
    return tuple(field.attname for field in columns if field.name not in NOT_TYPED and not field.primary_key)


def change_between(new: Any, old: Any | None, columns: Iterable[str]) -> Change:
    fields = () if old is None else tuple(name for name in columns if getattr(new, name) != getattr(old, name))
    return Change(new.history_date, name_of_user(new.history_user), fields, is_first=new.history_type == "+")


def name_of_user(user: Any) -> str:
    """Return what somebody is called, empty where nobody is known."""
    return (user.get_full_name() or user.get_username()) if user else ""
