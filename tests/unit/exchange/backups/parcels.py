"""Backups to try: the ones that the repository keeps, and ones that are sealed and yet not what they say."""

from __future__ import annotations

import json
import zipfile
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from catalogue.exchange.backups.archive import DATABASE, MANIFEST, Manifest, opened, packing

KEPT = Path(__file__).resolve().parents[3] / "backups"
NEWEST = KEPT / "0043-submissions-counted.zip"
NOW = datetime(2026, 3, 9, 10, 0, tzinfo=UTC)


def resealed(path: Path, members: Mapping[str, bytes | None] = {}, **manifest: Any) -> Path:
    """Write a backup like the newest one kept, with other members (None: left out) or another manifest."""
    with opened(NEWEST) as (archive, told), packing(path, NOW) as packer:
        contents = {name: archive.read(name) for name in told.members} | dict(members)
        for name, content in contents.items():
            if content is not None:
                packer.add(name, iter([content]))
        packer.add(MANIFEST, iter([replace(told, members=packer.members, **manifest).as_bytes()]))
    return path


def with_manifest(path: Path, content: bytes) -> Path:
    with packing(path, NOW) as packer:
        packer.add(MANIFEST, iter([content]))
    return path


def manifest_bytes(**told: Any) -> bytes:
    usual = {"format": 1, "made_at": NOW.isoformat(), "database": "sqlite", "migrations": {}, "rows": {}, "members": {}}
    return json.dumps({**usual, **told}).encode()


def member_of(path: Path, name: str) -> bytes:
    with zipfile.ZipFile(path) as archive:
        return archive.read(name)


def put_old_database(data: Path) -> None:
    """Lay the catalogue of the oldest backup that is kept into a data folder, its tables as they were."""
    data.mkdir(parents=True, exist_ok=True)
    (data / "catalogue.sqlite3").write_bytes(member_of(min(KEPT.glob("*.zip")), DATABASE))


def told_by(path: Path) -> Manifest:
    with opened(path) as (_archive, manifest):
        return manifest
