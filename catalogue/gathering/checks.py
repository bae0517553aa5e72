"""What is not in order in the stored records: texts that cannot be read, records that have lost what they belong to."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from hashlib import new as new_checksum
from pathlib import PurePosixPath

from django.apps import apps
from django.conf import settings
from django.core.files.storage import default_storage
from django.db import IntegrityError, connection, models

from catalogue.instrumentation import InstrumentationError, read
from catalogue.models import Composer, Picture, RiderSending, Sending, StoredFile, Submission, Work
from catalogue.models.fields import Unreadable, ValueField
from catalogue.timing import Mistake, read_duration, reckon

AT_ONCE = 500
PIECE = 1 << 18
TEXT = "txt"  # as what a paper says is kept


class Kind(StrEnum):
    """What is wrong with a record."""

    UNREADABLE = "unreadable"
    ORPHAN = "orphan"
    STALE = "stale"
    DAMAGED = "damaged"


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that is not in order: which record, which column, the text and the place in it, and why."""

    kind: Kind
    record: str
    id: int | None
    title: str
    column: str
    text: str
    reason: str
    start: int = 0
    end: int = 0


def records_of_the_catalogue() -> tuple[type[models.Model], ...]:
    """Return every model that is no history of another."""
    found = apps.get_app_config("catalogue").get_models()
    return tuple(model for model in found if not hasattr(model, "history_id"))


def find_faults() -> Iterator[Finding]:
    """Go through every record, deleted ones included."""
    for model in records_of_the_catalogue():
        yield from unreadable_values(model)
    for work in Work._base_manager.order_by("pk").iterator(AT_ONCE):
        yield from unreadable_texts(work)
    yield from orphans()
    yield from damaged_database()
    yield from damaged_files()
    yield from parted_files()


def unreadable_values(model: type[models.Model]) -> Iterator[Finding]:
    columns = [field.attname for field in model._meta.concrete_fields if isinstance(field, ValueField)]
    for record in model._base_manager.order_by("pk").iterator(AT_ONCE) if columns else ():
        for column in columns:
            value = getattr(record, column)
            if isinstance(value, Unreadable):
                yield unreadable(record, column, value, "This stored text is not one that the program writes.")


def unreadable_texts(work: Work) -> Iterator[Finding]:
    """Ask the readers again about canonical texts, and about typed ones that nothing canonical stands beside."""
    if work.instrumentation:
        yield from why_not(work, "instrumentation", work.instrumentation, read, asked_again=False)
    elif work.instrumentation_typed:
        yield from why_not(work, "instrumentation_typed", work.instrumentation_typed, read, asked_again=True)
    if work.duration is None and work.duration_typed:
        yield from why_not(work, "duration_typed", work.duration_typed, read_duration, asked_again=True)
    yield from why_not(work, "tempo_map", work.tempo_map, reckon, asked_again=False)


def why_not(
    work: Work, column: str, text: str, reader: Callable[[str], object], *, asked_again: bool
) -> Iterator[Finding]:
    try:
        reader(text)
    except (InstrumentationError, Mistake) as mistake:
        yield unreadable(work, column, text, mistake.reason, mistake.start, mistake.end)
    else:
        if asked_again:
            yield unreadable(
                work, column, text, "This can be read, but nobody has confirmed the reading; edit the work."
            )


def unreadable(
    record: models.Model, column: str, text: str, reason: str, start: int = 0, end: int | None = None
) -> Finding:
    place = (start, len(text) if end is None else end)
    return Finding(Kind.UNREADABLE, name_of(record), record.pk, str(record), column, str(text), reason, *place)


def orphans() -> Iterator[Finding]:
    for composer in Composer.objects.filter(memberships__isnull=True).order_by("pk"):
        yield orphan(composer, "memberships", "Nobody is a member of this catalogue, so no page shows it.")
    for version in Work.objects.filter(version_of__deleted_at__isnull=False).order_by("pk"):
        yield orphan(version, "version_of", f"Its first version, “{version.version_of}”, has been deleted.")
    yield from broken_references()


def broken_references() -> Iterator[Finding]:
    """Ask the database itself, which a damaged file can have made untrue."""
    try:
        connection.check_constraints()
    except IntegrityError as fault:
        yield Finding(Kind.ORPHAN, "database", None, "", "", "", str(fault))


def damaged_database() -> Iterator[Finding]:
    """Ask SQLite whether its file is whole; PostgreSQL watches over its own."""
    if connection.vendor != "sqlite":
        return
    with connection.cursor() as cursor:
        cursor.execute("PRAGMA integrity_check")
        for (told,) in cursor.fetchall():
            if told != "ok":
                yield Finding(Kind.DAMAGED, "database", None, "", "", "", f"SQLite says: {told}.")


def damaged_files() -> Iterator[Finding]:
    """Read every uploaded file: its name is the SHA-256 of what is in it. What is left of a broken off one has none."""
    paths = [path.relative_to(settings.FILES) for path in settings.FILES.glob("??/[!.]*")]
    for name in sorted(kept_files()) if settings.FILES_BUCKET else sorted(path.as_posix() for path in paths):
        checksum, path = checksum_of(name), PurePosixPath(name)
        if path.stem != checksum or path.parent.name != checksum[:2]:
            yield Finding(Kind.DAMAGED, "file", None, name, "", "", "What is in this file is not what its name says.")


def checksum_of(name: str) -> str:
    checksum = new_checksum("sha256")
    with default_storage.open(name) if settings.FILES_BUCKET else open(settings.FILES / name, "rb") as file:
        while piece := file.read(PIECE):
            checksum.update(piece)
    return checksum.hexdigest()


def parted_files() -> Iterator[Finding]:
    """Find records whose file is gone, and files that no record names or has named."""
    named: set[str] = set()
    for model in (Picture, StoredFile, Sending):
        for record in model._base_manager.order_by("pk").iterator(AT_ONCE):
            name = place_of(record.sha256, record.suffix)
            if not default_storage.exists(name):
                yield Finding(Kind.DAMAGED, name_of(record), record.pk, str(record), "file", name, "This file is gone.")
        for sha256, suffix in model.history.values_list("sha256", "suffix"):
            named.add(place_of(sha256, suffix))
    named |= {place_of(sha256, TEXT) for sha256 in Sending.history.values_list("facts_sha256", flat=True)}
    for files in RiderSending.objects.values_list("files", flat=True):
        named |= {place_of(sha256, suffix) for suffix, sha256 in files.items()}
    for sent in Submission.history.exclude(sent_files=[]).values_list("sent_files", flat=True):
        named |= {place_of(one["sha256"], one["name"].rpartition(".")[2]) for one in sent}
    for name in sorted(set(kept_files()) - named):
        yield Finding(Kind.ORPHAN, "file", None, name, "", "", "No record names this file.")


def place_of(sha256: str, suffix: str) -> str:
    return f"{sha256[:2]}/{sha256}.{suffix}"


def kept_files() -> Iterator[str]:
    try:
        folders, _files = default_storage.listdir("")
    except FileNotFoundError:
        return
    for folder in folders:
        if len(folder) == 2:
            yield from (f"{folder}/{name}" for name in default_storage.listdir(folder)[1])


def orphan(record: models.Model, column: str, reason: str) -> Finding:
    return Finding(Kind.ORPHAN, name_of(record), record.pk, str(record), column, "", reason)


def name_of(record: models.Model) -> str:
    """Return what a kind of record is called in a finding."""
    return str(record._meta.verbose_name)
