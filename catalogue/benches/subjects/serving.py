"""The main pages as the server of a house hands them out, on as many processes as there are cores, to many at once.

The server is gunicorn with the settings of ``deploy/``. Who asks keeps a connection, as browsers do.
"""

from __future__ import annotations

import importlib.util
import socket
import subprocess
import sys
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from http.client import HTTPConnection, HTTPException, HTTPResponse
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic, perf_counter, sleep

from django.conf import settings
from django.urls import reverse

from catalogue.benches.apart import database_name, surroundings
from catalogue.benches.catalogues import catalogue_of
from catalogue.benches.houses import session_of
from catalogue.benches.measuring import Bench, Heading, Pair, Unit, Unmeasurable
from catalogue.models import Composer, Membership

HOST, SERVER = "127.0.0.1", "gunicorn"
CORES = 2
CLIENTS, EACH = 8, 50
PATIENCE = 60.0
MOST_OUT = 0.99
NOTHING = "/nothing/"
PAGES = {
    "Today": "today", "list of works": "work-list", "list of performances": "performance-list",
    "a public page": "public-composer", "a public page, to somebody signed in": "public-composer",
}  # fmt: skip
"""What is asked, and the name of its address, which tells the composer."""
OF_STRANGERS = "a public page"
"""What is asked by whoever has no account; all others by somebody signed in."""


@dataclass(frozen=True, slots=True)
class Load:
    """Many who ask for pages by turns, again and again; ``session`` is somebody's, or empty where strangers ask."""

    port: int
    session: str
    clients: int = CLIENTS

    def seconds(self, *addresses: str) -> list[float]:
        """Return how long each answer took, and last how long all of them did."""
        begun = perf_counter()
        with ThreadPoolExecutor(self.clients) as crowd:
            taken = [one for each in crowd.map(self.ask, [addresses] * self.clients) for one in each]
        return [*sorted(taken), perf_counter() - begun]

    def ask(self, addresses: Sequence[str]) -> list[float]:
        connection = HTTPConnection(HOST, self.port, timeout=PATIENCE)
        try:
            return [self.answer(connection, addresses[number % len(addresses)]) for number in range(EACH)]
        finally:
            connection.close()

    def answer(self, connection: HTTPConnection, address: str) -> float:
        """Ask once; again, on a new connection, where the server had closed a quiet one just then, as browsers do."""
        begun = perf_counter()
        try:
            answer = self.asked(connection, address)
        except ConnectionError:
            connection.close()
            answer = self.asked(connection, address)
        if answer.status != 200:
            raise RuntimeError(f"{address} was answered with {answer.status}.")
        return perf_counter() - begun

    def asked(self, connection: HTTPConnection, address: str) -> HTTPResponse:
        shown = {"Cookie": f"{settings.SESSION_COOKIE_NAME}={self.session}"} if self.session else {}
        connection.request("GET", address, headers=shown)
        answer = connection.getresponse()
        answer.read()
        return answer

    def rate(self, *addresses: str) -> float:
        """Return how many are answered in a second."""
        *taken, together = self.seconds(*addresses)
        return len(taken) / together

    def slowest(self, *addresses: str) -> float:
        """Return in how many seconds 99 of a hundred are answered."""
        *taken, _together = self.seconds(*addresses)
        return taken[min(int(len(taken) * MOST_OUT), len(taken) - 1)]


# ---- the server


@contextmanager
def served(*changed: str) -> Iterator[int]:
    """Serve the house over the database in use and give the port; ``changed`` are settings other than the documented.

    Raises Unmeasurable where it cannot be done.
    """
    name = database_name()
    if importlib.util.find_spec(SERVER) is None:
        raise Unmeasurable(f"{SERVER} is not installed (requirements-server.lock).")
    port = free_port()
    with TemporaryDirectory(prefix="ledgerline-bench-") as folder:
        settled = ["--config", "deploy/gunicorn.conf.py", "--bind", f"{HOST}:{port}", *changed]
        command = [sys.executable, "-m", SERVER, *settled, "catalogue.benches.served:application()"]
        told = surroundings(Path(folder)) | {"LEDGERLINE_BENCH_DATABASE": name, "WEB_CONCURRENCY": str(CORES)}
        log = Path(folder) / "server.log"
        with open(log, "wb") as out:
            server = subprocess.Popen(  # noqa: S603
                command, cwd=settings.ROOT, env=told, stdout=out, stderr=out
            )
        try:
            wait_for(server, port, log)
            yield port
        except RuntimeError as fault:
            raise RuntimeError(f"{fault} The server says: {last_words(log)}") from fault
        finally:
            server.terminate()
            server.wait(PATIENCE)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind((HOST, 0))
        return int(probe.getsockname()[1])


def wait_for(server: subprocess.Popen[bytes], port: int, log: Path) -> None:
    """Wait until every process has answered. Raises RuntimeError where the server ends or says nothing."""
    end = monotonic() + PATIENCE
    while monotonic() < end and server.poll() is None:
        try:
            Load(port, "").seconds(NOTHING)
        except (OSError, HTTPException, RuntimeError):
            sleep(0.2)
        else:
            return
    raise RuntimeError(f"The server cannot be asked: {last_words(log)}")


def last_words(log: Path) -> str:
    return log.read_text(encoding="utf-8", errors="replace")[-2000:]


@contextmanager
def asked_by_many(size: int, *, address: str, stranger: bool, slowest: bool) -> Iterator[Pair]:
    """Prepare a page of a composer of so many performances."""
    composer, session = opened(size)
    with served() as port:
        load = Load(port, "" if stranger else session)
        told = load.slowest if slowest else load.rate
        yield Pair(ours=partial(told, reverse(address, args=[composer.slug])), bare=partial(told, NOTHING))


def opened(size: int) -> tuple[Composer, str]:
    """Return a composer of so many performances whose public pages are open, and the session of the owner."""
    database_name()
    composer = catalogue_of(size)
    Composer.objects.filter(pk=composer.pk).update(is_public=True)
    return composer, session_of(Membership.objects.get(composer=composer).user)


BOUND = f"a page of the same server that answers with nothing, asked by {CLIENTS} too"


def of(page: str, address: str) -> Iterator[Bench]:
    for name, slowest in (("requests a second", False), ("99 of a hundred answered", True)):
        yield Bench(
            f"{page}, served to {CLIENTS} clients: {name}, performances",
            BOUND,
            (1_000,),
            partial(asked_by_many, address=address, stranger=page == OF_STRANGERS, slowest=slowest),
            stored=True,
            on_disk=True,
            unit=Unit.SECONDS if slowest else Unit.REQUESTS,
            counted=True,
        )


HEADING = Heading.SERVING
BENCHES = tuple(bench for page, address in PAGES.items() for bench in of(page, address))
