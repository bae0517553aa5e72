"""What pages show of files: where one can be sent along, what one is, and how sound is heard at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

from django.template.defaultfilters import filesizeformat
from django.utils.translation import gettext as _

from catalogue.exchange.file_formats import ACCEPTED, FORMATS
from catalogue.gathering.files import doubts_about_file, found_in
from catalogue.models import Edition, Recording, StoredFile, TechnicalSetup
from catalogue.rules.technical.checks import kilohertz
from catalogue.rules.technical.files import MOST_TOLD, PdfFacts, SoundFacts, clock, told
from catalogue.terms import EditionKind, FileKind
from catalogue.web.records.kinds import Words
from catalogue.web.records.shown import Row

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


def doubts_about_files(record: Any) -> tuple[str, ...]:
    """Return what does not agree in a file, or in those of an edition, a recording or a setup, each with its name."""
    if isinstance(record, StoredFile):
        return tuple(doubts_about_file(record))
    column = COLUMNS.get(type(record))
    if column is None:
        return ()
    files = StoredFile.objects.filter(**{column: record}).select_related(*COLUMNS.values()).order_by("pk")
    return tuple(f"“{one}”: {doubt}" for one in files for doubt in doubts_about_file(one))


def found_rows(record: StoredFile) -> list[Row]:
    """Return what was found in a file when it came, in words."""
    found = found_in(record)
    told = told_of_sound(found) if isinstance(found, SoundFacts) else told_of_pdf(found) if found else ()
    return [Row(label, text, (), is_long=False) for label, text in told if text]


def told_of_sound(sound: SoundFacts) -> Iterator[tuple[Words, str]]:
    yield _("Duration"), clock(sound.seconds) if sound.seconds is not None else ""
    yield _("Channels"), str(sound.channels or "")
    yield _("Sample rate"), kilohertz(sound.rate) if sound.rate else ""
    yield _("Bits"), str(sound.bits or "")
    yield from ((name.capitalize(), text) for name, text in sound.tags)


def told_of_pdf(pdf: PdfFacts) -> Iterator[tuple[Words, str]]:
    yield _("Pages"), str(pdf.pages or "")
    yield _("Page size"), ", ".join(f"{one.width} × {one.height} mm" for one in pdf.sizes[:MOST_TOLD])
    yield _("Fonts"), all_in_the_file(pdf)
    yield _("Turned pages"), told(tuple(map(str, pdf.turned)))
    yield _("Bookmarks"), told(pdf.bookmarks)


def all_in_the_file(pdf: PdfFacts) -> str:
    if not pdf.fonts:
        return ""
    held = pdf.fonts - len(pdf.loose_fonts)
    return _("%(held)s of %(all)s in the file") % {"held": held, "all": pdf.fonts}


def is_heard(record: Any) -> bool:
    return isinstance(record, StoredFile) and FORMATS[record.suffix].sounds
