"""Two ways of doing the same, measured in turns in one run, so that whatever slows the machine slows both.

Most are timed. What uses memory or is asked by many says itself how much it took, in a unit of its own.
"""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from enum import StrEnum
from importlib import import_module
from itertools import chain
from pkgutil import iter_modules
from statistics import median
from time import perf_counter, process_time

from catalogue.benches import subjects

Way = Callable[[], object]

SECONDS = 8.0
"""How long one size of one bench is repeated, once it has been done once."""
LEAST, MOST = 3, 25
LONG = 20.0
"""What takes longer than this together is done once."""


class Unit(StrEnum):
    """What a figure counts, as JSON names it; of requests a second more is better, of the others less."""

    SECONDS = "seconds"
    MEGABYTES = "megabytes"
    REQUESTS = "requests_a_second"


class Heading(StrEnum):
    """What a subject belongs to, in the order of the page of figures."""

    PAGES = "Pages"
    FEEDS = "Feeds"
    DOCUMENTS = "Documents"
    RECKONING = "Reckoning"
    START = "Start and memory"
    SERVING = "Many at once"


class Unmeasurable(Exception):
    """What cannot be measured on this machine; ``reason`` is a sentence for whoever asked."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Pair:
    """Ours and the bound. ``before`` puts back, unmeasured, what the last time has left behind (a warm memory)."""

    ours: Way
    bare: Way
    before: Way = lambda: None


@dataclass(frozen=True, slots=True)
class Bench:
    """What is measured at which sizes.

    ``bound`` says in words what the bare way does, ``aim`` the ratio that is aimed at. ``prepare`` makes the pair for a
    size, or raises Unmeasurable; ``stored`` where it needs a database, ``on_disk`` where others than this thread open
    it. The ways are timed, or where it is ``counted`` return themselves how much it took, in its ``unit``; what is
    ``steady`` comes out the same each time and is done once. What only ``reckons``, in one thread that waits for
    nothing, is timed by the processor's clock: where a machine is busy the longer way is interrupted more.
    """

    name: str
    bound: str
    sizes: tuple[int, ...]
    prepare: Callable[[int], AbstractContextManager[Pair]]
    aim: float | None = None
    stored: bool = False
    on_disk: bool = False
    unit: Unit = Unit.SECONDS
    counted: bool = False
    steady: bool = False
    reckons: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """The medians of one bench at one size, both in its unit; ``turn``: in how many seconds both were done once."""

    name: str
    size: int
    amount: float
    bound: str
    bound_amount: float
    aim: float | None = None
    unit: Unit = Unit.SECONDS
    turn: float | None = None

    @property
    def ratio(self) -> float:
        """How many times worse ours is than the bound."""
        worse, better = self.amount, self.bound_amount
        if self.unit is Unit.REQUESTS:
            worse, better = better, worse
        return worse / better if better else float("inf")

    @property
    def seconds_of_a_turn(self) -> float:
        return self.amount + self.bound_amount if self.turn is None else self.turn


def benches_by_heading() -> dict[Heading, list[Bench]]:
    """Return every bench of every module in ``subjects`` by its heading, in the order of the modules' names."""
    found: dict[Heading, list[Bench]] = {heading: [] for heading in Heading}
    for name in sorted(module.name for module in iter_modules(subjects.__path__)):
        module = import_module(f"{subjects.__name__}.{name}")
        found[module.HEADING] += module.BENCHES
    return found


def benches() -> tuple[Bench, ...]:
    """Return every bench there is, in the order of the headings."""
    return tuple(chain.from_iterable(benches_by_heading().values()))


def measure(bench: Bench, size: int, *, seconds: float = SECONDS) -> Figure:
    """Measure one size: ours and the bound by turns, the first time for warming up where it is short."""
    taking = counted if bench.counted else reckoned if bench.reckons else timed
    with bench.prepare(size) as pair:
        gc.freeze()
        begun = perf_counter()
        first = turn(pair, 0, taking)
        once = perf_counter() - begun
        taken = [first] if bench.steady or once > LONG else list(turns(pair, seconds, taking))
        gc.unfreeze()
    ours, bare = map(median, zip(*taken, strict=True))
    return Figure(bench.name, size, ours, bench.bound, bare, bench.aim, bench.unit, once if bench.counted else None)


Taking = Callable[[Pair, Way], float]


def turns(pair: Pair, seconds: float, taking: Taking) -> Iterator[tuple[float, float]]:
    end = perf_counter() + seconds
    for number in range(1, MOST + 1):
        yield turn(pair, number, taking)
        if number >= LEAST and perf_counter() > end:
            return


def turn(pair: Pair, number: int, taking: Taking) -> tuple[float, float]:
    """Do both once and return what they took; the bound comes first every second time."""
    if number % 2:
        bare = taking(pair, pair.bare)
        return taking(pair, pair.ours), bare
    return taking(pair, pair.ours), taking(pair, pair.bare)


def timed(pair: Pair, way: Way, clock: Callable[[], float] = perf_counter) -> float:
    pair.before()
    gc.collect()  # quick: what was there before the measuring is frozen
    begun = clock()
    way()
    return clock() - begun


def reckoned(pair: Pair, way: Way) -> float:
    """Time a way by what the processor has given to it."""
    return timed(pair, way, process_time)


def counted(pair: Pair, way: Way) -> float:
    """Have a way say itself how much it took."""
    pair.before()
    said = way()
    if not isinstance(said, int | float):
        raise TypeError(f"What is not timed says how much it took, not {said!r}.")
    return float(said)
