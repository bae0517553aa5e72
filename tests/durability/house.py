"""A catalogue of its own that a process of its own serves, to be killed, starved and crowded.

Where the tests run on SQLite it is a file in a fresh folder, where they run on PostgreSQL a database of its own on the
same server.
"""

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
from secrets import token_hex
from shutil import copytree
from typing import Any
from urllib.parse import urlencode

import psycopg
from django.conf import settings as site
from django.db.backends.sqlite3._functions import register

TOKEN = "k" * 32
FORM = "application/x-www-form-urlencoded"
ON_SQLITE = "sqlite3" in site.DATABASES["default"]["ENGINE"]
PREPARE = """
from django.contrib.auth.models import User
from django.contrib.sessions.backends.db import SessionStore
from catalogue.actions.composers import create_composer
user = User.objects.filter(username="ilse").first() or User.objects.create_user("ilse")
if not user.memberships.exists():
    create_composer(name="Ilse Tarnow", owner=user, sort_name="Tarnow, Ilse")
session = SessionStore()
session["_auth_user_id"] = str(user.pk)
session["_auth_user_backend"] = "django.contrib.auth.backends.ModelBackend"
session["_auth_user_hash"] = user.get_session_auth_hash()
session.create()
print(session.session_key)
"""
CSV = "Title,Year\n" + "".join(f"Row {number},{1900 + number % 100}\n" for number in range(300))
NURSERY = """
import os, sys, traceback
import django
from django.core.management import execute_from_command_line, load_command_class
from django.db.migrations.loader import MigrationLoader
from django.template.loader import get_template
from django.urls import get_resolver
from django.utils.translation import activate, gettext
from catalogue.instrumentation import read
django.setup()
get_resolver().url_patterns
MigrationLoader(None)
for name in ("start", "backup", "restore", "upgrade"):
    load_command_class("catalogue", name)
for name in ("works/work_form.html", "works/work_detail.html", "imports/import_batch.html", "records/record_form.html"):
    get_template(name)
activate("en-gb")
gettext("Save")
read("2.2.2.2 - str")
print("ready", flush=True)
for line in sys.stdin:
    child = os.fork()
    if child:
        print(child, flush=True)
        print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)
        continue
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    try:
        execute_from_command_line(["manage.py", *line.strip().split("\\t")])
        os._exit(0)
    except BaseException:
        traceback.print_exc()
        os._exit(1)
"""
"""Loads the program once, touching no database, and lets a process of its own do each command."""
HISTORIES = ("work", "performance", "storedfile")


def command(*words: str) -> list[str]:
    return [sys.executable, str(site.ROOT / "manage.py"), *words]


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def kill_after(process: int | None, seconds: float) -> subprocess.Popen[bytes]:
    """Let another process do the killing, so that it falls in the midst of whatever is going on."""
    return subprocess.Popen(["sh", "-c", f"sleep {seconds}; kill -9 {process}"], stderr=subprocess.DEVNULL)


def server_of_tests(database: str) -> str:
    """Return where PostgreSQL answers, as a client is told it."""
    told = site.DATABASES["default"]
    parts = {"host": told["HOST"], "port": told["PORT"], "user": told["USER"], "password": told["PASSWORD"]}
    return psycopg.conninfo.make_conninfo(dbname=database, **{key: value for key, value in parts.items() if value})


class House:
    """A catalogue of its own that is served by a process of its own, and whoever is signed in there."""

    def __init__(self, data: Path, like: House | None = None, *, tablespace: str = "pg_default") -> None:
        self.data, self.port = data, free_port()
        self.database = "" if ON_SQLITE else f"house_{token_hex(6)}"
        self.session = like.session if like else ""
        if like:
            copytree(like.data, data)
        if self.database:
            pattern = like.database if like else "template1"
            self.order(f'CREATE DATABASE "{self.database}" TEMPLATE "{pattern}" TABLESPACE "{tablespace}"')
        self.nursery: Any = None
        self.server: int | None = None

    def furnished(self) -> House:
        """Make its tables, whoever keeps it and a session of theirs."""
        self.run("upgrade")
        self.sign_in()
        return self

    def sign_in(self) -> None:
        self.session = self.run("shell", "--no-imports", "-v", "0", "-c", PREPARE).split()[-1]

    def gone(self) -> None:
        self.kill()
        if self.nursery:
            self.nursery.communicate()
        if self.database:
            self.order(f'DROP DATABASE IF EXISTS "{self.database}" WITH (FORCE)')

    # ---- commands

    @property
    def environment(self) -> dict[str, str]:
        told = {**os.environ, "LEDGERLINE_DATA": str(self.data), "LEDGERLINE_NO_BOOTSTRAP": "1"}
        told.pop("DATABASE_URL", None)
        if self.database:
            before, _slash, _name = os.environ["DATABASE_URL"].rpartition("/")
            told["DATABASE_URL"] = f"{before}/{self.database}"
        return told

    def run(self, *words: str) -> str:
        done = subprocess.run(command(*words), env=self.environment, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stderr
        return done.stdout

    def begin(self, *words: str) -> int:
        """Begin a command in a process of its own, which can be killed, and return its number."""
        if self.nursery is None:
            told = {**self.environment, "DJANGO_SETTINGS_MODULE": "config.settings"}
            pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE, "text": True, "bufsize": 1}
            self.nursery = subprocess.Popen([sys.executable, "-c", NURSERY], cwd=site.ROOT, env=told, **pipes)
            assert self.told() == "ready"
        self.nursery.stdin.write("\t".join(words) + "\n")
        return int(self.told())

    def told(self) -> str:
        return self.nursery.stdout.readline().strip()

    def killed(self, seconds: float, *words: str) -> int:
        """Do a command and kill it after so many seconds; 0 where it was done before."""
        process = self.begin(*words)
        killer = kill_after(process, seconds)
        code = int(self.told())
        killer.kill()
        killer.wait()
        return code

    # ---- serving

    def serve(self) -> None:
        self.server = self.begin("start", "--port", str(self.port))
        until = time.monotonic() + 120
        while time.monotonic() < until:
            with suppress(OSError), closing(socket.create_connection(("127.0.0.1", self.port), 1)):
                return
            time.sleep(0.05)
        raise TimeoutError("The program does not answer.")

    def kill(self) -> None:
        if self.server:
            with suppress(ProcessLookupError):
                os.kill(self.server, signal.SIGKILL)
            assert self.told()
            self.server = None

    def kill_after(self, seconds: float) -> subprocess.Popen[bytes]:
        return kill_after(self.server, seconds)

    # ---- over HTTP

    def send(self, address: str, body: bytes, kind: str = FORM) -> int:
        connection = HTTPConnection("127.0.0.1", self.port, timeout=60)
        headers = {"Content-Type": kind, "Cookie": f"sessionid={self.session}; csrftoken={TOKEN}"}
        headers["X-CSRFToken"] = TOKEN
        with closing(connection):
            connection.request("POST", f"/c/ilse-tarnow/{address}", body, headers)
            answer = connection.getresponse()
            answer.read()
            return answer.status

    def send_file(self, address: str, file: str, content: bytes, **fields: str) -> int:
        head = f'Content-Disposition: form-data; name="file"; filename="{file}"\r\nContent-Type: text/plain\r\n\r\n'
        parts = [
            f'Content-Disposition: form-data; name="{key}"\r\n\r\n{value}'.encode() for key, value in fields.items()
        ]
        body = b"".join(b"--seam\r\n" + part + b"\r\n" for part in (*parts, head.encode() + content)) + b"--seam--\r\n"
        return self.send(address, body, "multipart/form-data; boundary=seam")

    def save_work(self, title: str) -> int:
        typed = {"title": title, "category": "other", "status": "active"}
        typed |= {"commissions-TOTAL_FORMS": "0", "commissions-INITIAL_FORMS": "0", "movements": "I\nII"}
        return self.send("works/new/", urlencode(typed).encode())

    def send_table(self) -> int:
        return self.send_file("import/", "rows.csv", CSV.encode())

    def keep_tables(self) -> None:
        for (batch,) in self.ask("SELECT id FROM catalogue_importbatch WHERE state = 'read'"):
            self.send(f"import/{batch}/keep/", b"")

    # ---- what is stored

    def ask(self, question: str) -> list[tuple[object, ...]]:
        if self.database:
            with closing(psycopg.connect(server_of_tests(self.database))) as database:
                return database.execute(question).fetchall()
        with closing(sqlite3.connect(self.data / "catalogue.sqlite3", timeout=60)) as database:
            register(database)  # constraints ask for Django's own functions
            return database.execute(question).fetchall()

    def order(self, order: str) -> None:
        """Tell the PostgreSQL server to do something."""
        with closing(psycopg.connect(server_of_tests("postgres"), autocommit=True)) as server:
            server.execute(order)


def assert_sound(house: House) -> None:
    """Whole, nothing that refers to nothing, no record without its history."""
    if ON_SQLITE:
        assert house.ask("PRAGMA integrity_check") == [("ok",)]
        assert house.ask("PRAGMA foreign_key_check") == []
    for kind in HISTORIES:
        without = f"SELECT id FROM catalogue_{kind} WHERE id NOT IN (SELECT id FROM catalogue_historical{kind})"  # noqa: S608
        assert (kind, house.ask(without)) == (kind, [])
