"""People who read while others write, each at a person's pace, as the server of a house answers them.

Each opens a page, looks at it for a second and opens the next; who writes opens the form of a work and sends it. Beside
them stands one person alone at the same pace: what many wait longer is what they wait for each other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from http.client import HTTPConnection
from itertools import count
from time import perf_counter, sleep
from urllib.parse import urlencode

from django.conf import settings
from django.urls import reverse

from catalogue.benches.apart import database_name
from catalogue.benches.catalogues import catalogue_of
from catalogue.benches.houses import session_of
from catalogue.benches.measuring import Bench, Heading, Pair, Unit
from catalogue.benches.subjects.crowds import saved_title
from catalogue.benches.subjects.serving import HOST, PATIENCE, served
from catalogue.models import Composer, Membership, Work

READERS, WRITERS = 32, 4
PERFORMANCES = 1_000
PAUSE = 1.0
"""Seconds for which a page is looked at before the next one is opened."""
ROUNDS, WARMING = 15, 3
"""How many pages each reader opens, and how many before it counts."""
LATE = 0.95
TOKEN = "k" * 32
"""The token of the forms, which the browser and the form of this bench both tell."""


@dataclass
class Person:
    """Somebody with a browser of their own; ``seconds`` are how long each of their pages took."""

    port: int
    session: str
    first: float
    seconds: list[float] = field(default_factory=list)

    def ask(self, method: str, address: str, body: bytes | None = None) -> int:
        cookies = f"{settings.SESSION_COOKIE_NAME}={self.session}; {settings.CSRF_COOKIE_NAME}={TOKEN}"
        headers = {"Cookie": cookies, "X-CSRFToken": TOKEN, "Content-Type": "application/x-www-form-urlencoded"}
        connection = HTTPConnection(HOST, self.port, timeout=PATIENCE)
        begun = perf_counter()
        try:
            connection.request(method, address, body, headers)
            answer = connection.getresponse()
            answer.read()
        finally:
            connection.close()
        self.seconds.append(perf_counter() - begun)
        return answer.status

    def read(self, addresses: list[str]) -> None:
        """Open pages by turns; the first people come one after the other, as people do."""
        sleep(self.first)
        for turn in range(ROUNDS + WARMING):
            refuse(self.ask("GET", addresses[turn % len(addresses)]), 200)
            sleep(PAUSE)

    def write(self, address: str, saves: int) -> None:
        sleep(self.first)
        for number in range(saves, saves + ROUNDS + WARMING):
            refuse(self.ask("GET", address), 200)
            sleep(PAUSE)
            refuse(self.ask("POST", address, urlencode(saved_title(number, number)).encode()), 302)


def refuse(status: int, expected: int) -> None:
    if status != expected:
        raise RuntimeError(f"A page was answered with {status} instead of {expected}.")


def late(people: list[Person]) -> float:
    """Return in how many seconds 95 of a hundred pages were there, those before everything was warm left out."""
    taken = sorted(second for one in people for second in one.seconds[WARMING:])
    return taken[min(int(len(taken) * LATE), len(taken) - 1)]


def among_many(composer: Composer, port: int, session: str, readers: int) -> float:
    """Let so many read while four write, each a work of their own; return how soon those who read had their pages."""
    works = list(Work.objects.filter(composer=composer).order_by("pk")[:WRITERS])
    pace = count()
    reading = [Person(port, session, next(pace) * PAUSE / (readers + WRITERS)) for _reader in range(readers)]
    tasks: list[Callable[[], None]] = [partial(one.read, addresses_of(composer)) for one in reading]
    for work in works:
        writer = Person(port, session, next(pace) * PAUSE / (readers + WRITERS))
        tasks.append(partial(writer.write, reverse("work-edit", args=[composer.slug, work.pk]), work.saves))
    with ThreadPoolExecutor(len(tasks)) as crowd:
        for done in [crowd.submit(task) for task in tasks]:
            done.result()
    return late(reading)


def alone(composer: Composer, port: int, session: str) -> float:
    person = Person(port, session, 0.0)
    person.read(addresses_of(composer))
    return late([person])


def addresses_of(composer: Composer) -> list[str]:
    work = Work.objects.filter(composer=composer).order_by("-pk")[0].pk
    lists = [reverse(name, args=[composer.slug]) for name in ("work-list", "performance-list", "today")]
    return [*lists, reverse("work-detail", args=[composer.slug, work])]


@contextmanager
def at_their_pace(size: int) -> Iterator[Pair]:
    database_name()
    composer = catalogue_of(PERFORMANCES)
    session = session_of(Membership.objects.get(composer=composer).user)
    with served() as port:
        yield Pair(
            ours=partial(among_many, composer, port, session, size), bare=partial(alone, composer, port, session)
        )


HEADING = Heading.SERVING
BENCHES = (
    Bench(
        f"95 of a hundred pages of people who read beside {WRITERS} who write, readers",
        f"one reads alone; each looks at a page for {PAUSE:g} s",
        (READERS,),
        at_their_pace,
        stored=True,
        on_disk=True,
        unit=Unit.SECONDS,
        counted=True,
    ),
)
