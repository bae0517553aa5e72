"""Many at once beside the same requests one after another: what people wait for each other's saving.

Each has a connection of their own, as each thread of a server has; a reader opens the list of works, a writer sends the
form of one work.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import partial
from itertools import count

from django.db import connection
from django.test import Client

from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.benches.rows import store
from catalogue.models import Composer, Work

THREADS = 8
WORKS = 100
Errand = Callable[[], int]


def together(errands: Sequence[Errand]) -> int:
    """Run errands on as many threads as a server has and return how many; each has to be answered as it should."""
    with ThreadPoolExecutor(THREADS) as crowd:
        for status in crowd.map(alone, errands):
            refuse_failure(status)
    return len(errands)


def alone(errand: Errand) -> int:
    try:
        return errand()
    finally:
        connection.close()


def in_turn(errands: Sequence[Errand]) -> int:
    for errand in errands:
        refuse_failure(errand())
    return len(errands)


def refuse_failure(status: int) -> None:
    if status not in {200, 302, 304}:
        raise RuntimeError(f"A request was answered with {status}.")


def reading(composer: Composer) -> int:
    return signed_in(composer).get(f"/c/{composer.slug}/works/").status_code


def saving(composer: Composer, work: int, numbers: Iterator[int]) -> int:
    typed = saved_title(next(numbers), saves_of(work))
    status = signed_in(composer).post(f"/c/{composer.slug}/works/{work}/edit/", typed).status_code
    if status != 302:
        raise RuntimeError(f"A save was answered with {status}: it was not stored.")
    return status


def saves_of(work: int) -> int:
    """Return how often a work has been saved, as the form of it that is opened now tells."""
    return Work.objects.values_list("saves", flat=True).get(pk=work)


def saved_title(number: int, saves: int) -> dict[str, str]:
    """Return what the form of a work sends that is given a title."""
    typed = {"title": f"Saved {number}", "category": "other", "status": "active", "movements": "", "saves": str(saves)}
    return typed | {"commissions-TOTAL_FORMS": "0", "commissions-INITIAL_FORMS": "0"}


def signed_in(composer: Composer) -> Client:
    client = Client(headers={"host": "localhost"})
    client.cookies["sessionid"] = SESSIONS[composer.pk]
    return client


SESSIONS: dict[int, str] = {}
"""The session of whoever keeps each catalogue that was made."""


def furnished() -> Composer:
    composer = store(works=WORKS, performances=WORKS)
    client = Client()
    client.force_login(composer.memberships.get().user, backend="django.contrib.auth.backends.ModelBackend")
    SESSIONS[composer.pk] = client.cookies["sessionid"].value
    return composer


def edits(composer: Composer, number: int) -> list[Errand]:
    """Return that many saves, each of a work of its own as long as there are enough."""
    works = list(Work.objects.filter(composer=composer).values_list("pk", flat=True)[:WORKS])
    numbers = count()
    return [partial(saving, composer, works[one % len(works)], numbers) for one in range(number)]


@contextmanager
def saves(size: int) -> Iterator[Pair]:
    errands = edits(furnished(), size)
    yield Pair(ours=partial(together, errands), bare=partial(in_turn, errands))


@contextmanager
def readers(size: int) -> Iterator[Pair]:
    composer = furnished()
    errands: list[Errand] = [partial(reading, composer) for _reader in range(size)]
    for place, errand in enumerate(edits(composer, size // 10)):
        errands.insert(place * 11, errand)
    yield Pair(ours=partial(together, errands), bare=partial(in_turn, errands))


BOUND = "the same requests one after another"
HEADING = Heading.SERVING
BENCHES = (
    Bench(f"saves by {THREADS} people at once", BOUND, (8, 80), saves, aim=1.5, stored=True, on_disk=True),
    Bench(
        f"lists opened by {THREADS} at once, beside a tenth as many saves",
        BOUND,
        (20, 200),
        readers,
        aim=1.5,
        stored=True,
        on_disk=True,
    ),
)
