"""What a performance history adds up to: minutes played, where and by whom, which works are played again and which not.

A playing is a work on a programme. It lasts as long as was noted, else, where it is complete, as long as the work is
said to last; of an excerpt without a duration nobody knows. Everything that took place is counted, whoever was let in.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Any

IDLE_YEARS = 5


@dataclass(frozen=True, slots=True)
class Played:
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


def sum_of(name: str, played: Iterable[Played]) -> Sum:
    """Add up playings; what is to come counts for ``coming_seconds`` alone."""
    rows = list(played)
    past = [one for one in rows if not one.is_to_come]
    days = sorted(one.day for one in past if one.day)
    return Sum(
        name=name,
        events=len({one.event for one in past}),
        works=len({one.work for one in past}),
        seconds=sum(one.seconds or 0 for one in past),
        unknown=sum(one.seconds is None for one in past),
        coming_seconds=sum(one.seconds or 0 for one in rows if one.is_to_come),
        first=days[0] if days else None,
        last=days[-1] if days else None,
        years=len({day.year for day in days}),
    )


def by_year(played: Iterable[Played]) -> tuple[Sum, ...]:
    """Return a sum a year from the first to the last, years without any among them."""
    found = grouped((one for one in played if one.day), lambda one: one.day.year if one.day else 0)
    every = range(min(found), max(found) + 1) if found else ()
    return tuple(sum_of(str(year), found.get(year, ())) for year in every)


def by_country(played: Iterable[Played]) -> tuple[Sum, ...]:
    """Return a sum a country, by its code, that with most minutes first; without a country last."""
    sums = [sum_of(code, rows) for code, rows in grouped(played, lambda one: one.country).items()]
    return tuple(sorted(with_past(sums), key=lambda one: (not one.name, -one.seconds, -one.events, one.name)))


def by_ensemble(played: Iterable[Played]) -> tuple[Sum, ...]:
    """Return a sum an ensemble, that with most events first."""
    named = [(name, one) for one in played for name in one.ensembles]
    sums = [sum_of(name, (one for _name, one in rows)) for name, rows in grouped(named, lambda pair: pair[0]).items()]
    return tuple(sorted(with_past(sums), key=lambda one: (-one.events, -one.seconds, one.name)))


def with_past(sums: Iterable[Sum]) -> Iterator[Sum]:
    return (one for one in sums if one.events)


def grouped(rows: Iterable[Any], key: Callable[[Any], Any]) -> dict[Any, list[Any]]:
    return {name: list(found) for name, found in groupby(sorted(rows, key=key), key)}


def by_work(works: Iterable[Listed], played: Iterable[Played]) -> tuple[WorkSum, ...]:
    """Return each work with what its playings add up to, the most played first."""
    found = grouped(played, lambda one: one.work)
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
