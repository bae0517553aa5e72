"""What pages show of files: where one can be sent along, what one is, and how sound is heard at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from django.template.defaultfilters import filesizeformat

from catalogue.exchange.file_formats import ACCEPTED, FORMATS
from catalogue.models import Edition, Recording, StoredFile, TechnicalSetup
from catalogue.terms import EditionKind, FileKind

COLUMNS: dict[type[Any], str] = {Edition: "edition", Recording: "recording", TechnicalSetup: "setup"}


@dataclass(frozen=True, slots=True)
class Upload:
    """A form for one file of a record; ``uid`` is the identity of the file that is to come."""

    column: str
    record: Any
    kind: str
    uid: str
    accept: str = ACCEPTED


def upload_for(record: Any) -> Upload | None:
    """Return the form with which a file is sent to an edition, a recording or a setup; none for anything else."""
    column = COLUMNS.get(type(record), "")
    return Upload(column, record, usual_kind(record).value, str(uuid4())) if column else None


def usual_kind(record: Any) -> FileKind:
    if isinstance(record, Recording):
        return FileKind.RECORDING
    if isinstance(record, TechnicalSetup):
        return FileKind.MEDIA
    return FileKind.PARTS if record.kind == EditionKind.PARTS else FileKind.SCORE


def said_of_file(record: StoredFile) -> tuple[str, ...]:
    """Return what a file is: its format, its size, the SHA-256 by which it is known again."""
    return (FORMATS[record.suffix].name, filesizeformat(record.byte_count), f"SHA-256 {record.sha256}")


def is_heard(record: Any) -> bool:
    return isinstance(record, StoredFile) and FORMATS[record.suffix].sounds
