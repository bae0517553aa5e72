"""Search in any script among 10,000 works, folding case and marks: how many hold the words, and the first fifty."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from time import sleep

from catalogue.benches.catalogues import catalogue_of
from catalogue.benches.measuring import Bench, Pair
from catalogue.models import Work
from catalogue.web.tables.lists import PER_PAGE

TYPED = ("river", "ΣΧΟΙΝΊ", "медленная", "庭", "lak", "nowhere at all")
CLASS = 0.010  # seconds
WORKS = 10_000


@contextmanager
def search(size: int) -> Iterator[Pair]:
    works = Work.objects.filter(composer=catalogue_of(size * 10))

    def ours() -> list[tuple[int, list[int]]]:
        found = [works.matching(text) for text in TYPED]
        return [(one.count(), list(one.newest_first().values_list("pk", flat=True)[:PER_PAGE])) for one in found]

    def bare() -> float:
        sleep(CLASS * len(TYPED))
        return CLASS

    yield Pair(ours=ours, bare=bare)


BENCHES = (Bench("six searches in five scripts, works", "ten milliseconds each", (WORKS,), search, aim=1, stored=True),)
