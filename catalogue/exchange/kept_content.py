"""The content of a file that is kept, wherever files are kept: its size, and its bytes piece by piece."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO, cast

from django.core.files.storage import Storage

from catalogue.exchange.aligned_set import CHUNK


@dataclass(frozen=True, slots=True)
class Kept:
    """A stored file by its name in the storage."""

    storage: Storage
    name: str
    size: int

    def open(self) -> BinaryIO:
        return cast(BinaryIO, self.storage.open(self.name))

    def parts(self) -> Iterator[bytes]:
        with self.open() as file:
            while part := file.read(CHUNK):
                yield part


def kept(storage: Storage, name: str) -> Kept:
    """Return a stored file. Raises FileNotFoundError where it is gone."""
    if not storage.exists(name):
        raise FileNotFoundError(name)
    return Kept(storage, name, storage.size(name))
