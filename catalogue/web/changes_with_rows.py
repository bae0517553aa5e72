"""The history of a work or a performance with that of the rows inside it, as one reads it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from django.utils.translation import gettext as _

from catalogue.gathering.row_lists import AT_ONCE, lists_of
from catalogue.models import Performance, Work
from catalogue.web.changes import SHOWN, Change, changes_of, name_of_user
from catalogue.web.forms.performances import PerformanceForm
from catalogue.web.row_histories import LABELS

MOST_ROWS = 200  # lines of the rows' history that are looked at
SHOWN_AS = {"venue_id": "venue", "presenter_id": "presenter", "presenter_name": "presenter"}


def performance_changes(performance: Performance) -> tuple[Change, ...]:
    """Return the last changes, the latest first, ``fields`` as the form calls them; three queries."""
    told = [replace(one, fields=tuple(labelled(one.fields))) for one in changes_of(performance)]
    names = {rows.word: str(LABELS[rows.word]) for rows in lists_of(performance)}
    return merged(told, changes_in_rows(performance, names))[:SHOWN]


def work_changes(work: Work) -> tuple[Change, ...]:
    """Return the last changes, the latest first, lists of rows by their word among the columns; four queries."""
    names = {rows.word: rows.word for rows in lists_of(work)}
    return merged(changes_of(work), changes_in_rows(work, names))[:SHOWN]


def changes_in_rows(record: Work | Performance, names: Mapping[str, str]) -> Iterator[Change]:
    """Give a change for each time that rows inside the record were added, changed or taken away."""
    for rows in lists_of(record):
        entries = rows.model.history.filter(**{f"{rows.owner}_id": record.pk}).select_related("history_user")
        for entry in entries.order_by("-history_date", "-history_id")[:MOST_ROWS]:
            yield Change(entry.history_date, name_of_user(entry.history_user), (names[rows.word],), is_first=False)


def merged(told: Iterable[Change], rows: Iterable[Change]) -> tuple[Change, ...]:
    """Join what was saved together into one change; what came with the first saving is part of that."""
    together = [[change] for change in told]
    for change in rows:
        group = next((group for group in together if were_at_once(group[0], change)), None)
        if group is None:
            together.append([change])
        else:
            group.append(change)
    return tuple(sorted((joined(group) for group in together), key=lambda change: change.moment, reverse=True))


def were_at_once(one: Change, other: Change) -> bool:
    return abs(one.moment - other.moment) <= AT_ONCE and one.who == other.who


def joined(group: list[Change]) -> Change:
    fields = tuple(dict.fromkeys(name for change in reversed(group) for name in change.fields))
    return replace(group[0], fields=fields, is_first=any(change.is_first for change in group))


def labelled(columns: Iterable[str]) -> Iterator[str]:
    """Give what the form calls the columns, each name once."""
    names = {
        str(PerformanceForm.base_fields[name].label)
        if name in PerformanceForm.base_fields
        else _("deleted or restored")
        for name in (SHOWN_AS.get(column, column) for column in columns)
    }
    yield from sorted(names)
