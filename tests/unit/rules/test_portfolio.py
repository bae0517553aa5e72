from __future__ import annotations

import itertools
import random

import pytest

from catalogue.rules.portfolio import Choice, Item, Need, Wish, best_choice, best_choices


def items(seed: int, number: int) -> list[Item]:
    dice = random.Random(seed)  # noqa: S311
    classes = ("solo", "choir", "orchestra")
    return [
        Item(
            at,
            f"Work {at}",
            dice.randrange(120, 1500, 30),
            round(dice.uniform(0, 5), 2),
            frozenset({dice.choice(classes)}),
        )
        for at in range(number)
    ]


def by_trying_all(works: list[Item], wish: Wish) -> float | None:
    """Return the best value of all allowed sets, each tried."""
    values = []
    for size in range(wish.least, wish.most + 1):
        for chosen in itertools.combinations(works, size):
            ids = {one.id for one in chosen}
            total = sum(one.seconds or 0 for one in chosen)
            if not (wish.total_min or 0) <= total <= (wish.total_max or 10**9):
                continue
            if not wish.pinned <= ids or wish.banned & ids:
                continue
            if any(sum(need.name in one.classes for one in chosen) < need.least for need in wish.needs):
                continue
            covered = {name for one in chosen for name in one.classes} & wish.contrasting
            values.append(sum(one.weight for one in chosen) + wish.contrast * max(0, len(covered) - 1))
    return max(values) if values else None


@pytest.mark.parametrize("seed", range(25))
def test_the_choice_is_the_best_of_all_sets(seed: int) -> None:
    works = items(seed, 11)
    wish = Wish(
        least=2, most=4, total_min=900, total_max=2400, needs=(Need("choir"),) if seed % 2 else (),
        pinned=frozenset({3}) if seed % 3 == 0 else frozenset(), banned=frozenset({5}),
        contrasting=frozenset({"solo", "choir", "orchestra"}), contrast=1.5,
    )  # fmt: skip

    found = best_choice(works, wish)

    wanted = by_trying_all(works, wish)
    assert (found and round(found.value, 6)) == (None if wanted is None else round(wanted, 6))
    assert found is None or found.proven


def test_three_answers_differ_and_grow_no_better() -> None:
    found = best_choices(items(1, 30), Wish(3, 3, total_max=2700))

    assert len({one.ids for one in found}) == 3
    assert [one.value for one in found] == sorted((one.value for one in found), reverse=True)


def test_a_search_that_is_stopped_says_so() -> None:
    works = [Item(at, f"Work {at}", 301 + 7 * at, (301 + 7 * at) / 100) for at in range(40)]

    found = best_choice(works, Wish(5, 5, total_max=2003), steps=2000)

    assert isinstance(found, Choice)
    assert not found.proven


def test_nothing_is_chosen_where_nothing_is_allowed() -> None:
    assert best_choice(items(3, 5), Wish(2, 2, total_max=60)) is None


def test_a_work_of_unknown_length_is_left_out_where_the_minutes_count() -> None:
    works = [Item(1, "A", None, 9.0), Item(2, "B", 300, 1.0)]

    bounded, free = best_choice(works, Wish(1, 1, total_max=600)), best_choice(works, Wish(1, 1))

    assert (bounded and bounded.ids, free and free.ids) == (frozenset({2}), frozenset({1}))
