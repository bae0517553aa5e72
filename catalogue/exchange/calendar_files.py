"""Calendars as files in the data folder, where every process that serves the house finds what one of them has built.

A folder holds those of one day; when another day begins the older folders go. A file is named after a digest of what it
is the calendar of, so that neither an address nor a name can be read from it, and is written beside its place and
renamed. It can always be built again: what cannot be written is not kept, what does not come back whole is not used.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from functools import cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path
from secrets import token_hex
from shutil import rmtree
from typing import Any, NamedTuple

from django.conf import settings
from django.db import connection

OWNER_ALONE = 0o700
BUILDERS = ("icalendar", "django")
SOURCES = (".py", ".toml", ".po")


class Kept(NamedTuple):
    """What is known of a kept calendar, as JSON; its bytes, and the SHA-256 of these in figures."""

    head: dict[str, Any]
    content: bytes
    sha256: str


def put_calendar(day: str, key: tuple[str, ...], head: dict[str, Any], content: bytes) -> None:
    """Keep a calendar for a day (``2026-03-09``) with what is known of it, as JSON; let those of earlier days go."""
    place = Path(place_of(day, key))
    beside = place.with_name(f".{place.name}.{token_hex(4)}.part")
    with suppress(OSError):
        if not place.parent.exists():
            let_go_before(day)
            place.parent.mkdir(mode=OWNER_ALONE, parents=True, exist_ok=True)
        try:
            with open(beside, "xb", opener=for_owner_alone) as file:
                file.write(sealed(head, sha256(content).hexdigest()) + content)
            os.replace(beside, place)
        finally:
            beside.unlink(missing_ok=True)


def found_calendar(day: str, key: tuple[str, ...]) -> Kept | None:
    """Return a kept calendar; nothing where there is none or it is damaged."""
    try:
        with open(place_of(day, key), "rb", buffering=0) as file:
            first, _end, content = file.readall().partition(b"\n")
        head: dict[str, Any] = json.loads(first)["head"]
    except (OSError, ValueError, KeyError, TypeError):
        return None
    digest = sha256(content).hexdigest()
    return Kept(head, content, digest) if sealed(head, digest) == first + b"\n" else None


def let_go_of_all() -> None:
    """Keep none any longer, as where another database takes the place of the one that they were built from."""
    rmtree(settings.KEPT_CALENDARS, ignore_errors=True)


def let_go_before(day: str) -> None:
    for folder in settings.KEPT_CALENDARS.glob("*"):
        if folder.name < day:
            rmtree(folder, ignore_errors=True)


def place_of(day: str, key: tuple[str, ...]) -> str:
    name = sha256(json.dumps([built_by(), *key]).encode()).hexdigest()
    return os.path.join(settings.KEPT_CALENDARS, day, name)


def sealed(head: dict[str, Any], digest: str) -> bytes:
    """Return the first line of a file: what is known of the calendar, and a digest of that and of its bytes' digest."""
    told = json.dumps(head, sort_keys=True)
    return json.dumps({"sha256": sha256(f"{digest}{told}".encode()).hexdigest(), "head": head}).encode() + b"\n"


def for_owner_alone(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


@cache
def built_by() -> str:
    """Return a digest of what else the bytes depend on: the program as it lies there, its address, its database."""
    root = Path(settings.ROOT) / "catalogue"
    files = sorted(path for path in root.rglob("*") if path.suffix in SOURCES)
    parts = [
        *(f"{path.relative_to(root)} {path.stat().st_mtime_ns}" for path in files),
        *(version(name) for name in BUILDERS),
        settings.SITE_URL,
        *(str(connection.settings_dict[name]) for name in ("HOST", "PORT", "NAME")),
    ]
    return sha256("\n".join(parts).encode()).hexdigest()
