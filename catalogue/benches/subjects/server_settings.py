"""The documented settings of the server beside others, on two cores: the main pages by turns, asked by many at once.

``deploy/gunicorn.conf.py`` holds what measured best; a ratio above 1 says that the other was quicker here.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial

from django.urls import reverse

from catalogue.benches.measuring import Bench, Heading, Pair, Unit
from catalogue.benches.subjects.serving import CLIENTS, Load, opened, served

MAIN = ("today", "work-list", "performance-list", "public-composer")
PERFORMANCES = 1_000
MANY_CLIENTS = 32


def of_threads(processes: int, threads: int) -> tuple[str, ...]:
    return "--worker-class", "gthread", "--workers", str(processes), "--threads", str(threads)


OTHERS: dict[str, tuple[str, ...]] = {
    "2 processes that answer one at a time": ("--worker-class", "sync", "--workers", "2", "--threads", "1"),
    "1 process of 4 threads": of_threads(1, 4),
    "2 processes of 2 threads": of_threads(2, 2),
    "2 processes of 8 threads": of_threads(2, 8),
    "3 processes of 4 threads": of_threads(3, 4),
    "4 processes of 4 threads": of_threads(4, 4),
}
"""Other settings in words, and as the server takes them.

Tried as well, and none of them quicker: four processes that answer one at a time, processes that load the program
together, and such as keep quiet connections for longer.
"""


@contextmanager
def beside(clients: int, *, other: tuple[str, ...], slowest: bool) -> Iterator[Pair]:
    """Serve the same composer twice to so many clients, as documented and with other settings."""
    composer, session = opened(PERFORMANCES)
    addresses = [reverse(name, args=[composer.slug]) for name in MAIN]
    with served() as documented, served(*other) as changed:
        ours, theirs = Load(documented, session, clients), Load(changed, session, clients)
        yield Pair(
            ours=partial(ours.slowest if slowest else ours.rate, *addresses),
            bare=partial(theirs.slowest if slowest else theirs.rate, *addresses),
        )


def with_other(words: str, other: tuple[str, ...]) -> Iterator[Bench]:
    for name, slowest in (("requests a second", False), ("99 of a hundred answered", True)):
        yield Bench(
            f"main pages, served as documented, not by {words}: {name}, clients",
            f"the same pages of the same house, served by {words}",
            (CLIENTS, MANY_CLIENTS),
            partial(beside, other=other, slowest=slowest),
            stored=True,
            on_disk=True,
            unit=Unit.SECONDS if slowest else Unit.REQUESTS,
            counted=True,
        )


HEADING = Heading.SERVING
BENCHES = tuple(bench for words, other in OTHERS.items() for bench in with_other(words, other))
