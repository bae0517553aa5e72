"""What is in a file that is to be kept: read within limits, so that what is damaged or hostile is said at once.

Archives are kept packed and never unpacked here; one that would unpack to far more than it is, that would write
outside its folder, or that holds links is not kept, since others will unpack it.
"""

from __future__ import annotations

import re
import struct
import zipfile
from collections.abc import Callable
from pathlib import PurePosixPath
from typing import BinaryIO

from lxml import etree

from catalogue.exchange.archives import MEGABYTE, ArchiveError, refuse_odd
from catalogue.exchange.file_formats import MIDI, MXL, PDF, XML, ZIP, FileFormat, FormatError
from catalogue.exchange.media_files import MediaError, length_of
from catalogue.exchange.pdf_files import PdfError, read_pdf
from catalogue.exchange.scores.model import ScoreError
from catalogue.exchange.scores.opening import score_xml
from catalogue.exchange.scores.parsing import elements, sentence_of
from catalogue.exchange.sound_files import read_sound
from catalogue.rules.technical.files import PdfFacts, SoundFacts

Found = SoundFacts | PdfFacts | None
END_OF_ARCHIVE, FAR_LOCATOR = b"PK\x05\x06", b"PK\x06\x07"
MOST_ENTRIES, LONGEST_DIRECTORY = 10_000, 4 * MEGABYTE
MOST_UNPACKED, MOST_RATIO = 2000 * MEGABYTE, 200
DRIVE = re.compile(r"[A-Za-z]:")
DAMAGED_ARCHIVE = "This archive is damaged and cannot be unpacked."


def read_upload(file: BinaryIO, format: FileFormat) -> Found:
    """Return what is known of a file by what is in it. Raises FormatError where it is damaged or hostile."""
    reader = READERS.get(format.suffix)
    try:
        if format.sounds:
            return read_sound(file, format.suffix)
        return reader(file) if reader else None
    except (PdfError, MediaError, ScoreError, ArchiveError) as fault:
        raise FormatError(fault.reason) from fault
    finally:
        file.seek(0)


def check_score(file: BinaryIO) -> Found:
    """Read a score once through; nothing is kept of it."""
    file.seek(0)
    xml = score_xml(file.read(MXL.most + 1))
    try:
        for _element in elements(xml):
            pass
    except etree.XMLSyntaxError as fault:
        raise ScoreError(sentence_of(fault, xml)) from fault
    return None


def check_midi(file: BinaryIO) -> Found:
    file.seek(0)
    head = file.read(14)
    if len(head) < 14 or head[4:8] != b"\0\0\0\x06":
        raise FormatError("This MIDI file is damaged: its head is not whole.")
    return None


def check_archive(file: BinaryIO) -> Found:
    """Look through the list of an archive; nothing in it is unpacked."""
    refuse_long_directory(file)
    file.seek(0)
    try:
        with zipfile.ZipFile(file) as archive:
            members = archive.infolist()
    except (zipfile.BadZipFile, OSError, EOFError, ValueError, RuntimeError, NotImplementedError) as fault:
        raise FormatError(DAMAGED_ARCHIVE) from fault
    for member in members:
        refuse_odd(member)
        refuse_outside(member.filename)
    unpacked, packed = (sum(getattr(one, column) for one in members) for column in ("file_size", "compress_size"))
    if unpacked > MOST_UNPACKED or (unpacked > MEGABYTE and unpacked > MOST_RATIO * max(packed, 1)):
        raise FormatError(f"This archive would unpack to {unpacked // MEGABYTE} MB and is not kept.")
    return None


def refuse_long_directory(file: BinaryIO) -> None:
    """Raise FormatError for a list that is too long to be read, by the archive's last record (APPNOTE 6.3, 4.3.16)."""
    size = length_of(file)
    file.seek(max(0, size - 65_557))
    tail = file.read()
    place = tail.rfind(END_OF_ARCHIVE)
    if place < 0 or len(tail) - place < 22:
        raise FormatError(DAMAGED_ARCHIVE)
    entries, length = struct.unpack("<HI", tail[place + 10 : place + 16])
    if entries > MOST_ENTRIES or length > LONGEST_DIRECTORY or tail[max(0, place - 20) :].startswith(FAR_LOCATOR):
        raise FormatError(f"This archive holds more than {MOST_ENTRIES:,} files, or says so, and is not kept.")


def refuse_outside(name: str) -> None:
    path = PurePosixPath(name.replace("\\", "/"))
    if path.is_absolute() or ".." in path.parts or DRIVE.match(name) or "\0" in name:
        raise FormatError(f"This archive holds “{name[:60]}”, which would be written outside its folder.")


READERS: dict[str, Callable[[BinaryIO], Found]] = {
    PDF.suffix: read_pdf,
    XML.suffix: check_score,
    MXL.suffix: check_score,
    MIDI.suffix: check_midi,
    ZIP.suffix: check_archive,
}
