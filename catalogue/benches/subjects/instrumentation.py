"""Reading instrumentations, beside cutting the same texts into tokens and no more."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

from catalogue.benches.invented import forces
from catalogue.benches.measuring import Bench, Pair
from catalogue.instrumentation import read

TOKEN = re.compile(r"(?P<number>[0-9]+)|(?P<word>[^\W\d_]+)|(?P<mark>[^\w\s])")


def tokens(text: str) -> list[tuple[str | None, str, int, int]]:
    """Return kind, text and place of every word, number and mark."""
    return [(found.lastgroup, found.group(), found.start(), found.end()) for found in TOKEN.finditer(text)]


@contextmanager
def texts(size: int) -> Iterator[Pair]:
    given = [forces(number) for number in range(size)]
    yield Pair(
        ours=lambda: [read(text) for text in given],
        bare=lambda: [tokens(text) for text in given],
    )


BENCHES = (
    Bench(
        "read instrumentations",
        "one regular expression cuts the same texts into tokens with their places",
        (1_000, 10_000, 100_000),
        texts,
        aim=4,
    ),
)
