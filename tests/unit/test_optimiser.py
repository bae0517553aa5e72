"""The solver against the search, and against a table of the best weight for each number of works and length."""

from __future__ import annotations

import random
import subprocess
import sys
from dataclasses import replace
from textwrap import dedent

import pytest

from catalogue import optimiser
from catalogue.optimiser import best_sets, proven, solved
from catalogue.rules.portfolio import Item, Need, Wish, best_choice, best_choices, usable

FORCES = frozenset({"solo", "choir", "orchestra"})


@pytest.fixture
def solver() -> None:
    pytest.importorskip(optimiser.PACKAGE, reason="No solver is installed (requirements-choice.lock).")


def works_of_chance(seed: int, number: int = 13) -> list[Item]:
    dice = random.Random(seed)  # noqa: S311
    return [
        Item(
            at,
            f"Work {at}",
            dice.randrange(120, 1500, 30) if dice.random() > 0.1 else None,
            round(dice.uniform(0, 5), 2),
            frozenset(dice.sample(sorted(FORCES), dice.randrange(3))),
        )
        for at in range(number)
    ]


def wish_of_chance(seed: int) -> Wish:
    return Wish(
        least=1 + seed % 3,
        most=3 + seed % 2,
        total_min=900 if seed % 5 else None,
        total_max=2400 if seed % 4 else None,
        needs=(Need("choir", 1 + seed % 2),) if seed % 3 else (),
        pinned=frozenset({3}) if seed % 6 == 0 else frozenset(),
        banned=frozenset({5}),
        contrasting=FORCES,
        contrast=(0.0, 1.5, 4.0)[seed % 3],
    )


def hard_works(seed: int, number: int) -> list[Item]:
    """Return works whose weights go nearly with their lengths, in steps of ten seconds."""
    dice = random.Random(seed)  # noqa: S311
    lengths = [dice.randrange(180, 1800, 10) for _ in range(number)]
    return [
        Item(at, f"Work {at}", one, round(one / 100 + dice.uniform(-0.5, 0.5), 3)) for at, one in enumerate(lengths)
    ]


def best_by_table(works: list[Item], wish: Wish) -> float:
    """Return the best value of so many works by dynamic programming over their number and their length."""
    table: list[dict[int, float]] = [{0: 0.0}, *({} for _ in range(wish.most))]
    for one in works:
        for count in range(wish.most, 0, -1):
            for seconds, value in table[count - 1].items():
                total = seconds + (one.seconds or 0)
                if total <= (wish.total_max or 0) and value + one.weight > table[count].get(total, float("-inf")):
                    table[count][total] = value + one.weight
    return max(value for total, value in table[wish.most].items() if total >= (wish.total_min or 0))


@pytest.mark.usefixtures("solver")
@pytest.mark.parametrize("seed", range(30))
def test_solver_and_search_find_sets_of_the_same_value(seed: int) -> None:
    works, wish = works_of_chance(seed), wish_of_chance(seed)

    searched, by_solver = best_choices(works, wish), best_choices(works, wish, choose=solved)

    assert [round(one.value, 6) for one in by_solver] == [round(one.value, 6) for one in searched]
    assert len({one.ids for one in by_solver}) == len(by_solver)
    assert all(one.proven for one in (*searched, *by_solver))
    pinned = wish.pinned & {one.id for one in usable(works, wish)}
    assert all(pinned <= one.ids and not wish.banned & one.ids for one in by_solver)


SIZES = pytest.mark.parametrize(
    ("number", "count"), [(80, 5), pytest.param(500, 8, marks=pytest.mark.slow)], ids=["80 works", "500 works"]
)


@SIZES
def test_the_search_proves_the_best_where_weights_go_with_lengths(number: int, count: int) -> None:
    works, wish = hard_works(number, number), Wish(count, count, total_min=3000, total_max=3600)

    found = best_choice(works, wish)

    assert found is not None
    assert found.proven
    assert round(found.value, 6) == round(best_by_table(works, wish), 6)


@pytest.mark.usefixtures("solver")
@SIZES
def test_the_solver_proves_the_best_where_the_search_cannot(number: int, count: int) -> None:
    rising, wish = hard_works(number, number), Wish(count, count, total_min=3000, total_max=3600)
    works = [replace(one, weight=20 - one.weight) for one in rising]

    searched, found = best_choice(works, wish), proven(works, wish)

    assert found is not None
    assert (searched is not None and searched.proven, found.proven) == (False, True)
    assert round(found.value, 6) == round(best_by_table(works, wish), 6)


@pytest.mark.usefixtures("solver")
def test_a_solver_that_is_stopped_leaves_the_choice_to_the_search(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(optimiser, "MOST_SECONDS", 0.0)
    works, wish = hard_works(1, 60), Wish(5, 5, total_min=3000, total_max=3600)

    assert solved(works, wish) == best_choice(works, wish)


@pytest.mark.usefixtures("solver")
def test_the_solver_finds_nothing_where_nothing_is_allowed() -> None:
    works = [Item(1, "A", 300, 1.0), Item(2, "B", 400, 2.0)]

    assert solved(works, Wish(2, 2, total_max=60)) is None
    assert solved([], Wish(1, 2)) is None


@pytest.mark.usefixtures("solver")
def test_the_solver_writes_nothing_on_standard_output_and_leaves_it_open() -> None:
    first_use = """
        from catalogue.optimiser import ask, programme
        from catalogue.rules.portfolio import Item, Wish

        works = [Item(at, f"Work {at}", 300 + at, 1.0 + at) for at in range(4)]
        print(ask(programme(works, Wish(2, 2), ())).taken)
    """

    done = subprocess.run([sys.executable, "-c", dedent(first_use)], capture_output=True, text=True, check=True)

    assert (done.stdout, done.stderr) == ("(2, 3)\n", "")


def test_without_a_solver_the_search_answers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(optimiser, "PACKAGE", "a_solver_that_is_not_there")
    works, wish = works_of_chance(1), wish_of_chance(1)

    assert best_sets(works, wish) == best_choices(works, wish)
    assert not optimiser.is_installed()
