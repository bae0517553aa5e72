"""The table of figures that the repository keeps."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.conf import settings

from catalogue.benches.measuring import Bench, Figure, Pair, Unit, benches
from catalogue.benches.table import HEAD, renewed, stale


@contextmanager
def never(_size: int) -> Iterator[Pair]:
    raise AssertionError("nothing is measured here")
    yield


def bench(name: str, *sizes: int) -> Bench:
    return Bench(name, "", sizes, never)


READ = Figure("read", 1_000, 0.8, "cut", 0.2, aim=4)
DRAW = Figure("draw", 10, 0.000_02, "lines", 0.000_01)
READING, DRAWING = bench("read", 1_000), bench("draw", 10)


def test_a_new_page_has_the_rows_in_the_order_asked_for() -> None:
    assert renewed("", [READ, DRAW], [DRAWING, READING]) == HEAD + (
        "| draw | 10 | 20 µs | lines | 10 µs | 2.00 |  |\n| read | 1,000 | 800 ms | cut | 200 ms | 4.00 | 4 |\n"
    )


def test_a_row_that_was_not_measured_stays_and_one_that_is_no_longer_known_goes() -> None:
    page = renewed("", [READ, DRAW, Figure("gone", 1, 1, "x", 1)], [READING, DRAWING, bench("gone", 1)])

    again = renewed(page, [Figure("read", 1_000, 0.4, "cut", 0.2, aim=4)], [READING, DRAWING])

    assert again == HEAD + (
        "| read | 1,000 | 400 ms | cut | 200 ms | 2.00 | 4 |\n| draw | 10 | 20 µs | lines | 10 µs | 2.00 |  |\n"
    )


def test_a_row_of_a_size_that_is_no_longer_measured_is_named_and_goes() -> None:
    page = renewed("", [READ, DRAW], [DRAWING, READING])
    other = bench("read", 10_000)

    assert stale(page, [DRAWING, other]) == ["read, 1,000"]
    assert stale(renewed(page, [], [DRAWING, other]), [DRAWING, other]) == []
    assert stale(page, [DRAWING, READING]) == []


def test_of_requests_a_second_fewer_are_worse_and_of_megabytes_more() -> None:
    served = Figure("served", 8, 25.0, "nothing", 100.0, unit=Unit.REQUESTS)
    held = Figure("held", 100, 250.0, "started", 100.0, aim=2, unit=Unit.MEGABYTES)

    page = renewed("", [served, held], [bench("served", 8), bench("held", 100)])

    assert page == HEAD + (
        "| served | 8 | 25 requests/s | nothing | 100 requests/s | 4.00 |  |\n"
        "| held | 100 | 250 MB | started | 100 MB | 2.50 | 2 |\n"
    )


def test_the_page_of_the_repository_has_no_row_that_nothing_measures() -> None:
    page = (Path(settings.ROOT) / "FIGURES.md").read_text(encoding="utf-8")

    assert stale(page, benches()) == []
