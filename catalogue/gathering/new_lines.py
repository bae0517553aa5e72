"""What has changed from one version of the lists to another, read from the lines of the histories that are new since.

Each record is told as it stood at the one version and as it stands at the other, both from lines, which never change:
whoever adds up what went and what came is right, whatever is saved meanwhile.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from typing import Any, NamedTuple

from django.db.models import Max

from catalogue.gathering.versions import Version, moment_of, place_of

MOST_NEW = 5_000
"""If more lines than these are new, it is quicker to count anew."""
AT_ONCE = 500

Values = tuple[Any, ...]


class Change(NamedTuple):
    """A record that was saved: the columns that were asked for, before and now; None where it was not there."""

    key: int
    before: Values | None
    now: Values | None


def changes(model: Any, since: Version, until: Version, columns: Sequence[str], **owner: Any) -> list[Change] | None:
    """Return what was saved of a kind of record, each once; None where that cannot be told.

    So it is where too much was saved, where a record has no line from before, and where the line that was the newest
    is not there any longer, or another one is in its place: as where histories were cleared up to it, where what was
    saved was taken back, or an older database came in the place of this one.
    """
    first, last = since[place_of(model)], until[place_of(model)]
    if first == last and moment_of(model, since) == moment_of(model, until):
        return []
    found = new_lines(model, first or 0, last, columns, owner)
    if first is not None:
        newest = next(found, None)
        if newest is None or newest.number != first or not is_of(newest.moment, moment_of(model, since)):
            return None
    lines = list(found)
    if len(lines) > MOST_NEW:
        return None
    now = {line.key: line.values for line in lines}
    began = {line.key: line.is_first for line in reversed(lines)}
    before = stood(model, first, [key for key, is_first in began.items() if not is_first], columns)
    if before is None:
        return None
    return [Change(key, before.get(key), values) for key, values in now.items()]


class Line(NamedTuple):
    """A line of a history; ``values`` are None where it says that the record was taken away for good."""

    number: int
    moment: datetime
    key: int
    is_first: bool
    values: Values | None


def new_lines(model: Any, first: int, last: int, columns: Sequence[str], owner: dict[str, Any]) -> Iterator[Line]:
    lines = model.history.filter(history_id__gte=first, history_id__lte=last, **owner).order_by("history_id")
    rows = lines.values_list("history_id", "history_date", "id", "history_type", *columns)[: MOST_NEW + 2]
    for number, moment, key, sort, *values in rows:
        yield Line(number, moment, key, sort == "+", None if sort == "-" else tuple(values))


def stood(
    model: Any, newest: int | None, keys: Sequence[int], columns: Sequence[str]
) -> dict[int, Values | None] | None:
    """Return how records stood when a line was the newest; None where one of them has no line from then.

    Of each only its last line is fetched: what is saved again and again has hundreds.
    """
    found: dict[int, Values | None] = {}
    for start in range(0, len(keys), AT_ONCE):
        lines = model.history.filter(id__in=keys[start : start + AT_ONCE], history_id__lte=newest or 0).order_by()
        last = lines.values("id").annotate(last=Max("history_id")).values("last")
        for key, sort, *values in model.history.filter(history_id__in=last).values_list("id", "history_type", *columns):
            found[key] = None if sort == "-" else tuple(values)
    return found if len(found) == len(keys) else None


def is_of(moment: datetime, told: datetime | None) -> bool:
    """Whether a line is of the moment that a version tells; SQLite tells it in UTC, without a zone."""
    if told is None:
        return True
    return moment == (told if told.tzinfo else told.replace(tzinfo=UTC))
