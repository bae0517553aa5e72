"""Making a backup: a snapshot first, then everything from it, so that nothing need be stopped meanwhile."""

from __future__ import annotations

import errno
import os
import sqlite3
from collections.abc import Generator, Iterator
from datetime import datetime
from pathlib import Path
from secrets import token_hex
from shutil import rmtree
from tempfile import mkdtemp

from django.db import OperationalError

from catalogue.exchange.backups.archive import DATABASE, MANIFEST, PIECE, BackupError, Manifest, packing
from catalogue.exchange.backups.checking import check_backup
from catalogue.exchange.backups.databases import Snapshot, frozen
from catalogue.exchange.backups.lines import (
    END,
    Model,
    Step,
    applied_migrations,
    apps_at,
    kept_models,
    label_of,
    lines_in_pieces,
    newest_of,
    nothing,
)
from catalogue.exchange.backups.uploads import pieces_of_upload, uploaded
from catalogue.exchange.whole_files import sync_folder


def write_backup(path: Path, *, now: datetime, step: Step = nothing) -> Manifest:
    """Write everything into a new file and read it back; a file of that name is replaced only when all is well.

    ``step`` is called after each record. Raises BackupError, and leaves nothing behind, where it cannot be done.
    """
    going = writing(path, now=now)
    while True:
        try:
            next(going)
        except StopIteration as end:
            manifest: Manifest = end.value
            return manifest
        step()


def writing(path: Path, *, now: datetime) -> Generator[None, None, Manifest]:
    """Do the same with a halt after each record; left unfinished, it leaves nothing behind."""
    beside = path.with_name(f".{path.name}.{token_hex(4)}.part")
    folder = None
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        folder = Path(mkdtemp(prefix=".backup-", dir=path.parent))
        with frozen(folder) as snapshot:
            yield from packing_of(beside, snapshot, now)
        manifest = check_backup(beside)
        os.replace(beside, path)
        sync_folder(path.parent)
    except (OSError, OperationalError, sqlite3.OperationalError) as fault:
        raise BackupError(why_not_written(path, fault)) from fault
    finally:
        if folder:
            beside.unlink(missing_ok=True)
            rmtree(folder, ignore_errors=True)
    return manifest


def packing_of(path: Path, snapshot: Snapshot, now: datetime) -> Iterator[None]:
    """Write the file, halting after each record."""
    migrations = applied_migrations(snapshot.alias)
    rows: dict[str, int] = {}
    with packing(path, now) as packer:
        if snapshot.file:
            packer.add(DATABASE, pieces_of_file(snapshot.file))
        for model in kept_models(apps_at(newest_of(migrations))):
            for piece in packer.adding(f"records/{label_of(model)}.jsonl", counted(model, snapshot.alias, rows)):
                if piece.endswith(END):
                    yield
        for name in uploaded():
            packer.add(f"files/{name}", pieces_of_upload(name), stored=True)
        database = "sqlite" if snapshot.file else "postgresql"
        manifest = Manifest(now.isoformat(), database, migrations, rows, packer.members)
        packer.add(MANIFEST, iter([manifest.as_bytes()]))


def counted(model: Model, alias: str, rows: dict[str, int]) -> Iterator[bytes]:
    rows[label_of(model)] = 0
    for piece in lines_in_pieces(model, alias):
        rows[label_of(model)] += piece.endswith(END)
        yield piece


def count_records() -> int:
    """Return how many steps a backup takes."""
    models = kept_models(apps_at(newest_of(applied_migrations("default"))))
    return sum(model._base_manager.count() for model in models)


def pieces_of_file(path: Path) -> Iterator[bytes]:
    with open(path, "rb") as file:
        while piece := file.read(PIECE):
            yield piece


def why_not_written(path: Path, fault: Exception) -> str:
    if getattr(fault, "errno", None) == errno.ENOSPC or "full" in str(fault):
        return "There is no room left on the disk; no backup was made."
    if isinstance(fault, OSError) and fault.strerror:
        return f"“{path}” cannot be written: {fault.strerror}."
    return f"The catalogue cannot be read: {fault}."
