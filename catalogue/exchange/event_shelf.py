"""One composer's performances while a table is imported: rows of one event are put together, known events found again.

Rows belong to one event where date, time, place, kind, status, audience, presenter and series are the same. An event of
the catalogue is the one meant where date, time and place agree as far as both are known, and a work of its programme or
all else does; what has most in common comes first.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass

from catalogue.exchange.event_places import city_of
from catalogue.exchange.performance_rows import PerformanceRow
from catalogue.models import Composer, Performance, Work
from catalogue.rules.search import fold

OF_THE_EVENT = ("date", "time", "zone", "city", "country", "kind", "status", "audience", "presenter_name", "series")
SHARED_WORK = 10  # weighs more than all the rest


@dataclass(frozen=True, slots=True)
class Event:
    """The rows of one event, each with the work it means."""

    rows: tuple[tuple[PerformanceRow, Work], ...]

    @property
    def first(self) -> PerformanceRow:
        return self.rows[0][0]

    def told(self, column: str) -> object:
        """Return what the rows say in a column of the event, None where they say nothing."""
        return self.first.event.get(column)


def events_in(rows: Iterable[tuple[PerformanceRow, Work]]) -> list[Event]:
    """Put rows of one event together, in the order in which each event is first named."""
    groups: dict[Hashable, list[tuple[PerformanceRow, Work]]] = defaultdict(list)
    for row, work in rows:
        groups[key_of(row)].append((row, work))
    return [Event(tuple(group)) for group in groups.values()]


def key_of(row: PerformanceRow) -> Hashable:
    """Return what rows of one event have in common; a row without a date is an event of its own work."""
    told = [
        fold(value) if isinstance(value, str) else value for value in (row.event.get(name) for name in OF_THE_EVENT)
    ]
    return (*told, fold(row.venue), "" if "date" in row.event else fold(row.work))


class EventShelf:
    def __init__(self, composer: Composer) -> None:
        self.by_date: dict[str, list[Performance]] = defaultdict(list)
        stored = Performance.objects.filter(composer=composer).with_everything_printed().order_by("pk")
        for performance in stored:
            self.by_date[str(performance.date or "")].append(performance)
        self.taken: set[int] = set()

    def known(self, event: Event) -> Performance | None:
        """Return the performance that an event of the table means, or None where it is new; each is meant once."""
        candidates = self.by_date.get(str(event.told("date") or ""), [])
        fitting = [one for one in candidates if one.pk not in self.taken and agrees(one, event)]
        weighed = [(in_common(one, event), -one.pk, one) for one in fitting]
        best = max((one for one in weighed if is_meant(one[2], event)), default=None, key=lambda one: one[:2])
        if best is None:
            return None
        self.taken.add(best[2].pk)
        return best[2]


def agrees(performance: Performance, event: Event) -> bool:
    """Say whether time and place are the same as far as both are known."""
    hall = performance.venue.name if performance.venue else ""
    texts = ((city_of(performance), event.told("city") or ""), (hall, event.first.venue))
    if any(mine and told and fold(mine) != fold(str(told)) for mine, told in texts):
        return False
    clock = event.told("time")
    return not (performance.time and clock) or performance.time == clock


def is_meant(performance: Performance, event: Event) -> bool:
    if shared_works(performance, event):
        return True
    pairs = told_of(performance, event)
    return bool(city_of(performance) and event.told("city")) and all(mine == told for mine, told in pairs if told)


def in_common(performance: Performance, event: Event) -> int:
    alike = sum(mine == told for mine, told in told_of(performance, event) if told)
    return alike + SHARED_WORK * shared_works(performance, event)


def shared_works(performance: Performance, event: Event) -> int:
    """Count the rows whose work stands on the programme."""
    works = [one.work for one in performance.programme.all()]
    return sum(any(is_work(one, work, row.version) for one in works) for row, work in event.rows)


def is_work(programmed: Work, meant: Work, version: str) -> bool:
    """Say whether a work on a programme is the one a row means: itself, or a version of it that nobody has labelled."""
    unlabelled = not version and not programmed.version_label and programmed.version_of_id == meant.pk
    return programmed.pk == meant.pk or unlabelled


def told_of(performance: Performance, event: Event) -> Sequence[tuple[object, object]]:
    """Return what the record and the rows say of each thing by which events are told apart."""
    hall = performance.venue.name if performance.venue else ""
    columns = (
        (getattr(performance, name), event.told(name)) for name in ("time", "kind", "status", "audience", "series")
    )
    texts = ((performance.presented_by, event.told("presenter_name") or ""), (hall, event.first.venue))
    return [*columns, *((fold(mine), fold(str(told))) for mine, told in texts)]
