"""How often works were performed, and on which day last.

Of all the works of a catalogue that is counted once and brought forward afterwards: whatever is saved leaves a line in
a history, so only the works are counted again of which a playing, or a performance, has a line that is new.
"""

from __future__ import annotations

from array import array
from collections.abc import Collection, Mapping
from datetime import date
from typing import Any, NamedTuple

from django.db.models import Count, Max, Min, Q

from catalogue.gathering.kept_counts import Keeper
from catalogue.gathering.once import Brought, Following, Step, once_for_each_state
from catalogue.gathering.versions import State, Version, place_of
from catalogue.models import Performance, ProgrammedWork, Work
from catalogue.terms import PerformanceStatus

MOST_NEW = 500
"""If more lines than these are new, all works are counted again."""
FEWEST_KEPT = 2_000
"""Of fewer playings no file is written: they are counted in no time."""
TOOK_PLACE = Q(
    performance__deleted_at__isnull=True,
    performance__status__in=(PerformanceStatus.GIVEN, PerformanceStatus.OLD_STYLE_DATE),
)


class Tally(NamedTuple):
    """How often a work was performed, and on which day last."""

    times: int = 0
    last: date | None = None


NEVER = Tally()
Tallies = Mapping[int, Tally]


@once_for_each_state(128)
def tallies_at(_state: State, works: frozenset[int]) -> dict[int, Tally]:
    """Count the performances of some works, by the work; those that were never performed are left out."""
    return counted(ProgrammedWork.objects.filter(work__in=works))


def tallies_of(state: State, composer: int) -> Tallies:
    """Count the performances of all works of a composer, whose lists are in this state."""
    return _brought.to(state, composer)


def counted(played: Any) -> dict[int, Tally]:
    told = played.filter(TOOK_PLACE).order_by().values_list("work")
    rows = told.annotate(times=Count("performance", distinct=True), last=Max("performance__last_day"))
    return {work: Tally(times, last) for work, times, last in rows}


def count_all(composer: int) -> Tallies:
    """Count those of all works, which are named in a question of their own: else SQLite goes through all playings."""
    theirs = Work.with_deleted.filter(composer=composer).order_by().values("pk")
    return counted(ProgrammedWork.objects.filter(work__in=theirs))


def bring_forward(known: Tallies, version: Version, _until: Version, composer: int) -> Step[Tallies] | None:
    works = works_with_new_lines(version, composer)
    if works is None:
        return None
    left = {work: tally for work, tally in known.items() if work not in works}
    again = counted(ProgrammedWork.objects.filter(work__in=works, work__composer=composer))
    return Step(left | again, len(works))


def works_with_new_lines(version: Version, composer: int) -> set[int] | None:
    """Return the works that were, or are, played where something was saved since; None where that cannot be told."""
    evenings = new_lines(Performance, version, composer=composer)
    rows = new_lines(ProgrammedWork, version)
    if evenings is None or rows is None:
        return None
    lines: Any = ProgrammedWork.history
    begun = dict(lines.filter(id__in=rows).values_list("id").annotate(first=Min("history_id")))
    if lines.filter(history_id__in=begun.values()).exclude(history_type="+").exists():
        return None  # what stood in a row before its first line is not known
    works = set(lines.filter(id__in=rows).values_list("work", flat=True))
    return works | set(ProgrammedWork.objects.filter(performance__in=evenings).values_list("work", flat=True))


def new_lines(model: Any, version: Version, **owner: Any) -> Collection[int] | None:
    """Return the records that have new lines since a version; None where these are too many."""
    newest = version[place_of(model)] or 0
    lines = model.history.filter(history_id__gt=newest, **owner).order_by().values_list("id", flat=True)
    found = list(lines[: MOST_NEW + 1])
    return None if len(found) > MOST_NEW else set(found)


# ---- as bytes


def written(tallies: Tallies) -> bytes | None:
    """Return the number of each work, how often it was performed, and the number of the day, 0 where there is none."""
    if sum(tally.times for tally in tallies.values()) < FEWEST_KEPT:
        return None
    told = (
        number for work, (times, last) in tallies.items() for number in (work, times, last.toordinal() if last else 0)
    )
    return array("q", told).tobytes()


def read(content: bytes) -> Tallies:
    told = array("q")
    told.frombytes(content)
    rows = zip(told[::3], told[1::3], told[2::3], strict=True)
    return {work: Tally(times, date.fromordinal(last) if last else None) for work, times, last in rows}


_brought: Brought[Tallies] = Brought(
    Following(count_all, bring_forward, written, read), Keeper("tallies", __file__), most=32
)
