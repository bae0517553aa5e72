"""A composer's catalogue into one file: every record as it was at one moment, every file that the records name."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from secrets import token_hex
from shutil import rmtree
from tempfile import mkdtemp
from typing import Any

from django.core.files.storage import Storage
from django.db import models

from catalogue.exchange.backups.archive import BackupError, Packer, checked_pieces, packing
from catalogue.exchange.backups.databases import frozen
from catalogue.exchange.backups.lines import AT_ONCE, told_value, written
from catalogue.exchange.handover.archive import MANIFEST, RECORDS, HandOverError, Manifest, opened, rows_in
from catalogue.exchange.handover.tables import Model, carried, columns_of, records_of, references_of
from catalogue.exchange.kept_content import Kept
from catalogue.exchange.pictures import stored_name
from catalogue.models import Composer, Picture, RiderSending, Sending, StoredFile, Submission

Keys = dict[Model, set[int]]


def hand_over(path: Path, composer: Composer, *, to: str, now: datetime, storage: Storage) -> Manifest:
    """Write a catalogue into a new file and read it back; a file of that name is replaced only when all is well.

    ``to`` is who is to have it. Raises HandOverError, and leaves nothing behind, where it cannot be done.
    """
    beside = path.with_name(f".{path.name}.{token_hex(4)}.part")
    folder = Path(mkdtemp(prefix=".hand-over-", dir=path.parent))
    try:
        with frozen(folder) as snapshot:
            told = Manifest(composer.name, now.isoformat(), to, {})
            pack(beside, Source(composer.pk, snapshot.alias, storage), told, now)
        manifest = read_back(beside)
        os.replace(beside, path)
    except BackupError as fault:
        raise HandOverError(fault.reason.replace("backup", "hand-over")) from fault
    finally:
        beside.unlink(missing_ok=True)
        rmtree(folder, ignore_errors=True)
    return manifest


class Source:
    """Where a catalogue comes from, and what of it was told so far: the keys of its records, the files they name."""

    def __init__(self, composer: int, alias: str, storage: Storage) -> None:
        self.composer, self.alias, self.storage = composer, alias, storage
        self.keys: Keys = {}
        self.files: set[str] = set()
        self.rows: dict[str, int] = {}

    def lines_of(self, model: Model) -> Iterator[bytes]:
        """Give a line for each record, and remember its key and its files."""
        columns, keys = columns_of(model), self.keys.setdefault(model, set())
        for record in records_of(model, self.composer, self.alias).iterator(AT_ONCE):
            keys.add(record.pk)
            self.files |= set(files_of(record))
            told = {name: told_value(column, record) for name, column in columns.items()}
            yield as_line(told | {column.attname: self.named(record, column) for column in references_of(model)})
        self.rows[str(model._meta.model_name)] = len(keys)

    def named(self, record: models.Model, column: Any) -> int | None:
        """Return the key that a record names; nothing where that record is another composer's, or comes later."""
        key: int | None = getattr(record, column.attname)
        if key is None or column.related_model is type(record) or key in self.keys[column.related_model]:
            return key
        if column.null:
            return None
        raise HandOverError(
            f"“{record}” hangs on a record of another catalogue; mend it before this one is given away."
        )


def as_line(told: dict[str, Any]) -> bytes:
    return json.dumps(told, default=written, ensure_ascii=False, sort_keys=True).encode() + b"\n"


def files_of(record: Any) -> Iterator[str]:
    """Give the names under which the files that a record names are stored."""
    if isinstance(record, Picture | StoredFile):
        yield stored_name(record.sha256, record.suffix)
    elif isinstance(record, Sending):
        yield stored_name(record.sha256, record.suffix)
        if record.facts_sha256:
            yield stored_name(record.facts_sha256, "txt")
    elif isinstance(record, RiderSending):
        yield from (stored_name(digest, format) for format, digest in record.files.items())
    elif isinstance(record, Submission):
        yield from (stored_name(str(one["sha256"]), str(one["name"]).rpartition(".")[2]) for one in record.sent_files)


def pack(path: Path, source: Source, told: Manifest, now: datetime) -> None:
    with packing(path, now) as packer:
        for model in carried():
            packer.add(RECORDS.format(model._meta.model_name), source.lines_of(model))
        lacking = tuple(name for name in sorted(source.files) if not added(packer, name, source.storage))
        manifest = Manifest(told.composer, told.made_at, told.to, source.rows, dict(packer.members), lacking)
        packer.add(MANIFEST, iter([manifest.as_bytes()]))


def added(packer: Packer, name: str, storage: Storage) -> bool:
    """Add a stored file, and say whether it is still there."""
    if not storage.exists(name):
        return False
    packer.add(f"files/{name}", Kept(storage, name, 0).parts(), stored=True)
    return True


def read_back(path: Path) -> Manifest:
    """Read a file from its first byte to its last. Raises HandOverError where it is not what its manifest says."""
    with opened(path) as (archive, manifest):
        for name in manifest.files:
            for _piece in checked_pieces(archive, name, manifest.members[name]):
                pass
        for model, number in manifest.rows.items():
            if sum(1 for _row in rows_in(archive, manifest, model)) != number:
                raise HandOverError("This file does not hold what its manifest says.")
    return manifest
