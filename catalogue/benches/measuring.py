"""Two ways of doing the same, measured in turns in one run, so that whatever slows the machine slows both."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from importlib import import_module
from pkgutil import iter_modules
from statistics import median
from time import perf_counter

from catalogue.benches import subjects

Way = Callable[[], object]

SECONDS = 8.0
"""How long one size of one bench is repeated, once it has been done once."""
LEAST, MOST = 3, 25
LONG = 20.0
"""What takes longer than this together is done once."""


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
    size; ``stored`` where it needs a database.
    """

    name: str
    bound: str
    sizes: tuple[int, ...]
    prepare: Callable[[int], AbstractContextManager[Pair]]
    aim: float | None = None
    stored: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """The medians of one bench at one size, in seconds."""

    name: str
    size: int
    seconds: float
    bound: str
    bound_seconds: float
    aim: float | None = None

    @property
    def ratio(self) -> float:
        return self.seconds / self.bound_seconds if self.bound_seconds else float("inf")


def benches() -> tuple[Bench, ...]:
    """Return every bench of every module in ``subjects``, in the order of the modules' names."""
    names = sorted(module.name for module in iter_modules(subjects.__path__))
    modules = [import_module(f"{subjects.__name__}.{name}") for name in names]
    return tuple(bench for module in modules for bench in module.BENCHES)


def measure(bench: Bench, size: int, *, seconds: float = SECONDS) -> Figure:
    """Measure one size: ours and the bound by turns, the first time for warming up where it is short."""
    with bench.prepare(size) as pair:
        gc.freeze()
        first = turn(pair, 0)
        taken = [first] if sum(first) > LONG else list(turns(pair, seconds))
        gc.unfreeze()
    ours, bare = zip(*taken, strict=True)
    return Figure(bench.name, size, median(ours), bench.bound, median(bare), bench.aim)


def turns(pair: Pair, seconds: float) -> Iterator[tuple[float, float]]:
    end = perf_counter() + seconds
    for number in range(1, MOST + 1):
        yield turn(pair, number)
        if number >= LEAST and perf_counter() > end:
            return


def turn(pair: Pair, number: int) -> tuple[float, float]:
    """Do both once and return their seconds; the bound comes first every second time."""
    if number % 2:
        bare = timed(pair, pair.bare)
        return timed(pair, pair.ours), bare
    return timed(pair, pair.ours), timed(pair, pair.bare)


def timed(pair: Pair, way: Way) -> float:
    pair.before()
    gc.collect()  # quick: what was there before the measuring is frozen
    begun = perf_counter()
    way()
    return perf_counter() - begun
