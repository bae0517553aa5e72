"""The tables of figures that the repository keeps."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from django.conf import settings

from catalogue.benches.measuring import Bench, Figure, Heading, Pair, Unit
from catalogue.benches.table import COLUMNS, HEAD, TITLE, renewed, stale


@contextmanager
def never(_size: int) -> Iterator[Pair]:
    raise AssertionError("nothing is measured here")
    yield


def bench(name: str, *sizes: int, bound: str = "cut") -> Bench:
    return Bench(name, bound, sizes, never)


def page(sections: str, *past: str) -> str:
    told = "".join(f"- {row}\n" for row in past)
    aims = f"## Past what is aimed at\n\n{told}" if past else "Every row keeps what is aimed at.\n"
    return f"{TITLE}\n{HEAD}\n{aims}{sections}"


READ = Figure("read", 1_000, 0.8, "cut", 0.2, aim=3)
DRAW = Figure("draw", 10, 0.000_02, "lines", 0.000_01)
READING, DRAWING = bench("read", 1_000), bench("draw", 10, bound="lines")
KNOWN = {Heading.DOCUMENTS: [DRAWING], Heading.RECKONING: [READING]}
DRAWN = f"\n## Documents\n\nBeside: lines.\n\n{COLUMNS}| draw | 10 | 20 µs | 10 µs | 2.00 |  |  |\n"


def test_a_new_page_has_its_rows_under_headings_and_says_which_are_past_their_aim() -> None:
    read = f"\n## Reckoning\n\nBeside: cut.\n\n{COLUMNS}| read | 1,000 | 800 ms | 200 ms | 4.00 | 3 |  |\n"

    assert renewed("", [READ, DRAW], KNOWN) == page(DRAWN + read, "read, 1,000: 4.00 (aimed at 3)")


def test_a_row_that_was_not_measured_stays_and_one_that_is_no_longer_known_goes() -> None:
    old = renewed("", [READ, DRAW, Figure("gone", 1, 1, "x", 1)], {Heading.PAGES: [bench("gone", 1)], **KNOWN})

    again = renewed(old, [Figure("read", 1_000, 0.4, "cut", 0.2, aim=3)], KNOWN)

    read = f"\n## Reckoning\n\nBeside: cut.\n\n{COLUMNS}| read | 1,000 | 400 ms | 200 ms | 2.00 | 3 |  |\n"
    assert again == page(DRAWN + read)


def test_what_is_beside_the_same_bound_stands_in_one_table_and_says_how_it_grew() -> None:
    known = {Heading.RECKONING: [bench("read", 1_000, 10_000), bench("tell", 1_000)]}
    figures = [READ, Figure("read", 10_000, 9.6, "cut", 2, aim=5), Figure("tell", 1_000, 1, "cut", 1)]

    assert renewed("", figures, known) == page(
        f"\n## Reckoning\n\nBeside: cut.\n\n{COLUMNS}"
        "| read | 1,000 | 800 ms | 200 ms | 4.00 | 3 |  |\n"
        "| read | 10,000 | 9.6 s | 2.0 s | 4.80 | 5 | 12× for 10× |\n"
        "| tell | 1,000 | 1.0 s | 1.0 s | 1.00 |  |  |\n",
        "read, 1,000: 4.00 (aimed at 3)",
    )


def test_a_row_of_a_size_that_is_no_longer_measured_is_named_and_goes() -> None:
    old = renewed("", [READ, DRAW], KNOWN)
    other = {Heading.DOCUMENTS: [DRAWING], Heading.RECKONING: [bench("read", 10_000)]}

    assert stale(old, other) == ["read, 1,000"]
    assert stale(renewed(old, [], other), other) == []
    assert stale(old, KNOWN) == []


def test_of_requests_a_second_fewer_are_worse_and_of_megabytes_more() -> None:
    served = Figure("served", 8, 25.0, "nothing", 100.0, unit=Unit.REQUESTS)
    held = Figure("held", 100, 250.0, "started", 100.0, aim=3, unit=Unit.MEGABYTES)
    known = {Heading.SERVING: [bench("served", 8, bound="nothing"), bench("held", 100, bound="started")]}

    assert renewed("", [served, held], known) == page(
        f"\n## Many at once\n\nBeside: nothing.\n\n{COLUMNS}"
        "| served | 8 | 25 requests/s | 100 requests/s | 4.00 |  |  |\n"
        f"\nBeside: started.\n\n{COLUMNS}| held | 100 | 250 MB | 100 MB | 2.50 | 3 |  |\n"
    )


def test_the_pages_of_the_repository_have_no_row_that_nothing_measures() -> None:
    pages = sorted(Path(settings.ROOT).glob("FIGURES*.md"))

    assert pages
    assert [row for page in pages for row in stale(page.read_text(encoding="utf-8"))] == []
