"""How many performances a composer has: by kind, by what has become of them, by year, by place, and those to come.

All of it is counted once, within indexes, and brought forward afterwards by what was saved: each performance is taken
away as it stood and added as it stands.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Count

from catalogue.gathering.kept_counts import Keeper
from catalogue.gathering.new_lines import Values, changes
from catalogue.gathering.once import Brought, Following, Step
from catalogue.gathering.versions import State, Version
from catalogue.models import Performance
from catalogue.terms import PerformanceStatus

FEWEST_KEPT = 2_000
"""Of fewer performances no file is written: they are counted in no time."""
TO_COME = (PerformanceStatus.PLANNED.value, PerformanceStatus.CONFIRMED.value)
OF_PERFORMANCE = ("kind", "status", "first_day", "last_day", "venue_id", "city", "country", "deleted_at")

Number = Mapping[Values, int]
Years = tuple[int | None, int | None]


@dataclass(frozen=True, slots=True)
class Numbers:
    """So many performances by kind and by status, each alone; by the years in which they begin and end, None of those
    without a date; by hall (its number), town and country as they are written with them; and of those that are planned
    or confirmed, by the number of their last day.
    """

    kinds: Number
    statuses: Number
    years: Number
    places: Number
    coming: Number

    @property
    def all(self) -> int:
        return sum(self.kinds.values())

    @property
    def first_year(self) -> int | None:
        return min((first for first, _last in self.years if first is not None), default=None)

    @property
    def last_year(self) -> int | None:
        return max((last for _first, last in self.years if last is not None), default=None)

    def to_come(self, today: date) -> int:
        """Return how many are planned or confirmed and not over on a day."""
        return sum(number for (last,), number in self.coming.items() if last >= today.toordinal())


WHAT = ("kinds", "statuses", "years", "places", "coming")
Told = tuple[str, Values]
"""What is counted, and under which values."""


def numbers_at(state: State, composer: int) -> Numbers:
    """Return the numbers of a composer's performances in a state of their lists, which was asked for before."""
    return _brought.to(state, composer)


def count_all(composer: int) -> Numbers:
    """Count all performances; three questions, each of which an index answers alone."""
    ours = Performance.objects.filter(composer=composer).order_by()
    counted: Counter[Told] = Counter()
    for kind, number in ours.values_list("kind").annotate(number=Count("pk")):
        counted["kinds", (kind,)] += number
    for *place, number in ours.values_list("venue_id", "city", "country").annotate(number=Count("pk")):
        counted["places", tuple(place)] += number
    for first, last, status, number in ours.values_list("first_day", "last_day", "status").annotate(number=Count("pk")):
        for told in (*of_status(status, last), of_years(first, last)):
            counted[told] += number
    return numbers_of(counted)


def bring_forward(known: Numbers, since: Version, until: Version, composer: int) -> Step[Numbers] | None:
    found = changes(Performance, since, until, OF_PERFORMANCE, composer=composer)
    if found is None:
        return None
    counted: Counter[Told] = Counter()
    for change in found:
        counted.subtract(told_of(change.before))
        counted.update(told_of(change.now))
    changed = [told for told, number in counted.items() if number]
    if not changed:
        return Step(known, len(found))
    counted.update({(what, values): number for what in WHAT for values, number in getattr(known, what).items()})
    if any(counted[told] < 0 for told in changed):
        return None
    return Step(numbers_of(counted), len(found))


def told_of(values: Values | None) -> Iterator[Told]:
    """Give under what a performance is counted; one that is deleted, or not there, under nothing."""
    if values is None:
        return
    kind, status, first, last, venue, city, country, deleted_at = values
    if deleted_at is None:
        yield "kinds", (kind,)
        yield "places", (venue, city, country)
        yield of_years(first, last)
        yield from of_status(status, last)


def of_status(status: str, last: date | None) -> Iterator[Told]:
    yield "statuses", (status,)
    if status in TO_COME and last is not None:
        yield "coming", (last.toordinal(),)


def of_years(first: date | None, last: date | None) -> Told:
    return "years", (first and first.year, last and last.year)


def numbers_of(counted: Mapping[Told, int]) -> Numbers:
    parts: dict[str, dict[Values, int]] = {what: {} for what in WHAT}
    for (what, values), number in counted.items():
        if number:
            parts[what][values] = number
    return Numbers(**parts)


# ---- as bytes


def written(numbers: Numbers) -> bytes | None:
    if numbers.all < FEWEST_KEPT:
        return None
    return json.dumps({what: list(getattr(numbers, what).items()) for what in WHAT}).encode()


def read(content: bytes) -> Numbers:
    told: dict[str, Iterable[Any]] = json.loads(content)
    return Numbers(**{what: {tuple(values): number for values, number in told[what]} for what in WHAT})


_brought: Brought[Numbers] = Brought(
    Following(count_all, bring_forward, written, read), Keeper("numbers", __file__), most=256
)
