"""Search in any script among 10,000 works, folding case and marks: how many hold the words, and the first fifty.

It is asked as the list asks, and nothing of it is remembered.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from time import sleep

from catalogue.benches.catalogues import catalogue_of
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.gathering.versions import State
from catalogue.models import Work
from catalogue.web.tables.lists import PER_PAGE, RememberingPaginator

TYPED = ("river", "ΣΧΟΙΝΊ", "медленная", "庭", "lak", "nowhere at all")
CLASS = 0.010  # seconds
WORKS = 10_000
UNSETTLED = State((), is_settled=False)


@contextmanager
def search(size: int) -> Iterator[Pair]:
    works = Work.objects.filter(composer=catalogue_of(size * 10))

    def ours() -> list[tuple[int, list[int]]]:
        lists = [RememberingPaginator(works.matching(text).newest_first(), PER_PAGE, UNSETTLED) for text in TYPED]
        return [(one.count, list(one.keys(0, PER_PAGE))) for one in lists]

    def bare() -> float:
        sleep(CLASS * len(TYPED))
        return CLASS

    yield Pair(ours=ours, bare=bare)


HEADING = Heading.PAGES
BENCHES = (Bench("six searches in five scripts, works", "ten milliseconds each", (WORKS,), search, aim=1, stored=True),)
