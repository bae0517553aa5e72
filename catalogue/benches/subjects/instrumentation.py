"""Reading instrumentations, beside cutting the same texts into tokens and no more.

No text stands twice, but as in a catalogue the orchestral ones share the places of their winds and the rest with one
another, and lists of instruments, a fifth of the texts, share names: each is read once and remembered (see
``catalogue.instrumentation.orchestras`` and ``catalogue.instrumentation.lists``), and nothing is remembered before a
measuring begins. Lists are measured by themselves as well, and once more with everything forgotten before each of them:
that is what a text costs that is like no other, and no aim is set for it. Making the values of such a reading alone,
with nothing read, takes twice what cutting the text takes; the rest is spent on looking at each place for what the
trade may mean there.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager

from catalogue.benches.invented import forces
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.instrumentation import Instrumentation, lists, orchestras, read

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
            before=forget,
        )

    return prepared


def forget() -> None:
    """Forget what has been read before."""
    for memory in (orchestras.kept, orchestras.places, lists.kept):
        memory.clear()


@contextmanager
def unlike_any(size: int) -> Iterator[Pair]:
    """Prepare so many lists, each of which is read as if it were the first."""
    given = [forces(number) for number in of_lists(size)]
    yield Pair(ours=lambda: [read_first(text) for text in given], bare=lambda: [tokens(text) for text in given])


def read_first(text: str) -> Instrumentation:
    """Return the forces of a text, of which nothing is remembered."""
    forget()
    return read(text)


def of_lists(size: int) -> range:
    return range(LIST_EACH - 1, size * LIST_EACH, LIST_EACH)


HEADING = Heading.RECKONING
BENCHES = (
    Bench("read instrumentations", BOUND, (1_000, 10_000, 100_000), texts(range), aim=AIM, reckons=True),
    Bench("read lists of instruments", BOUND, (1_000, 10_000), texts(of_lists), aim=AIM, reckons=True),
    Bench("read lists, nothing remembered", BOUND, (1_000,), unlike_any, reckons=True),
)
