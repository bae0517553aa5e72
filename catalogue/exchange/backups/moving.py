"""Moving a catalogue from one database into another: SQLite to PostgreSQL, or back.

The source is only read, as it was at one moment. In the target all is made ready beside what is there, told again as
lines, compared with the source table by table, and put in its place by one rename; what was there before is kept.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from secrets import randbits
from tempfile import TemporaryDirectory
from typing import Any

from django.conf import settings
from django.db import DEFAULT_DB_ALIAS, DatabaseError, connections, transaction

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.databases import connection_to, fresh_schema, fresh_sqlite, frozen, migrate_to
from catalogue.exchange.backups.lines import (
    Model,
    Step,
    applied_migrations,
    apps_at,
    kept_models,
    label_of,
    lines_of,
    newest_of,
    nothing,
    set_counters,
    store_lines,
)
from catalogue.exchange.backups.restoring import make_ready, swap_files, swap_schemas
from catalogue.exchange.backups.upgrading import refuse_unsound

MADE_WITH_TABLES = ("django_", "auth_group", "auth_permission", "auth_user_", "axes_", "sqlite_")
"""Tables that migrations fill by themselves, or that hold nothing of a catalogue."""


@dataclass(frozen=True, slots=True)
class Table:
    """What was told of one table: how many records, and the SHA-256 of their lines in the order of their keys."""

    name: str
    rows: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Moved:
    """The tables that arrived as they left, and where that is kept which they replaced, if there was any."""

    tables: tuple[Table, ...]
    kept: str

    @property
    def rows(self) -> int:
        return sum(table.rows for table in self.tables)


@dataclass(frozen=True, slots=True)
class Wish:
    """How a catalogue is moved: ``replace`` what the target holds, or only ``drill``, which leaves no trace there."""

    stamp: str
    replace: bool = False
    drill: bool = False
    step: Step = nothing


def move(
    target: Mapping[str, Any], *, now: datetime, replace: bool = False, drill: bool = False, step: Step = nothing
) -> Moved:
    """Move every record into the database that these settings of a connection name.

    Raises BackupError, and has then touched neither database.
    """
    wish = Wish(f"{now:%Y%m%d_%H%M%S_%f}", replace, drill, step)
    try:
        with TemporaryDirectory(prefix=".moving-", dir=settings.DATA) as folder, frozen(Path(folder)) as source:
            if str(target["ENGINE"]).endswith("sqlite3"):
                return to_sqlite(source.alias, Path(target["NAME"]), wish)
            return to_postgresql(source.alias, target, wish)
    except (OSError, DatabaseError, sqlite3.Error) as fault:
        raise BackupError(f"Nothing was moved: {' '.join(str(fault).split())}.") from fault


def to_sqlite(source: str, target: Path, wish: Wish) -> Moved:
    usual = connections[DEFAULT_DB_ALIAS]
    if usual.vendor == "sqlite" and Path(usual.settings_dict["NAME"]).absolute() == target.absolute():
        raise BackupError("The catalogue is in this database already.")
    refuse_filled(filled_tables_of_file(target), wish)
    target.parent.mkdir(parents=True, exist_ok=True)
    with TemporaryDirectory(prefix=".moving-", dir=target.parent) as folder:
        with fresh_sqlite(Path(folder)) as fresh:
            tables = copied(source, fresh, wish)
        kept = "" if wish.drill else swap_files(Path(folder, "fresh.sqlite3"), target, wish.stamp)
    return Moved(tables, kept)


def to_postgresql(source: str, target: Mapping[str, Any], wish: Wish) -> Moved:
    with connection_to(**target) as alias:
        refuse_same_database(source, alias)
        refuse_other_encoding(alias)
        filled = list(filled_tables(alias))
        refuse_filled(filled, wish)
        with fresh_schema(f"moving_{wish.stamp}", beside=alias) as fresh:
            tables = copied(source, fresh, wish)
            connections[fresh].close()
            kept = "" if wish.drill else swap_schemas(f"moving_{wish.stamp}", f"before_{wish.stamp}", alias)
    return Moved(tables, kept)


# ---- what the target may hold


def refuse_filled(tables: list[str], wish: Wish) -> None:
    if tables and not (wish.replace or wish.drill):
        raise BackupError(
            f"The target holds something already (“{tables[0]}”); with --replace it is put aside, and kept."
        )


def filled_tables(alias: str) -> Iterator[str]:
    """Give the tables of a database that hold records, those that migrations fill left out."""
    connection = connections[alias]
    with connection.cursor() as cursor:
        for name in connection.introspection.table_names(cursor):
            cursor.execute(f"SELECT EXISTS (SELECT 1 FROM {connection.ops.quote_name(name)})")  # noqa: S608 - its own names
            if cursor.fetchone()[0] and not name.startswith(MADE_WITH_TABLES):
                yield name


def filled_tables_of_file(path: Path) -> list[str]:
    """Do the same with a file, which is only read; where there is none it holds nothing."""
    if not path.exists():
        return []
    with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True)) as database:
        names = [str(name) for (name,) in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        ours = [name for name in names if not name.startswith(MADE_WITH_TABLES) and '"' not in name]
        return [name for name in ours if database.execute(f'SELECT 1 FROM "{name}" LIMIT 1').fetchone()]  # noqa: S608


def refuse_same_database(source: str, target: str) -> None:
    """Raise BackupError where both are one PostgreSQL database: a lock that one holds the other cannot take."""
    if connections[source].vendor != "postgresql":
        return
    key = randbits(62)
    with connections[source].cursor() as held, connections[target].cursor() as asked:
        held.execute("SELECT pg_advisory_xact_lock(%s)", [key])
        asked.execute("SELECT pg_try_advisory_lock(%s)", [key])
        if not asked.fetchone()[0]:
            raise BackupError("The catalogue is in this database already.")
        asked.execute("SELECT pg_advisory_unlock(%s)", [key])


def refuse_other_encoding(alias: str) -> None:
    with connections[alias].cursor() as cursor:
        cursor.execute("SHOW server_encoding")
        (encoding,) = cursor.fetchone()
    if encoding != "UTF8":
        raise BackupError(f"The target writes its texts in {encoding}; make a database with the encoding UTF8.")


# ---- from one into the other


def copied(source: str, target: str, wish: Wish) -> tuple[Table, ...]:
    """Fill fresh tables and return what arrived. Raises BackupError where anything differs from what left."""
    newest = newest_of(applied_migrations(source))
    migrate_to(target, newest)
    models = kept_models(apps_at(newest))
    with transaction.atomic(using=target):
        left = tuple(copied_table(model, source, target, wish.step) for model in models)
        set_counters(models, target)
    tables = tuple(told_table(model, target) for model in models)
    for before, after in zip(left, tables, strict=True):
        if before != after:
            raise BackupError(f"“{before.name}” did not arrive as it left; nothing was moved.")
    make_ready(target, as_it_was=False)
    refuse_unsound(target)
    return tables


class Told:
    """Counts lines on their way and takes their checksum."""

    def __init__(self) -> None:
        self.rows, self.checksum = 0, sha256()

    def passing(self, lines: Iterator[bytes]) -> Iterator[bytes]:
        for line in lines:
            self.rows += 1
            self.checksum.update(line)
            yield line

    def table(self, model: Model) -> Table:
        return Table(label_of(model), self.rows, self.checksum.hexdigest())


def copied_table(model: Model, source: str, target: str, step: Step) -> Table:
    told = Told()
    store_lines(model, target, told.passing(lines_of(model, source)), step)
    return told.table(model)


def told_table(model: Model, alias: str) -> Table:
    told = Told()
    for _line in told.passing(lines_of(model, alias)):
        pass
    return told.table(model)
