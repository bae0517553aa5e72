"""What has been acknowledged stays, and nothing is half done, however often the program is killed in the midst of it.

They belong to the full lane; ``KILLS=200`` in the environment asks for more kills than its six.
"""

from __future__ import annotations

import os
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, suppress
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from urllib.parse import urlencode

import pytest
from django.conf import settings as site

from catalogue.exchange.backups.archive import BackupError, opened
from tests.unit.exchange.backups.parcels import NEWEST, put_old_database

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif("sqlite3" not in site.DATABASES["default"]["ENGINE"], reason="PostgreSQL is not ours to kill"),
]
KILLS = int(os.environ.get("KILLS", "6"))
TOKEN = "k" * 32
PREPARE = """
from django.contrib.auth.models import User
from django.contrib.sessions.backends.db import SessionStore
from catalogue.actions.composers import create_composer
user = User.objects.create_user("ilse")
create_composer(name="Ilse Tarnow", owner=user, sort_name="Tarnow, Ilse")
session = SessionStore()
session["_auth_user_id"] = str(user.pk)
session["_auth_user_backend"] = "django.contrib.auth.backends.ModelBackend"
session["_auth_user_hash"] = user.get_session_auth_hash()
session.create()
print(session.session_key)
"""
CSV = "Title,Year\n" + "".join(f"Row {number},{1900 + number % 100}\n" for number in range(300))


def command(*words: str) -> list[str]:
    return [sys.executable, str(site.ROOT / "manage.py"), *words]


def environment(data: Path) -> dict[str, str]:
    return {**os.environ, "LEDGERLINE_DATA": str(data), "LEDGERLINE_NO_BOOTSTRAP": "1"}


def run(data: Path, *words: str, typed: str | None = None) -> str:
    done = subprocess.run(
        command(*words), env=environment(data), input=typed, capture_output=True, text=True, check=True
    )
    return done.stdout


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class House:
    """A catalogue of its own that is served by a process of its own, and whoever is signed in there."""

    def __init__(self, data: Path) -> None:
        self.data, self.port = data, free_port()
        run(data, "upgrade")
        self.session = run(data, "shell", "--no-imports", "-v", "0", "-c", PREPARE).split()[-1]
        self.server: subprocess.Popen[bytes] | None = None

    def serve(self) -> None:
        self.server = subprocess.Popen(
            command("start", "--port", str(self.port)), env=environment(self.data), stdout=subprocess.DEVNULL
        )
        until = time.monotonic() + 120
        while time.monotonic() < until:
            with suppress(OSError), closing(socket.create_connection(("127.0.0.1", self.port), 1)):
                return
            time.sleep(0.05)
        raise TimeoutError("The program does not answer.")

    def kill(self) -> None:
        if self.server:
            self.server.send_signal(signal.SIGKILL)
            self.server.wait()
            self.server = None

    def send(self, address: str, body: bytes, kind: str) -> int:
        connection = HTTPConnection("127.0.0.1", self.port, timeout=60)
        headers = {"Content-Type": kind, "Cookie": f"sessionid={self.session}; csrftoken={TOKEN}"}
        headers["X-CSRFToken"] = TOKEN
        with closing(connection):
            connection.request("POST", address, body, headers)
            return connection.getresponse().status

    def save_work(self, title: str) -> int:
        typed = {"title": title, "category": "other", "status": "active"}
        typed |= {"commissions-TOTAL_FORMS": "0", "commissions-INITIAL_FORMS": "0", "movements": "I\nII"}
        return self.send("/c/ilse-tarnow/works/new/", urlencode(typed).encode(), "application/x-www-form-urlencoded")

    def send_table(self) -> int:
        head = 'Content-Disposition: form-data; name="file"; filename="rows.csv"\r\nContent-Type: text/csv\r\n\r\n'
        body = f"--seam\r\n{head}{CSV}\r\n--seam--\r\n".encode()
        return self.send("/c/ilse-tarnow/import/", body, "multipart/form-data; boundary=seam")

    def keep_tables(self) -> None:
        for (batch,) in self.ask("SELECT id FROM catalogue_importbatch WHERE state = 'read'"):
            self.send(f"/c/ilse-tarnow/import/{batch}/keep/", b"", "application/x-www-form-urlencoded")

    def ask(self, question: str) -> list[tuple[object, ...]]:
        with closing(sqlite3.connect(self.data / "catalogue.sqlite3", timeout=60)) as database:
            return database.execute(question).fetchall()


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    found = House(tmp_path / "data")
    yield found
    found.kill()


def assert_sound(house: House) -> None:
    """Whole, nothing that refers to nothing, no work without its history and its parts."""
    assert house.ask("PRAGMA integrity_check") == [("ok",)]
    assert house.ask("PRAGMA foreign_key_check") == []
    without = "SELECT title FROM catalogue_work WHERE id NOT IN (SELECT id FROM catalogue_historicalwork)"
    assert house.ask(without) == []


def kill_after(house: House, seconds: float) -> subprocess.Popen[bytes]:
    """Let another process do the killing, so that it falls in the midst of whatever is going on."""
    assert house.server is not None
    order = f"import os, signal, time; time.sleep({seconds}); os.kill({house.server.pid}, signal.SIGKILL)"
    return subprocess.Popen([sys.executable, "-c", order])


def test_works_that_were_acknowledged_are_there_after_each_kill(house: House) -> None:
    kept: list[str] = []
    count = 0
    for number in range(KILLS):
        house.serve()
        killer = kill_after(house, 0.5 + number * 37 % 26 / 10)
        with suppress(OSError, HTTPException):
            while True:
                count += 1
                assert house.save_work(f"Kept {count}") == 302
                kept.append(f"Kept {count}")
        killer.wait()
        house.kill()
        titles = [title for (title,) in house.ask("SELECT title FROM catalogue_work")]
        assert_sound(house)
        assert sorted(set(kept) - set(titles)) == []
        assert len(titles) == len(set(titles))
        assert house.ask("SELECT count(*) FROM catalogue_movement") == [(2 * len(titles),)]
    assert kept


def test_an_import_is_stored_whole_or_not_at_all(house: House) -> None:
    for number in range(max(KILLS // 3, 2)):
        house.serve()
        assert house.send_table() == 302
        killer = kill_after(house, 0.1 + number * 37 % 30 / 10)
        with suppress(OSError, HTTPException):
            house.keep_tables()
        killer.wait()
        house.kill()
        assert_sound(house)
        (stored,), (batches,) = (
            house.ask("SELECT count(*) FROM catalogue_work")[0],
            house.ask("SELECT count(*) FROM catalogue_importbatch WHERE state = 'kept'")[0],
        )
        assert stored == (300 if batches else 0)


def killed(data: Path, seconds: float, *words: str) -> int:
    """Run a command and kill it after so many seconds; 0 where it was done before."""
    with subprocess.Popen(
        command(*words), env=environment(data), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    ) as process:
        try:
            return process.wait(seconds)
        except subprocess.TimeoutExpired:
            process.kill()
            return process.wait()


@pytest.mark.parametrize("share", [0.5, 0.7, 0.8, 0.9, 0.95])
def test_a_killed_backup_is_no_backup_and_a_killed_restore_leaves_one_catalogue_or_the_other(
    house: House, tmp_path: Path, share: float
) -> None:
    begun = time.monotonic()
    run(house.data, "backup", str(tmp_path / "first.zip"))
    usual = time.monotonic() - begun

    done = killed(house.data, share * usual, "backup", str(tmp_path / "second.zip"))
    with suppress(BackupError), opened(tmp_path / "second.zip"):
        done = 0
    assert (tmp_path / "second.zip").exists() == (done == 0)

    killed(house.data, share * 1.5 * usual, "restore", str(NEWEST))
    assert_sound(house)
    assert house.ask("SELECT name FROM catalogue_composer") == [("Ilse Tarnow",)]
    assert house.ask("SELECT count(*) FROM catalogue_work")[0][0] in (0, 2)
    assert run(house.data, "restore", str(NEWEST), "--json")
    assert house.ask("SELECT count(*) FROM catalogue_work") == [(2,)]


@pytest.mark.parametrize("share", [0.4, 0.6, 0.8, 0.9])
def test_a_killed_upgrade_is_taken_up_again(tmp_path: Path, share: float) -> None:
    data = tmp_path / "data"
    put_old_database(data)
    put_old_database(tmp_path / "other")
    begun = time.monotonic()
    run(tmp_path / "other", "upgrade")
    usual = time.monotonic() - begun

    killed(data, share * usual, "upgrade")

    run(data, "upgrade")
    assert run(data, "upgrade") == "The tables are up to date.\n"
    with closing(sqlite3.connect(data / "catalogue.sqlite3")) as database:
        assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
