"""How often works were performed, and on which day last.

Of each work it is counted where it is asked for first, and brought forward by what was saved: a playing that came is
added, one that went is taken away, and a work is counted again only where the last of its playings went.
"""

from __future__ import annotations

from array import array
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import lru_cache
from typing import Any, NamedTuple

from django.db.models import Count, Max, Q

from catalogue.gathering.kept_counts import Keeper
from catalogue.gathering.new_lines import Change, Values, changes
from catalogue.gathering.once import Brought, Following, Step, once_for_each_state
from catalogue.gathering.versions import State, Version
from catalogue.models import Performance, ProgrammedWork, Work
from catalogue.terms import PerformanceStatus

FEWEST_KEPT = 2_000
"""Of fewer playings no file is written: they are counted in no time."""
MOST_DAYS = 65_536
HAPPENED = (PerformanceStatus.GIVEN.value, PerformanceStatus.OLD_STYLE_DATE.value)
TOOK_PLACE = Q(performance__deleted_at__isnull=True, performance__status__in=HAPPENED)
OF_EVENING = ("status", "last_day", "deleted_at")
OF_ROW = ("performance_id", "work_id")


class Tally(NamedTuple):
    """How often a work was performed, and on which day last."""

    times: int = 0
    last: date | None = None


NEVER = Tally()
Tallies = Mapping[int, Tally]


@dataclass(frozen=True, slots=True)
class Counted:
    """The tallies of works that were asked for, those that were never performed too; or of all works, without these."""

    tallies: Tallies = field(default_factory=dict)
    is_whole: bool = False


@once_for_each_state(128)
def tallies_at(_state: State, works: frozenset[int]) -> Tallies:
    """Count the performances of some works, by the work; those that were never performed are left out."""
    return counted(ProgrammedWork.objects.filter(work__in=works))


def tallies_among(state: State, composer: int, works: Collection[int]) -> Tallies:
    """Return how often some works of a composer were performed, whose lists are in this state."""
    known = _brought.to(state, composer)
    missing = [] if known.is_whole else [work for work in works if work not in known.tallies]
    if missing:
        found = counted(ProgrammedWork.objects.filter(work__in=missing))
        known = Counted({**known.tallies, **dict.fromkeys(missing, NEVER), **found})
        _brought.learned(state, composer, known, is_costly=sum(tally.times for tally in found.values()) >= FEWEST_KEPT)
    return known.tallies


def tallies_of(state: State, composer: int) -> Tallies:
    """Return how often all works of a composer were performed; those that never were are left out."""
    known = _brought.to(state, composer)
    if not known.is_whole:
        known = Counted(count_all(composer), is_whole=True)
        _brought.learned(state, composer, known, is_costly=True)
    return known.tallies


def counted(played: Any) -> dict[int, Tally]:
    told = played.filter(TOOK_PLACE).order_by().values_list("work")
    rows = told.annotate(times=Count("performance", distinct=True), last=Max("performance__last_day"))
    return {work: Tally(times, last) for work, times, last in rows}


def count_all(composer: int) -> dict[int, Tally]:
    """Count those of all works, which are named in a question of their own: else SQLite goes through all playings."""
    theirs = Work.with_deleted.filter(composer=composer).order_by().values("pk")
    return counted(ProgrammedWork.objects.filter(work__in=theirs))


# ---- from one version to another


def bring_forward(known: Counted, since: Version, until: Version, composer: int) -> Step[Counted] | None:
    evenings = changes(Performance, since, until, OF_EVENING, composer=composer)
    rows = changes(ProgrammedWork, since, until, OF_ROW)
    if evenings is None or rows is None:
        return None
    lines = len(evenings) + len(rows)
    moved = {change.key: change for change in evenings if happened(change.before) != happened(change.now)}
    other = [change for change in rows if change.before != change.now]
    if not moved and not other:
        return Step(known, lines)
    tallies, again, touched = dict(known.tallies), set(), set()
    for work, before, now in turns(moved, other, composer):
        tally = tallies.get(work, NEVER if known.is_whole else None)
        if tally is not None:
            if before and tally.last == before.last and (now is None or now.last != before.last):
                again.add(work)
            touched.add(work)
            tallies[work] = Tally(tally.times - bool(before) + bool(now), latest(tally.last, now))
    if again:
        tallies |= {**dict.fromkeys(again, NEVER), **counted(ProgrammedWork.objects.filter(work__in=again))}
    if any(tallies[work].times < 0 for work in touched):
        return None
    if known.is_whole:
        for work in touched:
            if not tallies[work].times:
                del tallies[work]
    return Step(Counted(tallies, known.is_whole), lines, is_exact=False)


class Turn(NamedTuple):
    """A work at a performance that was saved: how it took place before, and how it does now; None where it did not."""

    work: int
    before: Tally | None
    now: Tally | None


def turns(moved: Mapping[int, Change], rows: Sequence[Change], composer: int) -> Iterator[Turn]:
    """Give what has changed, of each work at each performance once, however often it stands on the programme."""
    told = [values for change in rows for values in (change.before, change.now) if values]
    touched = {performance for performance, _work in told} | set(moved)
    standing = ProgrammedWork.objects.filter(performance__in=touched).values_list("performance", "work", "pk")
    saved = {change.key for change in rows}
    stay = {(performance, work) for performance, work, row in standing if row not in saved}
    was, is_now = (
        stay | {change.before for change in rows if change.before},
        stay | {change.now for change in rows if change.now},
    )
    evenings = Performance.with_deleted.filter(composer=composer, pk__in=touched).values_list("pk", *OF_EVENING)
    now = {key: happened(tuple(values)) for key, *values in evenings}
    for performance, work in was | is_now:
        change = moved.get(performance)
        before = happened(change.before) if change else now.get(performance)
        after = happened(change.now) if change else now.get(performance)
        yield Turn(
            work,
            before if (performance, work) in was else None,
            after if (performance, work) in is_now else None,
        )


def happened(values: Values | None) -> Tally | None:
    """Return a performance that took place as one of a work; None for another."""
    if values is None:
        return None
    status, last_day, deleted_at = values
    return Tally(1, last_day) if deleted_at is None and status in HAPPENED else None


def latest(day: date | None, now: Tally | None) -> date | None:
    days = [one for one in (day, now and now.last) if one is not None]
    return max(days, default=None)


# ---- as bytes


def written(found: Counted) -> bytes | None:
    """Return whether all are there, then of each work its number, how often it was performed, and the day's number."""
    if sum(tally.times for tally in found.tallies.values()) < FEWEST_KEPT:
        return None
    return array("q", [int(found.is_whole), *numbers_of(found.tallies.items())]).tobytes()


def numbers_of(tallies: Iterable[tuple[int, Tally]]) -> Iterator[int]:
    for work, (times, last) in tallies:
        yield from (work, times, last.toordinal() if last else 0)


def read(content: bytes) -> Counted:
    told = array("q")
    told.frombytes(content)
    each = map(Tally._make, zip(told[2::3], map(day_of, told[3::3]), strict=True))
    return Counted(dict(zip(told[1::3], each, strict=True)), bool(told[0]))


@lru_cache(maxsize=MOST_DAYS)
def day_of(number: int) -> date | None:
    return date.fromordinal(number) if number else None


_brought: Brought[Counted] = Brought(
    Following(lambda _composer: Counted(), bring_forward, written, read, begins_empty=True),
    Keeper("tallies", __file__),
    most=32,
)
