"""The transportation problem behind ``fit``: whole answers, and against every possible answer on small cases."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.instrumentation.matching import cheapest_assignment


def test_a_row_gives_way_to_a_row_that_has_no_other_column() -> None:
    assert cheapest_assignment([1, 1], [1, 1], [[0, 1], [0, None]]) == [[0, 1], [1, 0]]


def test_a_column_without_a_limit_takes_what_is_left() -> None:
    assert cheapest_assignment([5], [2, None], [[0, 10]]) == [[2, 3]]


def test_rows_that_cannot_all_be_served_are_an_error() -> None:
    with pytest.raises(ValueError, match="row 1 cannot be served"):
        cheapest_assignment([1, 1], [1], [[0], [0]])


def cost_of(flow: list[list[int]], costs: list[list[int | None]]) -> int:
    return sum(
        amount * (cost or 0)
        for row, prices in zip(flow, costs, strict=True)
        for amount, cost in zip(row, prices, strict=True)
    )


def least_cost(capacities: list[int], costs: list[list[int | None]]) -> int | None:
    """Try every way to give each row, of one unit, a column."""
    found = []
    for choice in product(range(len(capacities)), repeat=len(costs)):
        prices = [costs[row][column] for row, column in enumerate(choice)]
        if None not in prices and all(choice.count(column) <= room for column, room in enumerate(capacities)):
            found.append(sum(price for price in prices if price is not None))
    return min(found, default=None)


@given(st.data())
def test_the_cost_is_the_least_of_all_possible_ones(data: st.DataObject) -> None:
    rows, columns = data.draw(st.integers(1, 4)), data.draw(st.integers(1, 4))
    price = st.one_of(st.none(), st.integers(0, 9))
    costs = [[data.draw(price) for _ in range(columns)] for _ in range(rows)]
    capacities = [data.draw(st.integers(0, 2)) for _ in range(columns)]
    least = least_cost(capacities, costs)
    if least is None:
        with pytest.raises(ValueError, match="cannot be served"):
            cheapest_assignment([1] * rows, capacities, costs)
    else:
        assert cost_of(cheapest_assignment([1] * rows, capacities, costs), costs) == least
