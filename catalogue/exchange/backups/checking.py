"""Reading a backup back, whole, before anybody relies on it."""

from __future__ import annotations

import zipfile
from pathlib import Path
from tempfile import TemporaryDirectory

from django.db import DatabaseError

from catalogue.exchange.backups.archive import (
    DATABASE,
    FILE,
    RECORDS,
    BackupError,
    Manifest,
    checked_pieces,
    count_lines,
    opened,
)
from catalogue.exchange.backups.databases import refuse_unsound_sqlite, sqlite_at
from catalogue.exchange.backups.lines import apps_at, kept_models, label_of, newest_of


def check_backup(path: Path) -> Manifest:
    """Return the manifest of a backup in which everything is as it was written. Raises BackupError.

    Every byte against the seal, every member against its checksum, every file against its name; the lines counted; the
    database opened, its integrity and its references asked for, and its rows counted.
    """
    with opened(path) as (archive, manifest), TemporaryDirectory(prefix=".check-", dir=path.parent) as folder:
        newest_of(manifest.migrations)
        for name, member in manifest.members.items():
            if name != DATABASE:
                check_member(archive, name, manifest)
            else:
                snapshot = Path(folder) / "snapshot.sqlite3"
                with open(snapshot, "wb") as file:
                    file.writelines(checked_pieces(archive, name, member))
                check_database(snapshot, manifest)
    return manifest


def check_member(archive: zipfile.ZipFile, name: str, manifest: Manifest) -> None:
    """Read a member to its end; only records have lines, a recording may have none for minutes."""
    member, records = manifest.members[name], RECORDS.fullmatch(name)
    if records is None:
        for _piece in checked_pieces(archive, name, member):
            pass
    elif count_lines(archive, name, member) != manifest.rows.get(".".join(records.groups())):
        raise BackupError(f"“{name}” in this backup does not hold as many records as its manifest says.")
    if FILE.fullmatch(name) and Path(name).stem != member.sha256:
        raise BackupError(f"“{name}” in this backup is not what its name says.")


def check_database(snapshot: Path, manifest: Manifest) -> None:
    refuse_unsound_sqlite(snapshot)
    with sqlite_at(snapshot) as alias:
        check_rows(alias, manifest)


def check_rows(alias: str, manifest: Manifest) -> None:
    """Count the rows of a database that stands at the migrations of the backup. Raises BackupError."""
    models = kept_models(apps_at(newest_of(manifest.migrations)))
    try:
        found = {label_of(model): model._base_manager.using(alias).count() for model in models}
    except DatabaseError as fault:
        raise BackupError("The database in this backup has other tables than its manifest says.") from fault
    if found != manifest.rows:
        raise BackupError("The database in this backup does not hold as many records as its manifest says.")
