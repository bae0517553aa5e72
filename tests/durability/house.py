"""A catalogue of its own that a process of its own serves, to be killed, starved and crowded."""

from __future__ import annotations

import os
import signal
import socket
import sqlite3
import subprocess
import sys
import time
from contextlib import closing, suppress
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import urlencode

from django.conf import settings as site

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


def assert_sound(house: House) -> None:
    """Whole, nothing that refers to nothing, no work without its history and its parts."""
    assert house.ask("PRAGMA integrity_check") == [("ok",)]
    assert house.ask("PRAGMA foreign_key_check") == []
    without = "SELECT title FROM catalogue_work WHERE id NOT IN (SELECT id FROM catalogue_historicalwork)"
    assert house.ask(without) == []
