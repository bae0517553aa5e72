"""Zip archives from outside, unpacked within limits: a spreadsheet or a compressed score is one.

What an archive says of its sizes is never trusted; members are unpacked piece by piece and counted. Encrypted members,
links and archives inside archives are refused.
"""

from __future__ import annotations

import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

from catalogue.rules.refused import Refused

MEGABYTE = 1_000_000
PIECE = 65_536
NESTED = (b"PK\x03\x04", b"Rar!", b"7z\xbc\xaf", b"\x1f\x8b")


class ArchiveError(Refused):
    """An archive that is damaged or does not stay within limits."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Sizes in bytes; ``ratio`` is unpacked to packed, asked of members beyond a megabyte."""

    members: int = 200
    each: int = 50 * MEGABYTE
    together: int = 100 * MEGABYTE
    ratio: int = 200


def pieces(content: bytes, limits: Limits) -> Iterator[tuple[str, bytes]]:
    """Give every member's name with each piece of it, in the archive's order. Raises ArchiveError."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as archive:
            members = archive.infolist()
            if len(members) > limits.members:
                raise ArchiveError(f"This file holds {len(members)} parts; at most {limits.members} are read.")
            total = 0
            for member in members:
                refuse_odd(member)
                for piece in unpacked(archive, member, limits):
                    total += len(piece)
                    if total > limits.together:
                        raise ArchiveError(f"Unpacked, this file is larger than {in_megabytes(limits.together)}.")
                    yield member.filename, piece
    except ArchiveError:
        raise
    except (
        zipfile.BadZipFile,
        zlib.error,
        struct.error,
        EOFError,
        OSError,
        RuntimeError,
        ValueError,
        OverflowError,
    ) as fault:
        raise ArchiveError("This file is damaged and cannot be unpacked.") from fault


def refuse_odd(member: zipfile.ZipInfo) -> None:
    if member.flag_bits & 0x1:
        raise ArchiveError("This file is protected by a password; save it without one.")
    if stat.S_ISLNK(member.external_attr >> 16):
        raise ArchiveError("This file holds a link to another file and is not read.")


def unpacked(archive: zipfile.ZipFile, member: zipfile.ZipInfo, limits: Limits) -> Iterator[bytes]:
    size = 0
    with archive.open(member) as opened:
        while piece := opened.read(PIECE):
            if size == 0 and piece.startswith(NESTED):
                raise ArchiveError("This file holds another archive and is not read.")
            size += len(piece)
            packed_far_too_small = size > MEGABYTE and size > limits.ratio * max(member.compress_size, 1)
            if size > limits.each or packed_far_too_small:
                raise ArchiveError(f"A part of this file unpacks to more than {in_megabytes(size)}.")
            yield piece


def in_megabytes(size: int) -> str:
    return f"{size // MEGABYTE} MB"
