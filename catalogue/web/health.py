"""Whether this process can answer: alive without asking anybody, ready with database, tables and storage."""

from __future__ import annotations

import logging
from collections.abc import Callable
from secrets import token_hex
from time import monotonic

from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import DEFAULT_DB_ALIAS, connections
from django.db.migrations.recorder import MigrationRecorder

from catalogue.exchange.backups.lines import at_once, known_migrations

STORAGE_HOLDS = 60.0  # seconds for which a storage that could be written is not tried again
log = logging.getLogger(__name__)
_written: dict[str, float] = {}


class NotReady(Exception):
    """Something that answers need is not there."""


def lacks() -> list[str]:
    """Return what is not ready, by one word each; the log says more."""
    return [name for name, check in CHECKS.items() if not holds(name, check)]


def holds(name: str, check: Callable[[], None]) -> bool:
    try:
        check()
    except Exception:  # whatever a database or a storage raises, this process is not ready
        log.warning(SENTENCES[name], exc_info=True)
        return False
    return True


def check_database() -> None:
    with connections[DEFAULT_DB_ALIAS].cursor() as cursor:
        cursor.execute("SELECT 1")


def check_tables() -> None:
    """Raise NotReady where the newest migrations have not been applied."""
    applied = set(MigrationRecorder(connections[DEFAULT_DB_ALIAS]).applied_migrations())
    if not set(known_migrations().graph.leaf_nodes()) <= applied | at_once(applied & replaced()):
        raise NotReady


def replaced() -> set[tuple[str, str]]:
    """Return the steps that one migration replaces, so that a database which took them singly counts as up to date."""
    return {step for migration in known_migrations().replacements.values() for step in migration.replaces}


def check_storage() -> None:
    """Write a file and delete it again, at most once a minute."""
    if monotonic() - _written.get("at", -STORAGE_HOLDS) < STORAGE_HOLDS:
        return
    name = default_storage.save(f".ready-{token_hex(8)}", ContentFile(b"ready"))
    default_storage.delete(name)
    _written["at"] = monotonic()


CHECKS: dict[str, Callable[[], None]] = {
    "database": check_database,
    "tables": check_tables,
    "storage": check_storage,
}
SENTENCES = {
    "database": "The database does not answer.",
    "tables": "The tables are older than the program; run “upgrade”.",
    "storage": "The storage of uploaded files cannot be written.",
}
