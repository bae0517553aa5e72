"""A large, believable, invented house: many composers, one of them with a long list, all their performances.

Everything follows from a seed and a day. One composer has the long list and a tenth of all performances; the others
share the rest alike. Works are played unevenly, years fill up, some dates are known to the year only, one evening in
twenty-five was cancelled or put off, and about one in fifty is still to come.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice
from random import Random
from typing import Any, NamedTuple

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import Max, Model

from catalogue.benches.bulk import AT_ONCE, begin_histories, settle, write
from catalogue.benches.large_rows import (
    House,
    composer_rows,
    line_rows,
    membership_rows,
    organisation_rows,
    performance_rows,
    person_rows,
    user_rows,
    venue_rows,
    work_rows,
)
from catalogue.models import (
    Composer,
    InstrumentationLine,
    Membership,
    Organisation,
    Performance,
    PerformanceCredit,
    Person,
    ProgrammedWork,
    Venue,
    Work,
)

Tell = Callable[[], None]

IN_HISTORY = (Composer, Membership, Venue, Organisation, Person, Work, Performance, ProgrammedWork, PerformanceCredit)
KINDS = (User, *IN_HISTORY, InstrumentationLine)


@dataclass(frozen=True, slots=True)
class Size:
    """How many composers; how many works the one with the long list has; how many performances there are in all."""

    composers: int
    works: int
    performances: int

    def share(self, place: int) -> tuple[int, int]:
        """Return how many works and performances a composer (from 0) has.

        >>> Size(4, 100, 1000).share(0), Size(4, 100, 1000).share(3), Size(1, 100, 1000).share(0)
        ((100, 100), (3, 300), (100, 1000))
        """
        if self.composers == 1:
            return self.works, self.performances
        largest = self.performances // 10
        rest, over = divmod(self.performances - largest, self.composers - 1)
        return (self.works, largest) if place == 0 else (max(3, self.works // 250), rest + (place <= over))


class Numbers(NamedTuple):
    """The number that the next row of each kind will have; halls, organisations and people are bodies."""

    composer: int
    work: int
    body: int
    event: int


@transaction.atomic
def make_large(size: Size, *, seed: int, today: date, tell: Tell = lambda: None) -> dict[str, int]:
    """Fill the tables of an empty database, all or nothing, and return how many rows of each kind there are.

    ``tell`` is told of every portion of performances.
    """
    stored = fill(tuple(houses_of(size)), seed=seed, today=today, tell=tell)
    begin_histories(IN_HISTORY)
    settle(KINDS)
    return stored


def add_composer(*, works: int, performances: int, today: date) -> Composer:
    """Add a composer with so many works and performances, and no history, to whatever there is already."""
    (added,) = add_composers(((works, performances),), today=today)
    return added


@transaction.atomic
def add_composers(shares: Sequence[tuple[int, int]], *, today: date) -> tuple[Composer, ...]:
    """Add a composer for each pair of so many works and performances, none with a history, each with an owner."""
    begin = Numbers(
        composer=next_key(User, Composer, Membership),
        work=next_key(Work),
        body=next_key(Venue, Organisation, Person),
        event=next_key(Performance),
    )
    houses = tuple(houses_from(begin, shares))
    fill(houses, seed=begin.composer, today=today)
    settle(KINDS)
    return tuple(Composer.objects.filter(pk__in=[house.composer for house in houses]).order_by("pk"))


def next_key(*kinds: type[Model]) -> int:
    return 1 + max(kind._base_manager.aggregate(last=Max("pk"))["last"] or 0 for kind in kinds)


def bodies_around(performances: int) -> int:
    return min(300, 8 + performances // 50)


def fill(houses: tuple[House, ...], *, seed: int, today: date, tell: Tell = lambda: None) -> dict[str, int]:
    """Write all rows of these composers and return how many of each kind there are."""
    chance = Random(seed)  # noqa: S311 - no secret hangs on it
    stored = {
        model._meta.verbose_name_plural: write(model, rows)
        for model, rows in (
            (User, user_rows(houses)),
            (Composer, composer_rows(houses)),
            (Membership, membership_rows(houses)),
            (Venue, venue_rows(houses)),
            (Organisation, organisation_rows(houses)),
            (Person, person_rows(houses)),
            (Work, work_rows(houses, chance)),
            (InstrumentationLine, line_rows(houses)),
        )
    }
    stored |= write_performances(houses, chance, today, tell)
    return {str(name): number for name, number in stored.items()}


def houses_of(size: Size) -> Iterator[House]:
    """Give each composer of an empty database the numbers that the rows of theirs will have."""
    return houses_from(Numbers(1, 1, 1, 1), map(size.share, range(size.composers)))


def houses_from(begin: Numbers, shares: Iterable[tuple[int, int]]) -> Iterator[House]:
    """Give each composer, who has so many works and performances, the next numbers of every kind."""
    composer, works, bodies, events = begin
    for own_works, own_events in shares:
        around = bodies_around(own_events)
        yield House(
            composer=composer,
            works=range(works, works + own_works),
            bodies=range(bodies, bodies + around),
            events=range(events, events + own_events),
        )
        composer, works, bodies, events = composer + 1, works + own_works, bodies + around, events + own_events


def write_performances(houses: tuple[House, ...], chance: Random, today: date, tell: Tell) -> dict[Any, int]:
    """Write evenings with their programmes and performers, as many at once as a portion holds."""
    told = performance_rows(houses, chance, today)
    stored = dict.fromkeys((Performance, ProgrammedWork, PerformanceCredit), 0)
    while portion := list(islice(told, AT_ONCE)):
        stored[Performance] += write(Performance, (one.evening for one in portion))
        stored[ProgrammedWork] += write(ProgrammedWork, (row for one in portion for row in one.programme))
        stored[PerformanceCredit] += write(PerformanceCredit, (row for one in portion for row in one.credits))
        tell()
    return {model._meta.verbose_name_plural: number for model, number in stored.items()}
