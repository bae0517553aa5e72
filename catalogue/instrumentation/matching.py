"""The cheapest way to give every seat somebody: the transportation problem, solved exactly on whole numbers.

Rows are kinds of seats with how many there are, columns kinds of holders with how many there are (``None`` for as
many as wanted). The method is successive shortest paths (Busacker and Gowen, 1961) on the residual network, with
Bellman's algorithm for the paths because arcs that are taken back have negative cost.
"""

from __future__ import annotations

from collections.abc import Sequence

Costs = Sequence[Sequence[int | None]]
Flow = list[list[int]]


def cheapest_assignment(counts: Sequence[int], capacities: Sequence[int | None], costs: Costs) -> Flow:
    """Return how many of each row go to each column so that all rows are served at the least total cost.

    ``costs`` holds the cost of one unit, ``None`` where a row cannot go to a column. Raises ``ValueError`` where
    the rows cannot all be served.

    >>> cheapest_assignment([2, 1], [2, 1], [[1, 5], [1, None]])
    [[1, 1], [1, 0]]
    """
    flow = [[0] * len(capacities) for _ in counts]
    free = list(capacities)
    for row, count in enumerate(counts):
        left = count
        while left:
            path = cheapest_path(row, flow, free, costs)
            if path is None:
                raise ValueError(f"row {row} cannot be served")
            left -= push(path, left, flow, free)
    return flow


def cheapest_path(row: int, flow: Flow, free: Sequence[int | None], costs: Costs) -> list[tuple[int, int]] | None:
    """Return the steps (row, column) from a row to the cheapest column with room, ``None`` where there is none.

    Between two steps the path goes back along the next step's row, which gives up one unit of the column before.
    """
    reached = {row: 0}
    columns: dict[int, int] = {}
    came: dict[int, int] = {}
    given_up: dict[int, int] = {}
    waiting = [row]
    while waiting:
        one = waiting.pop(0)
        for column, cost in enumerate(costs[one]):
            if cost is None or reached[one] + cost >= columns.get(column, reached[one] + cost + 1):
                continue
            columns[column], came[column] = reached[one] + cost, one
            for other, taken in enumerate(flow):
                back = costs[other][column]
                if other != row and taken[column] and back is not None:
                    total = columns[column] - back
                    if total < reached.get(other, total + 1):
                        reached[other], given_up[other] = total, column
                        waiting.append(other)
    open_columns = [column for column in columns if free[column] is None or free[column]]
    if not open_columns:
        return None
    return steps_to(min(open_columns, key=lambda column: (columns[column], column)), row, came, given_up)


def steps_to(column: int, row: int, came: dict[int, int], given_up: dict[int, int]) -> list[tuple[int, int]]:
    steps = [(came[column], column)]
    while steps[-1][0] != row:
        before = given_up[steps[-1][0]]
        steps.append((came[before], before))
    return steps[::-1]


def push(path: list[tuple[int, int]], wanted: int, flow: Flow, free: list[int | None]) -> int:
    """Send as many units along the path as it bears, and return how many those are."""
    backward = [(row, column) for (row, _), (_, column) in zip(path[1:], path[:-1], strict=True)]
    last = path[-1][1]
    room = free[last]
    amount = min([wanted, *([] if room is None else [room]), *(flow[row][column] for row, column in backward)])
    for row, column in path:
        flow[row][column] += amount
    for row, column in backward:
        flow[row][column] -= amount
    if room is not None:
        free[last] = room - amount
    return amount
