"""Putting a backup in the place of the catalogue: all of it is made ready beside, then one rename swaps the two.

With SQLite the file is swapped, with PostgreSQL the schema; what was there before is kept beside. A backup of either is
taken by both: its own snapshot where both are SQLite, else its lines, into the tables as they were when it was made,
which are then brought up to date.
"""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from shutil import copyfile, rmtree
from tempfile import TemporaryDirectory, mkdtemp

from django.db import DEFAULT_DB_ALIAS, DatabaseError, OperationalError, connections, transaction

from catalogue.exchange.backups.archive import (
    DATABASE,
    FILE,
    BackupError,
    Manifest,
    checked_pieces,
    lines_in,
    opened,
)
from catalogue.exchange.backups.checking import check_backup, check_rows
from catalogue.exchange.backups.databases import fresh_schema, fresh_sqlite, make_tables_like, migrate_to
from catalogue.exchange.backups.lines import (
    Step,
    apps_at,
    kept_models,
    label_of,
    lines_in_pieces,
    newest_of,
    nothing,
    set_counters,
    store_lines,
)
from catalogue.exchange.backups.uploads import is_there, put_upload
from catalogue.exchange.calendar_files import let_go_of_all
from catalogue.exchange.whole_files import sync_folder

SESSIONS = ("django_session", "axes_accessattempt", "axes_accesslog", "axes_accessfailurelog")


@dataclass(frozen=True, slots=True)
class Restored:
    """What a restored backup was, and where that lies which it replaced (a file or a schema), if there was any."""

    manifest: Manifest
    kept: str


@dataclass(frozen=True, slots=True)
class Wanted:
    """A backup that has been checked, and how it is put back; ``as_it_was`` leaves the tables as they were then."""

    path: Path
    manifest: Manifest
    stamp: str
    step: Step = nothing
    as_it_was: bool = False


def restore_backup(path: Path, *, now: datetime, step: Step = nothing, as_it_was: bool = False) -> Restored:
    """Check a backup, then put it in the place of the catalogue. Raises BackupError, and has then touched nothing."""
    wanted = Wanted(path, check_backup(path), f"{now:%Y%m%d_%H%M%S_%f}", step, as_it_was)
    usual = connections[DEFAULT_DB_ALIAS]
    try:
        if usual.vendor == "sqlite":
            kept = restore_sqlite(wanted, Path(usual.settings_dict["NAME"]))
        else:
            kept = restore_postgresql(wanted)
    except (OSError, sqlite3.OperationalError, OperationalError) as fault:
        raise BackupError(why_not_restored(fault)) from fault
    return Restored(wanted.manifest, kept)


def why_not_restored(fault: Exception) -> str:
    if getattr(fault, "errno", None) == errno.ENOSPC or "full" in str(fault):
        return "There is no room left on the disk; the catalogue is as it was."
    if "locked" in str(fault):
        return "Another program is writing in the catalogue; stop it first. The catalogue is as it was."
    return f"The backup cannot be put in its place; the catalogue is as it was ({fault})."


def try_backup(path: Path, *, step: Step = nothing) -> Manifest:
    """Restore a backup into a scratch database and compare every record with it. Raises BackupError.

    The lines are stored in tables like those of the backup's own snapshot, where it has one: to make them step by step
    takes minutes and much memory in a large program, and a backup that has a snapshot is restored from that.
    """
    manifest = check_backup(path)
    with TemporaryDirectory(prefix=".trial-", dir=path.parent) as folder, filled(path, manifest, folder, step) as alias:
        compare(alias, manifest)
        migrate_to(alias, None)
    return manifest


@contextmanager
def filled(path: Path, manifest: Manifest, folder: str, step: Step) -> Iterator[str]:
    """Give a fresh SQLite database with the lines of the backup."""
    newest = newest_of(manifest.migrations)
    with fresh_sqlite(Path(folder)) as alias:
        if DATABASE in manifest.members:
            snapshot = Path(folder) / "snapshot.sqlite3"
            unpack(path, DATABASE, snapshot)
            make_tables_like(snapshot, alias)
            snapshot.unlink()
        else:
            migrate_to(alias, newest)
        store_records(path, newest, alias, step)
        yield alias


def load_lines(path: Path, manifest: Manifest, alias: str, step: Step) -> None:
    """Make the tables as they were, and store the lines in them, all or nothing."""
    newest = newest_of(manifest.migrations)
    migrate_to(alias, newest)
    store_records(path, newest, alias, step)


def store_records(path: Path, newest: list[tuple[str, str]], alias: str, step: Step) -> None:
    """Store the lines of a backup in the tables as these migrations leave them, all or nothing."""
    models = kept_models(apps_at(newest))
    try:
        with opened(path) as (archive, manifest), transaction.atomic(using=alias):
            for model in models:
                name = f"records/{label_of(model)}.jsonl"
                store_lines(model, alias, lines_in(archive, name, manifest.members[name]), step)
            set_counters(models, alias)
    except (DatabaseError, KeyError) as fault:
        raise BackupError("The records in this backup do not agree with one another.") from fault


def compare(alias: str, manifest: Manifest) -> None:
    """Raise BackupError where the records of a database, as lines, are not byte for byte those of the backup."""
    check_rows(alias, manifest)
    for model in kept_models(apps_at(newest_of(manifest.migrations))):
        name = f"records/{label_of(model)}.jsonl"
        checksum = sha256()
        for piece in lines_in_pieces(model, alias):
            checksum.update(piece)
        if checksum.hexdigest() != manifest.members[name].sha256:
            raise BackupError(f"“{name}” in this backup does not come back as it was.")


# ---- SQLite: one file for another


def restore_sqlite(wanted: Wanted, target: Path) -> str:
    target.parent.mkdir(parents=True, exist_ok=True)
    folder = Path(mkdtemp(prefix=".restoring-", dir=target.parent))
    try:
        with fresh_sqlite(folder) as alias:
            if DATABASE in wanted.manifest.members:
                unpack(wanted.path, DATABASE, folder / "fresh.sqlite3")
            else:
                load_lines(wanted.path, wanted.manifest, alias, wanted.step)
            make_ready(alias, as_it_was=wanted.as_it_was)
        put_files(wanted)
        return swap_files(folder / "fresh.sqlite3", target, wanted.stamp)
    finally:
        rmtree(folder, ignore_errors=True)


def make_ready(alias: str, *, as_it_was: bool) -> None:
    """Bring the tables up to date and end every session that was open when the backup was made."""
    if not as_it_was:
        migrate_to(alias, None)
    connection = connections[alias]
    with connection.cursor() as cursor:
        for table in set(SESSIONS) & set(connection.introspection.table_names(cursor)):
            cursor.execute(f"DELETE FROM {table}")  # noqa: S608 - the names are ours


def swap_files(fresh: Path, target: Path, stamp: str) -> str:
    """Put the fresh database in the place of the old one by one rename; return where the old one is kept.

    Calendars that were built from the old one go first: the fresh one may come to the same state with other records.
    """
    connections[DEFAULT_DB_ALIAS].close()
    let_go_of_all()
    kept = target.with_name(f"{target.stem}-before-{stamp}{target.suffix}")
    with open(fresh, "rb+") as file:
        os.fsync(file.fileno())
    if not target.exists():
        os.replace(fresh, target)
        return ""
    with closing(sqlite3.connect(target, timeout=20, isolation_level=None)) as old:
        is_whole = held_alone(old)
        link_or_copy(target, kept)
        if not is_whole:
            put_journals_aside(target, kept)
        os.replace(fresh, target)
        if is_whole:
            old.execute("ROLLBACK")
    sync_folder(target.parent)
    return str(kept)


def held_alone(old: sqlite3.Connection) -> bool:
    """Fold a journal that is left into the database, and let nobody else write while the names change.

    False for a damaged file or one that is no database: nobody can write into it, and a backup is what it needs.
    """
    try:
        old.execute("PRAGMA journal_mode=DELETE")
        old.execute("BEGIN EXCLUSIVE")
    except sqlite3.OperationalError:  # somebody is at it
        raise
    except sqlite3.DatabaseError:
        return False
    return True


def put_journals_aside(target: Path, kept: Path) -> None:
    """Keep the journals of a damaged database with it; beside the fresh one they would be played back into it."""
    for ending in ("-journal", "-wal", "-shm"):
        left = target.with_name(target.name + ending)
        if left.exists():
            os.replace(left, kept.with_name(kept.name + ending))


def link_or_copy(target: Path, kept: Path) -> None:
    try:
        os.link(target, kept)
    except OSError:
        copyfile(target, kept)


# ---- PostgreSQL: one schema for another


def restore_postgresql(wanted: Wanted) -> str:
    fresh = f"restoring_{wanted.stamp}"
    with fresh_schema(fresh) as alias:
        load_lines(wanted.path, wanted.manifest, alias, wanted.step)
        make_ready(alias, as_it_was=wanted.as_it_was)
        put_files(wanted)
        connections[alias].close()
        return swap_schemas(fresh, f"before_{wanted.stamp}", DEFAULT_DB_ALIAS)


def swap_schemas(fresh: str, kept: str, alias: str) -> str:
    """Give the fresh schema the name of the one in use, in one transaction; return where the old one is kept."""
    with transaction.atomic(using=alias), connections[alias].cursor() as cursor:
        cursor.execute("SELECT current_schema()")
        (place,) = cursor.fetchone()
        cursor.execute(f'ALTER SCHEMA "{place}" RENAME TO "{kept}"')
        cursor.execute(f'ALTER SCHEMA "{fresh}" RENAME TO "{place}"')
    return f"schema {kept}"


# ---- files


def put_files(wanted: Wanted) -> None:
    """Put the uploaded files of a backup where they belong; one that is there is the same, by its name."""
    with opened(wanted.path) as (archive, manifest):
        for name, member in manifest.members.items():
            found = FILE.fullmatch(name)
            if found and not is_there(found[1]):
                put_upload(found[1], checked_pieces(archive, name, member))


def unpack(path: Path, name: str, target: Path) -> None:
    with opened(path) as (archive, manifest), open(target, "wb") as file:
        file.writelines(checked_pieces(archive, name, manifest.members[name]))
