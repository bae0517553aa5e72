"""What a performance history adds up to: minutes played, where and by whom, which works are played again and which not.

A playing is a work on a programme. It lasts as long as was noted, else, where it is complete, as long as the work is
said to last; of an excerpt without a duration nobody knows. Everything that took place is counted, whoever was let in.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

IDLE_YEARS = 5


class Played(NamedTuple):
    """A work at a performance. ``day`` is the first that is possible; unknown ``seconds`` are None."""

    event: int
    work: int
    day: date | None = None
    seconds: int | None = None
    country: str = ""
    ensembles: tuple[str, ...] = ()
    is_to_come: bool = False


@dataclass(frozen=True, slots=True)
class Listed:
    """A work that stands in lists."""

    id: int
    title: str
    since: int | None = None


@dataclass(frozen=True, slots=True)
class Sum:
    """What some playings add up to: events, works, seconds, how many lengths are not known, and the days between."""

    name: str
    events: int
    works: int
    seconds: int
    unknown: int
    coming_seconds: int
    first: date | None
    last: date | None
    years: int

    @property
    def minutes(self) -> int:
        """The whole minutes, rounded."""
        return in_minutes(self.seconds)

    @property
    def coming_minutes(self) -> int:
        return in_minutes(self.coming_seconds)


@dataclass(frozen=True, slots=True)
class WorkSum:
    """How often a work was played; ``again`` are the days from its first performance to its second."""

    work: Listed
    events: int
    coming: int
    seconds: int
    first: date | None
    last: date | None
    again: int | None

    @property
    def minutes(self) -> int:
        return in_minutes(self.seconds)


def in_minutes(seconds: int) -> int:
    """
    >>> in_minutes(90), in_minutes(89)
    (2, 1)
    """
    return (seconds + 30) // 60


@dataclass(slots=True)
class Adding:
    """What some playings add up to so far; what is to come counts for ``coming_seconds`` alone."""

    events: set[int] = field(default_factory=set)
    works: set[int] = field(default_factory=set)
    days: set[date] = field(default_factory=set)
    seconds: int = 0
    unknown: int = 0
    coming_seconds: int = 0

    def add(self, one: Played) -> None:
        event, work, day, seconds, _country, _ensembles, is_to_come = one
        if is_to_come:
            self.coming_seconds += seconds or 0
            return
        self.events.add(event)
        self.works.add(work)
        if day:
            self.days.add(day)
        if seconds is None:
            self.unknown += 1
        else:
            self.seconds += seconds

    def sum(self, name: str) -> Sum:
        return Sum(
            name=name,
            events=len(self.events),
            works=len(self.works),
            seconds=self.seconds,
            unknown=self.unknown,
            coming_seconds=self.coming_seconds,
            first=min(self.days, default=None),
            last=max(self.days, default=None),
            years=len({day.year for day in self.days}),
        )


def by_year(played: Iterable[Played]) -> tuple[Sum, ...]:
    """Return a sum a year from the first to the last, years without any among them."""
    found: defaultdict[int, Adding] = defaultdict(Adding)
    for one in played:
        if one.day:
            found[one.day.year].add(one)
    every = range(min(found), max(found) + 1) if found else ()
    return tuple(found[year].sum(str(year)) for year in every)


def by_country(played: Iterable[Played]) -> tuple[Sum, ...]:
    """Return a sum a country, by its code, that with most minutes first; without a country last."""
    found: defaultdict[str, Adding] = defaultdict(Adding)
    for one in played:
        found[one.country].add(one)
    sums = (adding.sum(code) for code, adding in found.items())
    return tuple(sorted(with_past(sums), key=lambda one: (not one.name, -one.seconds, -one.events, one.name)))


def by_ensemble(played: Iterable[Played]) -> tuple[Sum, ...]:
    """Return a sum an ensemble, that with most events first."""
    found: defaultdict[str, Adding] = defaultdict(Adding)
    for one in played:
        for name in one.ensembles:
            found[name].add(one)
    sums = (adding.sum(name) for name, adding in found.items())
    return tuple(sorted(with_past(sums), key=lambda one: (-one.events, -one.seconds, one.name)))


def with_past(sums: Iterable[Sum]) -> Iterator[Sum]:
    return (one for one in sums if one.events)


def by_work(works: Iterable[Listed], played: Iterable[Played]) -> tuple[WorkSum, ...]:
    """Return each work with what its playings add up to, the most played first."""
    found: defaultdict[int, list[Played]] = defaultdict(list)
    for one in played:
        found[one.work].append(one)
    sums = [work_sum(work, found.get(work.id, ())) for work in works]
    return tuple(sorted(sums, key=lambda one: (-one.events, -one.seconds, one.work.title)))


def work_sum(work: Listed, played: Sequence[Played]) -> WorkSum:
    past = [one for one in played if not one.is_to_come]
    events = {one.event: one.day for one in past}
    days = sorted(day for day in events.values() if day)
    return WorkSum(
        work=work,
        events=len(events),
        coming=len({one.event for one in played if one.is_to_come}),
        seconds=sum(one.seconds or 0 for one in past),
        first=days[0] if days else None,
        last=days[-1] if days else None,
        again=(days[1] - days[0]).days if len(days) > 1 else None,
    )


def never_played(sums: Iterable[WorkSum]) -> tuple[WorkSum, ...]:
    """Return the works of which no performance is noted, by title; those to come are told by their ``coming``."""
    return tuple(sorted((one for one in sums if not one.events), key=lambda one: one.work.title))


def not_played_for(sums: Iterable[WorkSum], years: int, *, today: date) -> tuple[WorkSum, ...]:
    """Return the works last played more than so many years ago and not to come, the longest silent first."""
    silent = [one for one in sums if one.last and not one.coming and whole_years(one.last, today) >= years]
    return tuple(sorted(silent, key=lambda one: (one.last or date.max, one.work.title)))


def whole_years(since: date, until: date) -> int:
    """
    >>> whole_years(date(2020, 3, 10), date(2026, 3, 9))
    5
    """
    return until.year - since.year - ((until.month, until.day) < (since.month, since.day))


def programmed_again(sums: Iterable[WorkSum]) -> tuple[WorkSum, ...]:
    """Return the works that were played more than once, the soonest repeated first."""
    again = [one for one in sums if one.again is not None]
    return tuple(sorted(again, key=lambda one: (one.again or 0, one.work.title)))
