"""A ZIP archive that is written while it is sent: its files one after another as they are, none held whole.

Nothing is squeezed: scores and recordings are so already, and the length of the archive is known before its first byte.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from catalogue.exchange.aligned_set import CHUNK, FIXED, Outlet

# bytes around a member with 64-bit sizes (PKWARE's application note, 4.3.7, 4.3.9, 4.3.12 and 4.5.3), without its names
LOCAL, DESCRIPTOR, CENTRAL, END = 30 + 20, 24, 46, 22
SMALL = 2**31 - 1


class Pieces(Protocol):
    """A content that is made while it is sent; its ``size`` is known before."""

    @property
    def size(self) -> int: ...

    def parts(self) -> Iterator[bytes]: ...


Content = bytes | Path | Pieces


@dataclass(frozen=True, slots=True)
class Member:
    """A file of an archive: its name there, and its content or where that is."""

    name: str
    content: Content

    @property
    def size(self) -> int:
        if isinstance(self.content, bytes):
            return len(self.content)
        return self.content.stat().st_size if isinstance(self.content, Path) else self.content.size

    def parts(self) -> Iterator[bytes]:
        if isinstance(self.content, bytes):
            yield self.content
        elif isinstance(self.content, Path):
            with open(self.content, "rb") as file:
                while part := file.read(CHUNK):
                    yield part
        else:
            yield from self.content.parts()


def zip_chunks(members: Iterable[Member]) -> Iterator[bytes]:
    """Give the archive part by part."""
    outlet = Outlet()
    with zipfile.ZipFile(outlet, "w", zipfile.ZIP_STORED) as archive:
        for member in members:
            with archive.open(zipfile.ZipInfo(member.name, FIXED), "w", force_zip64=True) as entry:
                for part in member.parts():
                    entry.write(part)
                    yield outlet.taken()
        yield outlet.taken()
    yield outlet.taken()


def zip_size(sizes: Iterable[tuple[str, int]]) -> int | None:
    """Return how long the archive of such files is; None where it needs the larger tables of contents.

    >>> zip_size([("note.txt", 3)]) == sum(map(len, zip_chunks([Member("note.txt", b"abc")])))
    True
    """
    files = list(sizes)
    total = END
    for name, size in files:
        total += LOCAL + DESCRIPTOR + CENTRAL + 2 * len(name.encode()) + size
    return total if total < SMALL else None
