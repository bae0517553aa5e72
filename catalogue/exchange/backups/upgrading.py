"""Bringing a catalogue's tables up to date: a backup first, and back to it where a migration fails."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from django.conf import settings
from django.db import DEFAULT_DB_ALIAS, DatabaseError, connections
from django.db.migrations.executor import MigrationExecutor

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.databases import migrate_to
from catalogue.exchange.backups.keeping import BEFORE_UPGRADE, name_of
from catalogue.exchange.backups.lines import Step, nothing
from catalogue.exchange.backups.restoring import restore_backup
from catalogue.exchange.backups.writing import write_backup


@dataclass(frozen=True, slots=True)
class Upgraded:
    """How many migrations were applied, and the backup made before; none of a database that was empty."""

    migrations: int
    backup: Path | None


def pending() -> list[str]:
    """Return the names of the migrations that the database has not seen, in their order."""
    executor = MigrationExecutor(connections[DEFAULT_DB_ALIAS])
    plan = executor.migration_plan(executor.loader.graph.leaf_nodes())
    return [f"{migration.app_label} {migration.name}" for migration, _backwards in plan]


def upgrade(*, now: datetime, step: Step = nothing) -> Upgraded:
    """Bring the tables up to date.

    Raises BackupError where no backup can be made (nothing has been touched then), or where a migration failed and the
    backup is back in its place.
    """
    waiting = pending()
    if not waiting:
        return Upgraded(0, None)
    if not holds_tables():
        migrate_to(DEFAULT_DB_ALIAS, None)
        return Upgraded(len(waiting), None)
    backup = settings.BACKUPS / name_of(BEFORE_UPGRADE, now)
    write_backup(backup, now=now, step=step)
    try:
        migrate_to(DEFAULT_DB_ALIAS, None)
        refuse_unsound(DEFAULT_DB_ALIAS)
    except Exception as fault:  # whatever a migration raises, the way back is the same
        restore_backup(backup, now=now, as_it_was=True)
        told = f"{type(fault).__name__}: {fault}"
        raise BackupError(
            f"The tables could not be brought up to date and are as they were before ({told})."
        ) from fault
    return Upgraded(len(waiting), backup)


def holds_tables() -> bool:
    return "catalogue_composer" in connections[DEFAULT_DB_ALIAS].introspection.table_names()


def refuse_unsound(alias: str) -> None:
    """Raise DatabaseError where the database finds faults in itself, or references that lead nowhere."""
    connection = connections[alias]
    connection.check_constraints()
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("PRAGMA integrity_check")
            if cursor.fetchall() != [("ok",)]:
                raise DatabaseError("the database is damaged")
