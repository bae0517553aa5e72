"""Uploaded files on their way into a backup and out of it, whether they lie in a folder or in an object storage."""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from tempfile import TemporaryFile

from django.conf import settings
from django.core.files.base import File
from django.core.files.storage import default_storage

from catalogue.exchange.backups.archive import PIECE


def uploaded() -> list[str]:
    """Return the names of the files; they never change, so that those of a moment ago are those of now."""
    if settings.FILES_BUCKET:
        folders = [folder for folder in default_storage.listdir("")[0] if len(folder) == 2]
        return sorted(f"{folder}/{name}" for folder in folders for name in default_storage.listdir(folder)[1])
    paths = [path for path in settings.FILES.glob("??/*") if path.is_file() and not path.name.startswith(".")]
    return sorted(path.relative_to(settings.FILES).as_posix() for path in paths)


def pieces_of_upload(name: str) -> Iterator[bytes]:
    with default_storage.open(name) if settings.FILES_BUCKET else open(settings.FILES / name, "rb") as file:
        while piece := file.read(PIECE):
            yield piece


def is_there(name: str) -> bool:
    return default_storage.exists(name) if settings.FILES_BUCKET else (settings.FILES / name).exists()


def put_upload(name: str, pieces: Iterable[bytes]) -> None:
    """Store a file under its name; it is there as a whole or not at all."""
    if settings.FILES_BUCKET:
        with TemporaryFile() as file:
            file.writelines(pieces)
            file.seek(0)
            default_storage.save(name, File(file))
        return
    target = settings.FILES / name
    target.parent.mkdir(parents=True, exist_ok=True)
    part = target.with_name(f".{target.name}.part")
    with open(part, "wb") as file:
        file.writelines(pieces)
        os.fsync(file.fileno())
    os.replace(part, target)
