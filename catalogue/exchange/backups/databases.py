"""Connections that live for a while: a snapshot of the catalogue, a fresh database beside it, a fresh schema."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from secrets import token_hex
from typing import Any

from django.core.management import call_command
from django.db import DEFAULT_DB_ALIAS, connections, transaction
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader

from catalogue.exchange.backups.archive import BackupError
from catalogue.models.conditions import PATTERNS

FROZEN = "SET TRANSACTION ISOLATION LEVEL REPEATABLE READ READ ONLY"


@dataclass(frozen=True, slots=True)
class Snapshot:
    """A database as it was at one moment: the name of its connection, and its file where it is one."""

    alias: str
    file: Path | None


@contextmanager
def connection_to(**settings: Any) -> Iterator[str]:
    """Give the name of a connection like the usual one but for these settings; it is closed afterwards.

    Only this thread knows it, and whoever asks for all the databases of the site is not told of it.
    """
    alias = f"beside-{token_hex(6)}"
    connections.settings[alias] = {**deepcopy(connections.settings[DEFAULT_DB_ALIAS]), **settings}
    connection = connections[alias]
    del connections.settings[alias]
    try:
        yield alias
    finally:
        connection.close()
        del connections[alias]


@contextmanager
def sqlite_at(path: Path) -> Iterator[str]:
    """Give a connection to a file that nobody else uses and that is synced as a whole, where it is kept at all."""
    options = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=MEMORY; PRAGMA synchronous=OFF;",
    }
    with connection_to(ENGINE="django.db.backends.sqlite3", NAME=str(path), OPTIONS=options) as alias:
        yield alias


@contextmanager
def frozen(folder: Path) -> Iterator[Snapshot]:
    """Give the catalogue as it is now, unmoved by what is written meanwhile; a file of it is put into the folder."""
    usual = connections[DEFAULT_DB_ALIAS]
    if usual.in_atomic_block:
        raise BackupError("The catalogue is being changed; no backup is made in the midst of it.")
    if usual.vendor == "sqlite":
        path = folder / "snapshot.sqlite3"
        usual.ensure_connection()
        with closing(sqlite3.connect(path)) as target:
            usual.connection.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
        with sqlite_at(path) as alias:
            yield Snapshot(alias, path)
        return
    with connection_to(NAME=usual.settings_dict["NAME"]) as alias, transaction.atomic(using=alias):
        with connections[alias].cursor() as cursor:
            cursor.execute(FROZEN)
        yield Snapshot(alias, None)


def migrate_to(alias: str, newest: list[tuple[str, str]] | None) -> None:
    """Bring the tables of a database to these migrations, or to the newest that are known."""
    if newest is None:
        call_command("migrate", database=alias, interactive=False, verbosity=0, skip_checks=True)
        return
    executor = MigrationExecutor(connections[alias])
    if any(key not in executor.loader.graph.nodes for key in newest):
        # What replaces several steps hides them; each is reached by the steps alone.
        executor.loader = MigrationLoader(connections[alias], replace_migrations=False)
    executor.migrate(newest)


def make_tables_like(file: Path, alias: str) -> None:
    """Give an empty SQLite database the tables of a file that has been found sound, and the migrations it has seen."""
    with closing(sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)) as database:
        tables = database.execute(
            "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT GLOB 'sqlite_*' ORDER BY type = 'index'"
        )
        statements = [statement for (statement,) in tables]
        seen = database.execute("SELECT app, name, applied FROM django_migrations ORDER BY id").fetchall()
    with transaction.atomic(using=alias), connections[alias].cursor() as cursor:
        for statement in statements:
            cursor.execute(statement)
        cursor.executemany("INSERT INTO django_migrations (app, name, applied) VALUES (%s, %s, %s)", seen)


def fits(pattern: str, text: str) -> bool:
    """Answer the constraints that ask for a pattern; one that is not ours is not tried, it might never end."""
    return pattern in PATTERNS and re.search(pattern, text) is not None


def refuse_unsound_sqlite(path: Path) -> None:
    """Raise BackupError for a file that SQLite finds faults in, or that could run code of its own.

    It is opened for writing, without which SQLite would not look whether the rows keep to the constraints.
    """
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True)) as database:
            database.execute("PRAGMA cell_size_check=ON")
            database.create_function("REGEXP", 2, fits)
            odd = database.execute("SELECT name FROM sqlite_master WHERE type NOT IN ('table', 'index')").fetchall()
            virtual = database.execute("SELECT name FROM sqlite_master WHERE sql LIKE 'CREATE VIRTUAL%'").fetchall()
            sound = database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            loose = database.execute("PRAGMA foreign_key_check").fetchone()
    except sqlite3.DatabaseError as fault:
        raise BackupError("The database in this backup is damaged.") from fault
    if odd or virtual:
        raise BackupError("The database in this backup holds programs of its own and is not used.")
    if not sound or loose:
        raise BackupError("The database in this backup is damaged.")


@contextmanager
def fresh_sqlite(folder: Path) -> Iterator[str]:
    with sqlite_at(folder / "fresh.sqlite3") as alias:
        yield alias


@contextmanager
def fresh_schema(name: str, *, beside: str = DEFAULT_DB_ALIAS) -> Iterator[str]:
    """Give a connection to a new schema of a PostgreSQL database; what is left of it afterwards goes."""
    usual = connections[beside]
    with usual.cursor() as cursor:
        cursor.execute(f'CREATE SCHEMA "{name}"')
    try:
        options = {**usual.settings_dict["OPTIONS"], "options": f"-c search_path={name}"}
        with connection_to(**{**usual.settings_dict, "OPTIONS": options}) as alias:
            yield alias
    finally:
        with suppress(Exception), usual.cursor() as cursor:
            cursor.execute(f'DROP SCHEMA IF EXISTS "{name}" CASCADE')
