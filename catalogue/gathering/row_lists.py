"""The lists of rows inside a record, such as the movements of a work, and what each held after every saving.

Nothing is stored for this: the history of the rows is replayed. What one person wrote within moments is one change.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.db import models

from catalogue.models import Commission, Cue, Movement, Performance, PerformanceCredit, ProgrammedWork, Work

AT_ONCE = timedelta(seconds=5)  # what is saved together is written within moments
NOT_TYPED = {"deleted_at", "deleted_by_id"}


@dataclass(frozen=True, slots=True)
class RowList:
    """A list inside a record: ``owner`` is the rows' column that names the record, ``number`` that of their place.

    ``word`` is what the list is called where the record is saved.
    """

    word: str
    model: Any
    owner: str
    number: str | None

    @property
    def columns(self) -> tuple[str, ...]:
        """The columns that people write, without the record and the place."""
        left_out = {self.model._meta.pk.attname, f"{self.owner}_id", self.number, *NOT_TYPED}
        return tuple(
            field.attname
            for field in self.model._meta.concrete_fields
            if field.editable and field.attname not in left_out
        )

    def held(self, row: Any) -> tuple[Any, ...]:
        """Return what a row says, wherever it stands."""
        return tuple(getattr(row, column) for column in self.columns)

    def stored(self, record: models.Model) -> list[Any]:
        """Return the rows as they stand, in their order."""
        rows = self.model.objects.filter(**{self.owner: record.pk})
        return list(rows.order_by(*([self.number] if self.number else []), "pk"))


LISTS: dict[type[models.Model], tuple[RowList, ...]] = {
    Work: (
        RowList("movements", Movement, "work", "number"),
        RowList("commissions", Commission, "work", None),
        RowList("cues", Cue, "work", "order"),
    ),
    Performance: (
        RowList("programme", ProgrammedWork, "performance", "order"),
        RowList("credits", PerformanceCredit, "performance", "order"),
    ),
}


@dataclass(frozen=True, slots=True)
class RowsChange:
    """What one saving made of a list. ``entry`` names it: the number of its first line in the rows' history.

    ``before`` and ``after`` are the rows as lines of that history, in the order of the list.
    """

    entry: int
    moment: datetime
    user: Any
    before: tuple[Any, ...]
    after: tuple[Any, ...]


def lists_of(record: models.Model) -> tuple[RowList, ...]:
    """Return the lists inside a record whose rows can be brought back."""
    return LISTS.get(type(record), ())


def rows_changes(rows: RowList, record: models.Model) -> tuple[RowsChange, ...]:
    """Return what became of a list, the earliest first; one query."""
    entries = rows.model.history.filter(**{f"{rows.owner}_id": record.pk}).select_related("history_user")
    return tuple(replayed(list(entries.order_by("history_date", "history_id")), rows.number))


def replayed(entries: Sequence[Any], number: str | None) -> Iterator[RowsChange]:
    living: dict[int, Any] = {}
    for group in saved_together(entries):
        before = in_order(living, number)
        for entry in group:
            living.pop(entry.id, None)
            if entry.history_type != "-" and getattr(entry, "deleted_at", None) is None:
                living[entry.id] = entry
        first, last = group[0], group[-1]
        yield RowsChange(first.history_id, last.history_date, last.history_user, before, in_order(living, number))


def saved_together(entries: Sequence[Any]) -> Iterator[list[Any]]:
    """Divide a history by who wrote and when."""
    group: list[Any] = []
    for entry in entries:
        if group and not (
            entry.history_date - group[-1].history_date <= AT_ONCE
            and entry.history_user_id == group[-1].history_user_id
        ):
            yield group
            group = []
        group.append(entry)
    if group:
        yield group


def in_order(living: dict[int, Any], number: str | None) -> tuple[Any, ...]:
    return tuple(sorted(living.values(), key=lambda row: (getattr(row, number) if number else 0, row.id)))
