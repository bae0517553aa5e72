"""A ZIP archive that is written while it is sent: its files one after another as they are, none held whole.

Nothing is squeezed: scores and recordings are so already, and the length of the archive is known before its first byte.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator

from catalogue.exchange.aligned_set import FIXED, Outlet
from catalogue.exchange.electronics_package import Member

# bytes around a member with 64-bit sizes (PKWARE's application note, 4.3.7, 4.3.9, 4.3.12 and 4.5.3), without its names
LOCAL, DESCRIPTOR, CENTRAL, END = 30 + 20, 24, 46, 22
SMALL = 2**31 - 1


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
