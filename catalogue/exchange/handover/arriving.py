"""A catalogue that was handed over becomes a new one here, wholly or not at all.

Each record gets a number of this house and keeps its lasting identity, by which calendars know an event again. What
stands against it is said before anything is stored.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from itertools import islice
from pathlib import Path
from secrets import token_urlsafe
from tempfile import TemporaryFile
from typing import Any
from uuid import UUID

from django.contrib.auth.models import User
from django.core.exceptions import ValidationError
from django.core.files import File
from django.core.files.storage import Storage
from django.db import DatabaseError, models, transaction

from catalogue.actions.composers import free_slug
from catalogue.exchange.backups.archive import checked_pieces
from catalogue.exchange.backups.lines import AT_ONCE, value_of
from catalogue.exchange.handover.archive import HandOverError, Manifest, checksum_of, opened, rows_in
from catalogue.exchange.handover.leaving import read_back
from catalogue.exchange.handover.tables import Model, carried, columns_of, references_of
from catalogue.models import Composer, Membership, RiderSending
from catalogue.models.people import sha256_of
from catalogue.terms import Role

Numbers = dict[Model, dict[int, int]]
NEWER = "This file was made by a newer version of the program; take it over with that one."


@dataclass(frozen=True, slots=True)
class Found:
    """What a file holds: its manifest, its checksum, what forbids taking it over, and what is good to know before."""

    manifest: Manifest
    sha256: str
    forbids: tuple[str, ...]
    remarks: tuple[str, ...]


def look_into(path: Path) -> Found:
    """Read a file from its first byte to its last and store nothing. Raises HandOverError for one that is unusable."""
    manifest = read_back(path)
    return Found(manifest, checksum_of(path), tuple(what_forbids(path)), tuple(what_to_know(manifest)))


def what_forbids(path: Path) -> Iterator[str]:
    """Give what stands against it: a kind of record that is unknown here, or records that are here already."""
    with opened(path) as (archive, manifest):
        if not set(manifest.rows) <= {str(model._meta.model_name) for model in carried()}:
            yield NEWER
        here = {model: already_here(archive, manifest, model) for model in carried() if has_uid(model)}
    number = sum(here.values())
    if number:
        yield f"This catalogue is here already: {number} of its records are. Nothing is stored twice."


def has_uid(model: Model) -> bool:
    return any(column.name == "uid" and column.unique for column in model._meta.concrete_fields)


def already_here(archive: zipfile.ZipFile, manifest: Manifest, model: Model) -> int:
    """Count the records of the file whose lasting identity is taken, by whomever."""
    rows = rows_in(archive, manifest, str(model._meta.model_name))
    uids = (uid_of(row) for row in rows)
    found = 0
    while some := list(islice(uids, AT_ONCE)):
        found += model._base_manager.filter(uid__in=some).count()
    return found


def uid_of(row: dict[str, Any]) -> UUID:
    try:
        return UUID(str(row["uid"]))
    except (KeyError, ValueError) as fault:
        raise HandOverError("A record of this file has no lasting identity.") from fault


def what_to_know(manifest: Manifest) -> Iterator[str]:
    for composer in Composer.objects.filter(name=manifest.composer):
        yield f"“{composer.name}” is the name of a composer here, too; this one becomes another, beside it."
    for name in manifest.lacking:
        yield f"The file {name} was no longer there when the catalogue was handed over."


# ---- taken over


def take_over(path: Path, *, owner: User, now: datetime, storage: Storage) -> Composer:
    """Store the catalogue of a file as a new one that the owner keeps. Raises HandOverError; then nothing is stored."""
    found = look_into(path)
    if found.forbids:
        raise HandOverError(found.forbids[0])
    kept: list[str] = []
    try:
        with opened(path) as (archive, manifest), transaction.atomic():
            composer = Arrival(archive, manifest, now).stored(owner)
            for name in manifest.files:
                kept += keep_file(archive, manifest, name, storage)
    except BaseException as fault:
        for name in kept:
            storage.delete(name)
        if isinstance(fault, DatabaseError | ValidationError):
            raise HandOverError("This file holds records that contradict each other; nothing was stored.") from fault
        raise
    return composer


class Arrival:
    """A catalogue on its way in, with the number that each of its records has got here."""

    def __init__(self, archive: zipfile.ZipFile, manifest: Manifest, now: datetime) -> None:
        self.archive, self.manifest, self.now = archive, manifest, now
        self.numbers: Numbers = {model: {} for model in carried()}
        self.owner: User | None = None

    def stored(self, owner: User) -> Composer:
        self.owner = owner
        for model in carried():
            self.store(model)
        if len(self.numbers[Composer]) != 1:
            raise HandOverError("This file does not hold the catalogue of one composer.")
        (key,) = self.numbers[Composer].values()
        composer = Composer.objects.get(pk=key)
        Membership.objects.create(user=owner, composer=composer, role=Role.OWNER.value)
        return composer

    def store(self, model: Model) -> None:
        """Store the records of a model; what names another of the same model waits until all have their number."""
        rows = rows_in(self.archive, self.manifest, str(model._meta.model_name))
        later: dict[int, dict[str, int]] = {}
        while some := list(islice(rows, AT_ONCE)):
            records = [self.record_of(model, row) for row in some]
            stored = model._base_manager.bulk_create(records)
            for row, record in zip(some, stored, strict=True):
                self.numbers[model][key_of(row)] = record.pk
                if waiting := {name: row[name] for name in own_names(model) if row.get(name) is not None}:
                    later[record.pk] = waiting
            self.begin_history(model, stored)
        for key, names in later.items():
            told = {name: self.number_of(model, other) for name, other in names.items()}
            model._base_manager.filter(pk=key).update(**told)

    def record_of(self, model: Model, row: dict[str, Any]) -> models.Model:
        columns, names = columns_of(model), {column.attname: column for column in references_of(model)}
        if not set(row) <= {*columns, *names}:
            raise HandOverError(NEWER)
        told = {
            name: checked(columns[name], value) for name, value in row.items() if name not in names and name != "id"
        }
        for name in row.keys() & names.keys() - set(own_names(model)):
            told[name] = None if row[name] is None else self.number_of(names[name].related_model, row[name])
        record = model(**told)
        settle(record, self.now)
        return record

    def number_of(self, model: Model, key: Any) -> int:
        """Return the number that a record of the file has here; HandOverError for one that the file does not hold."""
        if not isinstance(key, int) or key not in self.numbers[model]:
            raise HandOverError("A record of this file names one that it does not hold.")
        return self.numbers[model][key]

    def begin_history(self, model: Any, stored: Iterable[models.Model]) -> None:
        if hasattr(model, "history"):
            reason = "taken over"
            model.history.bulk_history_create(
                list(stored), default_user=self.owner, default_date=self.now, default_change_reason=reason
            )


def key_of(row: dict[str, Any]) -> int:
    key = row.get("id")
    if not isinstance(key, int):
        raise HandOverError("A record of this file has no number.")
    return key


def own_names(model: Model) -> list[str]:
    """Return the columns by which records of a model name each other."""
    return [column.attname for column in references_of(model) if column.related_model is model]


def checked(column: Any, told: Any) -> Any:
    """Return a value as the column holds it. Raises HandOverError where the column would not take it from a form."""
    try:
        value = value_of(column, told)
        if isinstance(value, str) and value:
            column.run_validators(value)
    except (ValidationError, ValueError, TypeError, KeyError, AttributeError) as fault:
        raise HandOverError(f"“{column.verbose_name}” of a record in this file cannot be read.") from fault
    return value


def settle(record: models.Model, now: datetime) -> None:
    """Give a composer an address of their own, and shut what was open to somebody elsewhere."""
    if isinstance(record, Composer):
        record.slug = free_slug(record.name)
    if isinstance(record, RiderSending):
        record.token_sha256 = sha256_of(token_urlsafe(32))
        record.withdrawn_at = record.withdrawn_at or now


def keep_file(archive: zipfile.ZipFile, manifest: Manifest, name: str, storage: Storage) -> list[str]:
    """Store a file under its content, unless it is here; return what was stored. Raises HandOverError."""
    stored = name.removeprefix("files/")
    if storage.exists(stored):
        return []
    digest = sha256()
    with TemporaryFile() as beside:
        for piece in checked_pieces(archive, name, manifest.members[name]):
            digest.update(piece)
            beside.write(piece)
        if digest.hexdigest() != Path(stored).stem:
            raise HandOverError("A file in it is not the one that its name says.")
        beside.seek(0)
        storage.save(stored, File(beside))
    return [stored]
