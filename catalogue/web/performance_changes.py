"""The history of a performance with that of its programme and its performers, as one reads it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from django.utils.translation import gettext as _

from catalogue.gathering.row_lists import AT_ONCE
from catalogue.models import Performance, PerformanceCredit, ProgrammedWork
from catalogue.web.changes import SHOWN, Change, changes_of, name_of_user
from catalogue.web.forms.performances import PerformanceForm

SHOWN_AS = {"venue_id": "venue", "presenter_id": "presenter", "presenter_name": "presenter"}


def performance_changes(performance: Performance) -> tuple[Change, ...]:
    """Return the last changes, the latest first, ``fields`` as the form calls them; three queries."""
    told = [replace(one, fields=tuple(labelled(one.fields))) for one in changes_of(performance)]
    rows = (
        *changes_in(ProgrammedWork.history, performance, str(_("Programme"))),
        *changes_in(PerformanceCredit.history, performance, str(PerformanceForm.base_fields["performers"].label)),
    )
    return merged((*told, *rows))[:SHOWN]


def changes_in(history: Any, performance: Performance, name: str) -> Iterator[Change]:
    """Give a change for each time that rows of the performance were added, changed or taken away."""
    entries = history.filter(performance_id=performance.pk).select_related("history_user")
    for entry in entries.order_by("-history_date", "-history_id")[:200]:
        yield Change(entry.history_date, name_of_user(entry.history_user), (name,), is_first=False)


def merged(changes: Iterable[Change]) -> tuple[Change, ...]:
    """Join what was saved together into one change; what came with the first saving is part of that."""
    latest_first = sorted(changes, key=lambda change: change.moment, reverse=True)
    together: list[list[Change]] = []
    for change in latest_first:
        if together and together[-1][0].moment - change.moment <= AT_ONCE and together[-1][0].who == change.who:
            together[-1].append(change)
        else:
            together.append([change])
    return tuple(joined(group) for group in together)


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
