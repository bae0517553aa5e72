"""The best works to send together, by an open-source solver of mixed-integer programmes where it is installed (HiGHS).

The package is in ``requirements-choice.lock``; without it ``catalogue.rules.portfolio`` searches by itself. Both choose
among the same works by the same values, but the solver also proves the best where the search runs out of steps, as
where many minutes are wanted and short works weigh most. A set that the search proves quickly needs no solver: it is
loaded when it is first asked, as that takes a third of a second.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import import_module
from importlib.util import find_spec
from threading import Lock
from typing import Any

from catalogue.rules.portfolio import FAR, Choice, Item, Wish, best_choice, best_choices, searched, usable

PACKAGE = "highspy"
FIRST_STEPS = 30_000
MOST_NODES = 20_000
MOST_SECONDS = 5.0
NEAR = 1e-6  # how far apart two values are told as the same
STANDARD_OUTPUT = 1
ONE_AT_A_TIME = Lock()

Row = tuple[float, float, dict[int, float]]
"""Least, most, and how much each column adds."""


def is_installed() -> bool:
    """Say whether the solver's package is there."""
    return find_spec(PACKAGE) is not None


def best_sets(items: Sequence[Item], wish: Wish) -> tuple[Choice, ...]:
    """Return three good sets, the best first, each proven where the solver is installed."""
    return best_choices(items, wish, choose=proven if is_installed() else best_choice)


def proven(items: Sequence[Item], wish: Wish, unlike: tuple[frozenset[int], ...] = ()) -> Choice | None:
    """Return the best set that is none of ``unlike``, by the solver where a short search does not prove it."""
    search = searched(items, wish, unlike, steps=FIRST_STEPS)
    return search.found if search.is_complete else solved(items, wish, unlike)


def solved(items: Sequence[Item], wish: Wish, unlike: tuple[frozenset[int], ...] = ()) -> Choice | None:
    """Return what the solver finds; where it was stopped, the better of that and of what the search finds."""
    works = usable(items, wish)
    if not works:
        return best_choice(items, wish, unlike)
    answer = ask(programme(works, wish, unlike))
    if answer.is_impossible:
        return None
    chosen = tuple(works[at] for at in answer.taken)
    found = Choice(chosen, worth(chosen, wish), answer.is_proven) if is_within(chosen, wish) else None
    if found is not None and found.proven:
        return found
    both = [one for one in (found, best_choice(items, wish, unlike)) if one is not None]
    return max(both, key=lambda one: one.value, default=None)


def worth(chosen: Sequence[Item], wish: Wish) -> float:
    """Return the weights of a set, and what each of its classes after the first adds."""
    known = {name for one in chosen for name in one.classes} & wish.contrasting
    return sum(one.weight for one in chosen) + wish.contrast * max(0, len(known) - 1)


def is_within(chosen: Sequence[Item], wish: Wish) -> bool:
    """Whether a set has the number of works and the length that are asked for, reckoned without rounding."""
    seconds = sum(one.seconds or 0 for one in chosen)
    longest = FAR if wish.total_max is None else wish.total_max
    return wish.least <= len(chosen) <= wish.most and (wish.total_min or 0) <= seconds <= longest


# ---- the works as a mixed-integer programme


@dataclass(frozen=True, slots=True)
class Programme:
    """What is to be made as large as can be: a column is a work that is taken (1) or left (0), then the contrast's.

    ``values`` is what each column adds, ``least`` and ``most`` its bounds; the first ``works`` columns are whole.
    """

    works: int
    values: tuple[float, ...]
    least: tuple[float, ...]
    most: tuple[float, ...]
    rows: tuple[Row, ...]


def programme(works: Sequence[Item], wish: Wish, unlike: tuple[frozenset[int], ...]) -> Programme:
    """Return the programme of a choice.

    Each class that counts for contrast has a column that is at most the number of its works; one more column, which
    takes the same away again, is at least each of them: together they come to the number of classes less one.
    """
    size = len(works)
    classes = sorted(wish.contrasting) if wish.contrast else []
    further = len(classes) + bool(classes)
    pinned = tuple(float(one.id in wish.pinned) for one in works)
    return Programme(
        size,
        (*(one.weight for one in works), *(wish.contrast for _ in classes), *(-wish.contrast for _ in classes[:1])),
        (*pinned, *(0.0 for _ in range(further))),
        tuple(1.0 for _ in range(size + further)),
        (*rows_of_wish(works, wish), *rows_of_contrast(works, classes), *rows_of_unlike(works, unlike)),
    )


def rows_of_wish(works: Sequence[Item], wish: Wish) -> list[Row]:
    lengths = {at: float(one.seconds) for at, one in enumerate(works) if one.seconds}
    longest = FAR if wish.total_max is None else wish.total_max
    needs = [(need.least, FAR, holders(works, need.name)) for need in wish.needs]
    return [
        (wish.least, wish.most, dict.fromkeys(range(len(works)), 1.0)),
        (wish.total_min or 0, longest, lengths),
        *needs,
    ]


def rows_of_contrast(works: Sequence[Item], classes: Sequence[str]) -> list[Row]:
    size, last = len(works), len(works) + len(classes)
    covered = [(0, FAR, {**holders(works, name), size + at: -1.0}) for at, name in enumerate(classes)]
    return [*covered, *((0, FAR, {last: 1.0, size + at: -1.0}) for at in range(len(classes)))]


def rows_of_unlike(works: Sequence[Item], unlike: tuple[frozenset[int], ...]) -> list[Row]:
    """Ask for a work more or less than each set that was told."""
    ids = {one.id for one in works}
    return [
        (1 - len(told), FAR, {at: -1.0 if one.id in told else 1.0 for at, one in enumerate(works)})
        for told in unlike
        if told <= ids
    ]


def holders(works: Sequence[Item], name: str) -> dict[int, float]:
    """Return the columns of the works of a class."""
    return {at: 1.0 for at, one in enumerate(works) if name in one.classes}


# ---- asking


@dataclass(frozen=True, slots=True)
class Solution:
    """The columns of the works that are taken, and whether nothing is better or nothing is possible at all."""

    taken: tuple[int, ...]
    is_proven: bool
    is_impossible: bool


def ask(told: Programme) -> Solution:
    """Have the solver work on a programme, in one thread, up to a number of nodes and of seconds."""
    highs: Any = import_module(PACKAGE)
    with without_output():
        solver = highs.Highs()
    set_up(solver)
    solver.addVars(len(told.values), told.least, told.most)
    solver.changeColsCost(len(told.values), range(len(told.values)), told.values)
    whole = [int(highs.HighsVarType.kInteger)] * told.works
    solver.changeColsIntegrality(told.works, range(told.works), whole)
    for least, most, columns in told.rows:
        solver.addRow(least, solver.inf if most == FAR else most, len(columns), list(columns), list(columns.values()))
    solver.changeObjectiveSense(highs.ObjSense.kMaximize)
    solver.run()
    status, states = solver.getModelStatus(), highs.HighsModelStatus
    values = solver.getSolution().col_value[: told.works]
    taken = tuple(at for at, value in enumerate(values) if value > 0.5)
    return Solution(taken, status == states.kOptimal, status == states.kInfeasible)


@contextmanager
def without_output() -> Iterator[None]:
    """Let nothing out on standard output, below Python too: the solver writes there who made it before it can be told
    not to, and what a command prints may be read by a program."""
    with ONE_AT_A_TIME:
        try:
            kept = os.dup(STANDARD_OUTPUT)
        except OSError:  # a process without standard output
            yield
            return
        try:
            nowhere = os.open(os.devnull, os.O_WRONLY)
            os.dup2(nowhere, STANDARD_OUTPUT)
            os.close(nowhere)
            yield
        finally:
            os.dup2(kept, STANDARD_OUTPUT)
            os.close(kept)


def set_up(solver: Any) -> None:
    options = {
        "output_flag": False,
        "threads": 1,
        "mip_rel_gap": 0.0,
        "mip_abs_gap": NEAR,
        "mip_max_nodes": MOST_NODES,
        "time_limit": MOST_SECONDS,
    }
    for name, value in options.items():
        solver.setOptionValue(name, value)
