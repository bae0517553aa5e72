"""What was counted of a whole catalogue, as files in the data folder, so that a process that starts need not count.

A file holds what was counted and the version of the lists at which that was so; whoever reads it brings it forward by
the lines that are new since (``catalogue.gathering.once``). No database is written for it, so that nobody who reads a
page waits for one who saves. What cannot be written is not kept, what does not come back whole is not used.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from secrets import token_hex
from shutil import rmtree
from typing import Any

from django.conf import settings
from django.db import connection

from catalogue.gathering.versions import Version

OWNER_ALONE = 0o700
FOLDER, MARK = "counts", "mark"


@dataclass(frozen=True)
class Keeper:
    """Keeps one thing of each catalogue. ``source`` is the module that counts it, ``besides`` are those it counts by:
    where one of them is another one, nothing of this is found.
    """

    what: str
    source: str
    besides: tuple[str, ...] = ()

    @cached_property
    def counted_by(self) -> str:
        try:
            return sha256(b"".join(Path(one).read_bytes() for one in (self.source, *self.besides))).hexdigest()
        except OSError:
            return ""

    def found(self, composer: int) -> tuple[Version, bytes] | None:
        """Return what is kept of a composer's catalogue and of which version it was counted; None where nothing is."""
        try:
            with open(self.place_of(composer), "rb") as file:
                first = file.readline()
                content = file.read()
            version = tuple(map(from_text, json.loads(first)["version"]))
        except (OSError, ValueError, KeyError, TypeError):
            return None
        return (version, content) if sealed(version, content) == first else None

    def keep(self, composer: int, version: Version, content: bytes) -> None:
        place = self.place_of(composer)
        beside = place.with_name(f".{place.name}.{token_hex(4)}.part")
        with suppress(OSError):
            mark()
            try:
                with open(beside, "xb", opener=for_owner_alone) as file:
                    file.write(sealed(version, content) + content)
                os.replace(beside, place)
            finally:
                beside.unlink(missing_ok=True)

    def place_of(self, composer: int) -> Path:
        database = [str(connection.settings_dict[name]) for name in ("HOST", "PORT", "NAME")]
        told = json.dumps([*database, self.what, self.counted_by, composer])
        return folder() / sha256(told.encode()).hexdigest()


def generation() -> int:
    """Return what is another number once all that was kept was let go of, in whichever process: 0 where nothing is."""
    try:
        return (folder() / MARK).stat().st_mtime_ns
    except OSError:
        return 0


def let_go() -> None:
    """Have all processes count everything anew, as where rows were put right that no line of a history tells of."""
    rmtree(folder(), ignore_errors=True)
    with suppress(OSError):
        mark()


def mark() -> None:
    """Make the folder, where there is none, and the file that says since when it is there."""
    if not (folder() / MARK).exists():
        folder().mkdir(mode=OWNER_ALONE, parents=True, exist_ok=True)
        (folder() / MARK).touch(mode=0o600)


def folder() -> Path:
    """Return the folder: within that of the calendars, with which it is let go of where another database comes."""
    within: Path = settings.KEPT_CALENDARS / FOLDER
    return within


def for_owner_alone(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def sealed(version: Version, content: bytes) -> bytes:
    """Return the first line of a file: the version, and a digest of that and of the content."""
    told = [as_text(one) for one in version]
    digest = sha256(json.dumps(told).encode() + content).hexdigest()
    return json.dumps({"sha256": digest, "version": told}).encode() + b"\n"


def as_text(item: Any) -> Any:
    return {"at": item.isoformat()} if isinstance(item, datetime) else item


def from_text(item: Any) -> Any:
    return datetime.fromisoformat(item["at"]) if isinstance(item, dict) else item
