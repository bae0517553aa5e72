"""Stored files that are whole wherever they are at all.

A file is written beside its place, brought to the disk and then renamed, so that neither a program that is killed nor a
disk that is full leaves a piece of it under its name: whoever sends the same again would be told that it is there.
"""

from __future__ import annotations

import os
from pathlib import Path
from secrets import token_hex

from django.core.files.base import File
from django.core.files.storage import FileSystemStorage


class WholeFiles(FileSystemStorage):
    """A folder of files in which none is ever half there."""

    def _save(self, name: str, content: File[bytes]) -> str:
        """Store a file and return its name; what could not be written to the end is taken away again."""
        place = Path(self.path(name))
        beside = place.with_name(f".{place.name}.{token_hex(4)}.part")
        try:
            super()._save(str(beside.relative_to(self.location)), content)  # type: ignore[misc]
            with open(beside, "rb+") as file:
                os.fsync(file.fileno())
            os.replace(beside, place)
        finally:
            beside.unlink(missing_ok=True)
        sync_folder(place.parent)
        return name


def sync_folder(folder: Path) -> None:
    """Have the folder's own entries written to the disk, where the system allows it."""
    if hasattr(os, "O_DIRECTORY"):
        opened = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
