"""A catalogue moved from one database into another and back, and what stands in the way of that."""

from __future__ import annotations

import json
import os
import runpy
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings as site
from django.db import connection

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.moving import filled_tables_of_file, move
from catalogue.management.base import UnusableInput
from catalogue.management.commands.move import connection_named
from tests.makers import make_performance, make_work
from tests.unit.exchange.backups.parcels import NEWEST, NOW

WITH_PROGRAMS = site.ROOT / ".ci" / "with_postgresql.py"
NO_SERVER = not any(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
Run = Callable[..., dict[str, Any]]


def file_of(path: Path) -> dict[str, Any]:
    return {"ENGINE": "django.db.backends.sqlite3", "NAME": str(path)}


@pytest.mark.slow
@pytest.mark.usefixtures("with_migrations")
@pytest.mark.django_db(transaction=True)
def test_a_catalogue_arrives_in_a_file_as_it_left(tmp_path: Path) -> None:
    make_performance(make_work("Tides – für Orchester", duration="c. 12 min", completed="1998", notes="رسالة\n✓"))
    target = tmp_path / "deep" / "catalogue.sqlite3"

    moved = move(file_of(target), now=NOW)

    assert {table.name: table.rows for table in moved.tables}["catalogue.work"] == 1
    assert moved.kept == ""
    with closing(sqlite3.connect(target)) as database:
        assert database.execute("SELECT title FROM catalogue_work").fetchall() == [("Tides – für Orchester",)]


@pytest.mark.django_db(transaction=True)
def test_what_holds_records_is_not_overwritten_unasked(tmp_path: Path) -> None:
    target = tmp_path / "catalogue.sqlite3"
    with closing(sqlite3.connect(target)) as database:
        database.executescript("CREATE TABLE django_migrations (name); INSERT INTO django_migrations VALUES ('0001');")
        database.executescript("CREATE TABLE catalogue_work (title); CREATE TABLE ledger (sum);")
    before = filled_tables_of_file(target)
    with closing(sqlite3.connect(target)) as database:
        database.executescript("INSERT INTO ledger VALUES (12)")

    with pytest.raises(BackupError, match=r"The target holds something already \(“ledger”\)"):
        move(file_of(target), now=NOW)

    assert (before, filled_tables_of_file(target)) == ([], ["ledger"])
    assert [path.name for path in tmp_path.iterdir()] == ["catalogue.sqlite3"]


@pytest.mark.skipif("postgresql" not in site.DATABASES["default"]["ENGINE"], reason="asks PostgreSQL for its locks")
@pytest.mark.django_db(transaction=True)
def test_a_database_is_not_moved_into_itself() -> None:
    itself = {name: connection.settings_dict[name] for name in ("ENGINE", "NAME", "HOST", "USER", "PASSWORD", "PORT")}

    with pytest.raises(BackupError, match="The catalogue is in this database already"):
        move({**itself, "OPTIONS": {}}, now=NOW, replace=True)


@pytest.mark.parametrize("address", ["", "elsewhere", "mysql://root@host/name", "postgres://user@host/"])
def test_an_address_of_no_database_is_refused(address: str) -> None:
    with pytest.raises(UnusableInput, match="This names no database"):
        connection_named(address)


@pytest.fixture
def server() -> Iterator[str]:
    """The address of a PostgreSQL server of this test's own, in which there is an empty database."""
    with runpy.run_path(str(WITH_PROGRAMS))["running_server"]() as folder:
        yield f"postgres://postgres@/{folder}/postgres"


@pytest.fixture
def run(tmp_path: Path) -> Run:
    """A way to run a command that answers in JSON on a data folder of its own."""

    def running(*arguments: str, database: str | None = None) -> dict[str, Any]:
        environment = {**os.environ, "LEDGERLINE_DATA": str(tmp_path / "data")}
        environment.pop("DATABASE_URL", None)
        if database:
            environment["DATABASE_URL"] = database
        command = [sys.executable, str(site.ROOT / "manage.py"), *arguments, "--json"]
        done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
        return json.loads(done.stdout) if done.returncode == 0 else {"refused": done.stderr, "code": done.returncode}

    return running


@pytest.mark.slow
@pytest.mark.skipif(NO_SERVER, reason="needs the programs of a PostgreSQL server")
def test_from_sqlite_to_postgresql_and_back_nothing_changes(tmp_path: Path, server: str, run: Run) -> None:
    run("restore", str(NEWEST))
    findings = run("check_catalogue")
    source = (tmp_path / "data" / "catalogue.sqlite3").read_bytes()

    drilled = run("move", server, "--drill")
    there = run("move", server)
    refused = run("move", server)
    replaced = run("move", server, "--replace")
    found = run("check_catalogue", database=server)
    back = run("move", f"sqlite:///{tmp_path}/back.sqlite3", database=server)

    assert there["rows"] > 40
    assert there["tables"] == drilled["tables"] == replaced["tables"] == back["tables"]
    assert (refused["code"], refused["refused"].startswith("The target holds something already")) == (2, True)
    assert replaced["kept"].startswith("schema before_")
    assert found == findings
    assert (tmp_path / "data" / "catalogue.sqlite3").read_bytes() == source
    assert filled_tables_of_file(tmp_path / "back.sqlite3") != []
