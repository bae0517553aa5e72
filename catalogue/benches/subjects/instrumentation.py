"""Reading instrumentations, beside cutting the same texts into tokens and no more.

No text stands twice, but as in a catalogue the orchestral ones share woodwinds, brasses and the rest with one another,
each of which is read once and remembered (see ``catalogue.instrumentation.orchestras``). Lists of instruments, a fifth
of the texts, share nothing; they are measured by themselves as well.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager

from catalogue.benches.invented import forces
from catalogue.benches.measuring import Bench, Pair
from catalogue.instrumentation import orchestras, read

TOKEN = re.compile(r"(?P<number>[0-9]+)|(?P<word>[^\W\d_]+)|(?P<mark>[^\w\s])")


def tokens(text: str) -> list[tuple[str | None, str, int, int]]:
    """Return kind, text and place of every word, number and mark."""
    return [(found.lastgroup, found.group(), found.start(), found.end()) for found in TOKEN.finditer(text)]


BOUND = "one regular expression cuts the same texts into tokens with their places"
AIM = 4
LIST_EACH = 5


def texts(numbers: Callable[[int], Iterable[int]]) -> Callable[[int], AbstractContextManager[Pair]]:
    """Return what prepares so many texts, those of the numbers for that size; nothing is remembered beforehand."""

    @contextmanager
    def prepared(size: int) -> Iterator[Pair]:
        given = [forces(number) for number in numbers(size)]
        yield Pair(
            ours=lambda: [read(text) for text in given],
            bare=lambda: [tokens(text) for text in given],
            before=orchestras.kept.clear,
        )

    return prepared


def of_lists(size: int) -> range:
    return range(LIST_EACH - 1, size * LIST_EACH, LIST_EACH)


BENCHES = (
    Bench("read instrumentations", BOUND, (1_000, 10_000, 100_000), texts(range), aim=AIM),
    Bench("read lists of instruments", BOUND, (1_000, 10_000), texts(of_lists), aim=AIM),
)
