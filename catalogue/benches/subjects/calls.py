"""Calls: every work held against one, and the best set chosen, beside the plainest ways of coming near to the same.

The pass beside screening makes four comparisons a work and tells nothing. What a call comes to is told of each work in
five answers, each with its sentence, the record it rests on and what would mend it: making such answers, the same for
every work, takes twelve times the pass. Finding them is given half as much again as making them, hence an aim of 30.

The greedy way beside the choice looks at each work once and proves nothing. The proof sorts the works twice, finds the
price of a second, and takes a few hundred sets through a search, none of them dearer than what the greedy way spends on
a work, for each of three answers: hence an aim of 120. Works whose weights go with their lengths, as where long works
are the ones that are marked, take some thousand sets and have an aim of 300; by which of the two they were measured,
the search alone or the search with a solver beside it, makes no difference to them any more.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from uuid import UUID

from catalogue.benches.invented import catalogue, title
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.facts import CatalogueFacts, TitleFacts, WorkFacts
from catalogue.optimiser import best_sets
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.screening import screen
from catalogue.rules.calls.terms import Call
from catalogue.rules.portfolio import Item, Need, Wish
from catalogue.timing import Duration

CALL = """Larkmoor Prize for Orchestra
Forces, at most: 3.3.3.3 – 4.3.3.1 – 4 perc (incl. timp), hp, pf – 14.12.10.8.6. Usual doublings allowed. No soloists.
Duration: 8 to 20 minutes. Composed on or after 1 January 2005. No electronics.
It has not been performed in public by a professional orchestra. Deadline: 20 March 2027."""
DIFFERENT = 200
"""How many different forces the works have; readings are shared, as they are between versions of a work."""
SINCE = date(2005, 1, 1)


def works_of(size: int) -> CatalogueFacts:
    told = catalogue(works=min(size, DIFFERENT), performances=size)
    return replace(told, works=tuple(repeated(told.works[number % len(told.works)], number) for number in range(size)))


def repeated(work: WorkFacts, number: int) -> WorkFacts:
    minutes = Duration(60 * (3 + number % 25))
    told = TitleFacts(title(number))
    return replace(work, id=number + 1, uid=UUID(int=number + 1), title=told, duration=minutes)


def compared(told: CatalogueFacts, call: Call) -> dict[int, bool]:
    """Hold each work's length, year and number of players against the call and look at each evening once."""
    played = {item.work_id for event in told.performances for item in event.programme}
    least, most = call.duration_min or 0, call.duration_max or 0
    return {
        work.id: bool(work.duration and least <= work.duration.seconds <= most)
        and bool(work.completed and work.completed.first >= SINCE)
        and bool(work.instrumentation and work.instrumentation.counted[0] <= 90)
        and work.id not in played
        for work in told.works
    }


@contextmanager
def held_against_a_call(size: int) -> Iterator[Pair]:
    told, call = works_of(size), read_call(CALL).call
    yield Pair(ours=lambda: screen(call, told), bare=lambda: compared(told, call))


ALIKE = Wish(least=3, most=8, total_min=50 * 60, total_max=60 * 60)
FORCES = ("orchestra", "chamber", "solo", "choir", "voice", "electronics")
WISH = Wish(
    least=3,
    most=5,
    total_min=30 * 60,
    total_max=50 * 60,
    needs=(Need("orchestra"), Need("electronics")),
    contrasting=frozenset(FORCES),
    contrast=2.0,
)


def items(size: int) -> list[Item]:
    """Return works of three to twenty-seven minutes, their weights spread as years, playings and recordings do."""
    return [
        Item(
            number,
            f"Work {number}",
            60 * (3 + number * 7 % 25),
            1 + (number * 37 % 101) / 25,
            frozenset({FORCES[number % len(FORCES)]}),
        )
        for number in range(size)
    ]


def heaviest(works: list[Item]) -> list[Item]:
    """Take the heaviest works that still fit, one after another; nothing is proved and no need is met but by luck."""
    taken: list[Item] = []
    for one in sorted(works, key=lambda item: -item.weight):
        seconds = sum(item.seconds or 0 for item in taken)
        if len(taken) < WISH.most and seconds + (one.seconds or 0) <= (WISH.total_max or 0):
            taken.append(one)
    return taken


@contextmanager
def chosen_among(size: int) -> Iterator[Pair]:
    works = items(size)
    yield Pair(ours=lambda: best_sets(works, WISH), bare=lambda: heaviest(works))


@contextmanager
def chosen_among_like(size: int) -> Iterator[Pair]:
    """Choose among works whose weights go with their lengths but for a little."""
    lengths = [180 + number * 7_919 % 1_621 for number in range(size)]
    works = [
        Item(number, f"Work {number}", seconds, round(seconds / 100 + number * 7_907 % 1_009 / 1_009, 3))
        for number, seconds in enumerate(lengths)
    ]
    yield Pair(ours=lambda: best_sets(works, ALIKE), bare=lambda: heaviest(works))


HEADING = Heading.RECKONING
BENCHES = (
    Bench(
        "screen works against a call",
        "one pass compares length, year, number of players and whether it was played",
        (1_000, 10_000),
        held_against_a_call,
        aim=30,
        reckons=True,
    ),
    Bench(
        "choose three sets of works",
        "the works sorted by weight, the heaviest that fit taken, nothing proved",
        (50, 500),
        chosen_among,
        aim=120,
        reckons=True,
    ),
    Bench(
        "choose three sets of works alike",
        "the works sorted by weight, the heaviest that fit taken, nothing proved",
        (500,),
        chosen_among_like,
        aim=300,
        reckons=True,
    ),
)
