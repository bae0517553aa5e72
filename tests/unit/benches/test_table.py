"""The table of figures that the repository keeps."""

from __future__ import annotations

from catalogue.benches.measuring import Figure
from catalogue.benches.table import HEAD, renewed

READ = Figure("read", 1_000, 0.8, "cut", 0.2, aim=4)
DRAW = Figure("draw", 10, 0.000_02, "lines", 0.000_01)


def test_a_new_page_has_the_rows_in_the_order_asked_for() -> None:
    assert renewed("", [READ, DRAW], ["draw", "read"]) == HEAD + (
        "| draw | 10 | 20 µs | lines | 10 µs | 2.00 |  |\n| read | 1,000 | 800 ms | cut | 200 ms | 4.00 | 4 |\n"
    )


def test_a_row_that_was_not_measured_stays_and_one_that_is_no_longer_known_goes() -> None:
    page = renewed("", [READ, DRAW, Figure("gone", 1, 1, "x", 1)], ["read", "draw", "gone"])

    again = renewed(page, [Figure("read", 1_000, 0.4, "cut", 0.2, aim=4)], ["read", "draw"])

    assert again == HEAD + (
        "| read | 1,000 | 400 ms | cut | 200 ms | 2.00 | 4 |\n| draw | 10 | 20 µs | lines | 10 µs | 2.00 |  |\n"
    )
