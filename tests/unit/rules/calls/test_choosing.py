from __future__ import annotations

import pytest

from catalogue.rules.calls.choosing import Standing, Weights, explained, reasons, weight
from catalogue.rules.portfolio import Choice, Item, Wish

STRONG = Standing(2021, 1.0, 3, is_recorded=True, strength=5, quality=4)
PLAIN = Standing(None, 0.0, 0, is_recorded=False, strength=None, quality=None)


@pytest.mark.parametrize(
    ("standing", "weights", "worth", "said"),
    [
        (STRONG, Weights(4, 2, 5, 2, 4, 0), 1 + 4 + 2 + 3 + 2 + 3, [
            "you mark it 5 of 5", "completed in 2021", "played 3 times", "recorded, the best recording marked 4 of 5",
        ]),
        (STRONG, Weights(0, 0, 0, 2, 0, 0), 3.0, ["recorded"]),
        (STRONG, Weights(0, 0, 0, 0, 0, 5), 1.0, []),
        (PLAIN, Weights(4, 2, 5, 2, 4, 0), 3.0, []),
        (Standing(2008, 0.0, 1, is_recorded=True, strength=1, quality=None), Weights(4, 2, 5, 2, 4, 0), 6.0, [
            "you mark it 1 of 5", "completed in 2008", "played once", "recorded",
        ]),
    ],
)  # fmt: skip
def test_a_work_is_weighed_by_what_counts_and_says_so(
    standing: Standing, weights: Weights, worth: float, said: list[str]
) -> None:
    assert (weight(standing, weights), list(reasons(standing, weights))) == (worth, said)


@pytest.mark.parametrize(
    ("ids", "proven", "last"),
    [
        ((1,), True, "No set is worth more by your weights."),
        ((2,), True, "Only the sets before it are worth more."),
        ((1,), False, "This is the best found; the search was stopped before it was proven."),
    ],
)
def test_a_set_says_how_sure_it_is(ids: tuple[int, ...], proven: bool, last: str) -> None:
    works = {1: Item(1, "Rope", 240, 2.0, reasons=("you mark it 5 of 5",)), 2: Item(2, "Lamp", 240, 1.0)}
    best = Choice((works[1],), 2.0, proven)

    said = explained(Choice(tuple(works[one] for one in ids), 1.0, proven), Wish(), best)

    assert said[-1] == last
    assert ("Rope: you mark it 5 of 5." in said) == (ids == (1,))
