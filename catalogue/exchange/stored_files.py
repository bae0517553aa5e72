"""Files that were uploaded: kept as they came under the SHA-256 of their content, and named for taking away again."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from hashlib import sha256
from pathlib import PurePath

from django.core.files.base import File
from django.core.files.storage import Storage

from catalogue.exchange.pictures import stored_name

LONGEST_NAME = 100
UNNAMED = "file"
UNSAFE = frozenset('<>:"/\\|?*')


def keep_upload(file: File[bytes], suffix: str, storage: Storage) -> str:
    """Store a file under its content, once, piece by piece; return its SHA-256."""
    checksum = sha256()
    for piece in file.chunks():
        checksum.update(piece)
    name = stored_name(checksum.hexdigest(), suffix)
    if not storage.exists(name):
        file.seek(0)
        kept = storage.save(name, file)
        if kept != name:  # somebody else has stored the same in between
            storage.delete(kept)
    return checksum.hexdigest()


def plain_name(name: str) -> str:
    """Return the name that a file came with: no folder, nothing that cannot be printed, of a bounded length.

    >>> plain_name("..\\\\scores\\\\Ash Ferry.pdf"), plain_name("a\\u202egpj.exe"), plain_name("/")
    ('Ash Ferry.pdf', 'agpj.exe', 'file')
    """
    last = PurePath(name.replace("\\", "/")).name
    kept = "".join(letter for letter in last if is_printed(letter)).strip(" .")
    stem, dot, ending = kept.rpartition(".")
    if len(kept) > LONGEST_NAME and dot and len(ending) <= 10:
        return f"{stem[: LONGEST_NAME - len(ending) - 1]}.{ending}"
    return kept[:LONGEST_NAME] or UNNAMED


def is_printed(letter: str) -> bool:
    """Whether a letter may stand in the name of a file: no control, no turn of direction, nothing refused."""
    return unicodedata.category(letter) not in {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"} and letter not in UNSAFE


def name_to_take_away(original: str, suffix: str) -> str:
    """Return the name of a download: that with which the file came, its ending by what it holds.

    >>> name_to_take_away("Ash Ferry.PDF", "pdf"), name_to_take_away("take 3", "wav")
    ('Ash Ferry.pdf', 'take 3.wav')
    """
    stem = plain_name(original)
    ends = PurePath(stem).suffix
    return f"{stem.removesuffix(ends) if len(ends) <= 10 else stem}.{suffix}"


def pieces_from(storage: Storage, name: str, first: int, count: int, at_once: int = 262_144) -> Iterator[bytes]:
    """Give so many bytes of a stored file from a place on, piece by piece; a storage may know a nearer way."""
    if ranged := getattr(storage, "pieces", None):
        yield from ranged(name, first, count, at_once)
        return
    with storage.open(name) as file:
        file.seek(first)
        while count > 0 and (piece := file.read(min(at_once, count))):
            count -= len(piece)
            yield piece
