"""The main pages as the server of a house hands them out, on as many processes as there are cores, to many at once.

The server is gunicorn with the settings of ``deploy/``. Who asks keeps a connection, as browsers do.
"""

from __future__ import annotations

import importlib.util
import socket
import subprocess
import sys
from collections.abc import Iterator
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
from catalogue.benches.measuring import Bench, Pair, Unit, Unmeasurable
from catalogue.models import Composer, Membership

HOST, SERVER = "127.0.0.1", "gunicorn"
CORES = 2
CLIENTS, EACH = 8, 25
PATIENCE = 60.0
MOST_OUT = 0.99
NOTHING = "/nothing/"
PAGES = {
    "Today": "today", "list of works": "work-list", "list of performances": "performance-list",
    "a public page": "public-composer",
}  # fmt: skip
"""What is asked, and the name of its address, which tells the composer."""


@dataclass(frozen=True, slots=True)
class Load:
    """Many who ask the same page again and again; ``session`` is that of whoever is signed in."""

    port: int
    session: str

    def seconds(self, address: str) -> list[float]:
        """Return how long each answer took, and last how long all of them did."""
        begun = perf_counter()
        with ThreadPoolExecutor(CLIENTS) as crowd:
            taken = [one for each in crowd.map(self.ask, [address] * CLIENTS) for one in each]
        return [*sorted(taken), perf_counter() - begun]

    def ask(self, address: str) -> list[float]:
        connection = HTTPConnection(HOST, self.port, timeout=PATIENCE)
        try:
            return [self.answer(connection, address) for _time in range(EACH)]
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
        connection.request("GET", address, headers={"Cookie": f"{settings.SESSION_COOKIE_NAME}={self.session}"})
        answer = connection.getresponse()
        answer.read()
        return answer

    def rate(self, address: str) -> float:
        """Return how many are answered in a second."""
        *taken, together = self.seconds(address)
        return len(taken) / together

    def slowest(self, address: str) -> float:
        """Return in how many seconds 99 of a hundred are answered."""
        *taken, _together = self.seconds(address)
        return taken[min(int(len(taken) * MOST_OUT), len(taken) - 1)]


# ---- the server


@contextmanager
def served() -> Iterator[int]:
    """Serve the house over the database in use and give the port. Raises Unmeasurable where it cannot be done."""
    name = database_name()
    if importlib.util.find_spec(SERVER) is None:
        raise Unmeasurable(f"{SERVER} is not installed (requirements-server.lock).")
    port = free_port()
    with TemporaryDirectory(prefix="ledgerline-bench-") as folder:
        settled = ["--config", "deploy/gunicorn.conf.py", "--bind", f"{HOST}:{port}"]
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
    raise RuntimeError(f"The server cannot be asked: {log.read_text(encoding='utf-8', errors='replace')[-2000:]}")


@contextmanager
def asked_by_many(size: int, *, address: str, slowest: bool) -> Iterator[Pair]:
    """Prepare a page of a composer of so many performances."""
    database_name()
    composer = catalogue_of(size)
    Composer.objects.filter(pk=composer.pk).update(is_public=True)
    session = session_of(Membership.objects.get(composer=composer).user)
    with served() as port:
        load = Load(port, session)
        told = load.slowest if slowest else load.rate
        yield Pair(ours=partial(told, reverse(address, args=[composer.slug])), bare=partial(told, NOTHING))


BOUND = f"a page of the same server that answers with nothing, asked by {CLIENTS} too"


def of(page: str, address: str) -> Iterator[Bench]:
    for name, slowest in (("requests a second", False), ("99 of a hundred answered", True)):
        yield Bench(
            f"{page}, served to {CLIENTS} clients: {name}, performances",
            BOUND,
            (1_000,),
            partial(asked_by_many, address=address, slowest=slowest),
            stored=True,
            on_disk=True,
            unit=Unit.SECONDS if slowest else Unit.REQUESTS,
            counted=True,
        )


BENCHES = tuple(bench for page, address in PAGES.items() for bench in of(page, address))
