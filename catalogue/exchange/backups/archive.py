"""The file of a backup: its members, its seal and its manifest. What a file says of itself is believed only checked."""

from __future__ import annotations

import json
import os
import re
import stat
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path
from typing import IO, Any

from catalogue.exchange.archives import MEGABYTE
from catalogue.rules.refused import Refused

FORMAT = 1
MANIFEST, DATABASE = "manifest.json", "database.sqlite3"
RECORDS = re.compile(r"records/([a-z_]+)\.([a-z_]+)\.jsonl")
FILE = re.compile(r"files/([0-9a-f]{2}/[0-9a-f]{64}(?:\.[a-z0-9]{1,5})?)")
PIECE = 1 << 18
SEAL = 64
COMMENT = b"Ledgerline backup. SHA-256 of all bytes before the next 64: "
LONGEST_MANIFEST = LONGEST_LINE = 100 * MEGABYTE
DAMAGED = (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, OverflowError, NotImplementedError, ValueError)


class BackupError(Refused):
    """A backup that cannot be used, or cannot be made; ``reason`` is one sentence for whoever asked."""


@dataclass(frozen=True, slots=True)
class Member:
    sha256: str
    size: int


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a backup says of itself. ``migrations`` are those that were applied, by app; ``rows`` are by model."""

    made_at: str
    database: str
    migrations: dict[str, list[str]]
    rows: dict[str, int]
    members: dict[str, Member] = field(default_factory=dict)
    format: int = FORMAT

    @property
    def total_rows(self) -> int:
        return sum(self.rows.values())

    @property
    def moment(self) -> datetime:
        return datetime.fromisoformat(self.made_at)

    def as_bytes(self) -> bytes:
        return json.dumps(asdict(self), ensure_ascii=False, indent=1, sort_keys=True).encode()


class Packer:
    """Writes members one after another and remembers the checksum of each."""

    def __init__(self, archive: zipfile.ZipFile, moment: datetime) -> None:
        self.archive = archive
        self.when = moment.astimezone(UTC).timetuple()[:6]
        self.members: dict[str, Member] = {}

    def add(self, name: str, pieces: Iterator[bytes], *, stored: bool = False) -> None:
        """Write a member; ``stored`` without packing it, for what is packed already."""
        for _piece in self.adding(name, pieces, stored=stored):
            pass

    def adding(self, name: str, pieces: Iterator[bytes], *, stored: bool = False) -> Iterator[bytes]:
        """Write a member piece by piece, giving each when it is written."""
        info = zipfile.ZipInfo(name, date_time=self.when)
        info.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
        info.external_attr = (stat.S_IFREG | 0o600) << 16
        checksum, size = sha256(), 0
        with self.archive.open(info, "w", force_zip64=True) as member:
            for piece in pieces:
                checksum.update(piece)
                size += len(piece)
                member.write(piece)
                yield piece
        if name != MANIFEST:
            self.members[name] = Member(checksum.hexdigest(), size)


@contextmanager
def packing(path: Path, moment: datetime) -> Iterator[Packer]:
    """Open a new backup for writing, readable by its owner only; sealed and on the disk when the block ends."""
    opened = os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR | getattr(os, "O_BINARY", 0), 0o600)
    with os.fdopen(opened, "w+b") as file:
        with zipfile.ZipFile(file, "w", compresslevel=6) as archive:
            yield Packer(archive, moment)
            archive.comment = COMMENT + b"0" * SEAL
        file.seek(-SEAL, os.SEEK_END)
        end = file.tell()
        seal = checksum_of(file, end).encode("ascii")
        file.seek(end)
        file.write(seal)
        file.flush()
        os.fsync(file.fileno())


def checksum_of(file: IO[bytes], length: int) -> str:
    """Return the SHA-256 of the first so many bytes."""
    file.seek(0)
    checksum, left = sha256(), length
    while left and (piece := file.read(min(PIECE, left))):
        checksum.update(piece)
        left -= len(piece)
    return checksum.hexdigest()


def refuse_broken_seal(path: Path) -> None:
    """Raise BackupError where any byte is not as it was written."""
    with open(path, "rb") as file:
        length = file.seek(0, os.SEEK_END) - SEAL
        file.seek(max(length, 0))
        seal = file.read(SEAL)
        if length < len(COMMENT) or checksum_of(file, length).encode("ascii") != seal:
            raise BackupError("This file is no backup, or it is damaged: its bytes do not agree with its checksum.")


@contextmanager
def unsealed(path: Path, error: type[ValueError], damaged: str) -> Iterator[zipfile.ZipFile]:
    """Open a file whose seal holds. Raises the error, with ``damaged`` also for what is found wrong in the block."""
    try:
        refuse_broken_seal(path)
        with zipfile.ZipFile(path) as archive:
            yield archive
    except error:
        raise
    except FileNotFoundError as fault:
        raise error(f"There is no file “{path}”.") from fault
    except IsADirectoryError as fault:
        raise error(f"“{path}” is a folder.") from fault
    except DAMAGED as fault:
        raise error(damaged) from fault


def told_in(archive: zipfile.ZipFile, manifest: str) -> Any:
    """Return what a manifest says, read but not believed; nothing where there is none of this name."""
    if archive.namelist().count(manifest) != 1 or archive.getinfo(manifest).file_size > LONGEST_MANIFEST:
        return None
    return json.loads(b"".join(pieces_of(archive, manifest, LONGEST_MANIFEST)))


def members_in(told: Any) -> dict[str, Member]:
    return {str(name): Member(str(one["sha256"]), int(one["size"])) for name, one in told["members"].items()}


def holds_other(archive: zipfile.ZipFile, manifest: str, members: Iterable[str]) -> bool:
    """Say whether there is more in a file than its manifest and what that tells of, or less."""
    return sorted(archive.namelist()) != sorted([*members, manifest])


@contextmanager
def opened(path: Path) -> Iterator[tuple[zipfile.ZipFile, Manifest]]:
    """Open a backup whose seal holds, with its manifest. Raises BackupError, also for what is damaged in the block."""
    with unsealed(path, BackupError, "This backup is damaged and cannot be unpacked.") as archive:
        yield archive, manifest_of(archive)


def manifest_of(archive: zipfile.ZipFile) -> Manifest:
    told = told_in(archive, MANIFEST)
    if told is None:
        raise BackupError("This file is no backup of a catalogue: it has no manifest.")
    manifest = manifest_from(told)
    if holds_other(archive, MANIFEST, manifest.members) or not all(map(is_known, manifest.members)):
        raise BackupError("This backup does not hold what its manifest says.")
    return manifest


def manifest_from(told: Any) -> Manifest:
    if not isinstance(told, Mapping) or not isinstance(told.get("format"), int):
        raise BackupError("This file is no backup of a catalogue: its manifest cannot be read.")
    if told["format"] > FORMAT:
        raise BackupError("This backup was made by a newer version of the program; use that one.")
    try:
        migrations = {str(app): [str(name) for name in names] for app, names in told["migrations"].items()}
        rows = {str(name): int(count) for name, count in told["rows"].items()}
        made_at = datetime.fromisoformat(told["made_at"]).isoformat()
        return Manifest(made_at, str(told["database"]), migrations, rows, members_in(told), told["format"])
    except (KeyError, TypeError, AttributeError, ValueError) as fault:
        raise BackupError("This file is no backup of a catalogue: its manifest cannot be read.") from fault


def is_known(name: str) -> bool:
    return name == DATABASE or RECORDS.fullmatch(name) is not None or FILE.fullmatch(name) is not None


def pieces_of(archive: zipfile.ZipFile, name: str, most: int) -> Iterator[bytes]:
    """Give a member piece by piece, never more than so many bytes, whatever the archive says of its size."""
    size = 0
    with archive.open(name) as member:
        while piece := member.read(PIECE):
            size += len(piece)
            if size > most:
                raise BackupError("This backup does not hold what its manifest says.")
            yield piece


def checked_pieces(archive: zipfile.ZipFile, name: str, member: Member) -> Iterator[bytes]:
    """Give a member piece by piece; BackupError at its end where it is not what the manifest says."""
    checksum, size = sha256(), 0
    for piece in pieces_of(archive, name, member.size):
        checksum.update(piece)
        size += len(piece)
        yield piece
    if (checksum.hexdigest(), size) != (member.sha256, member.size):
        raise BackupError(f"“{name}” in this backup is damaged.")


def lines_in(archive: zipfile.ZipFile, name: str, member: Member) -> Iterator[bytes]:
    """Give the lines of a member, checked at the end. Raises BackupError also for a line longer than any record."""
    begun: list[bytes] = []
    held = 0
    for piece in checked_pieces(archive, name, member):
        *lines, rest = piece.split(b"\n")
        for line in lines:
            whole = b"".join([*begun, line])
            begun, held = [], 0
            yield whole
        begun.append(rest)
        held += len(rest)
        refuse_long_line(name, held)
    if held:
        yield b"".join(begun)


def count_lines(archive: zipfile.ZipFile, name: str, member: Member) -> int:
    """Return how many lines a member has, without holding one. Raises BackupError as ``lines_in`` does."""
    count = held = 0
    for piece in checked_pieces(archive, name, member):
        ends = piece.count(b"\n")
        held = len(piece) - piece.rindex(b"\n") - 1 if ends else held + len(piece)
        refuse_long_line(name, held)
        count += ends
    return count + (held > 0)


def refuse_long_line(name: str, length: int) -> None:
    if length > LONGEST_LINE:
        raise BackupError(f"“{name}” in this backup holds a line that is no record.")
