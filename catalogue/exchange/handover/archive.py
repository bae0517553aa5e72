"""The file of a hand-over: a ZIP with a manifest, a line for each record, the files, and a seal over every byte.

It is packed and sealed as a backup is (``exchange/backups/archive.py``), under a manifest of another name, so that
neither is ever taken for the other.
"""

from __future__ import annotations

import json
import re
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict, dataclass, field
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any

from catalogue.exchange.backups.archive import (
    Member,
    holds_other,
    lines_in,
    members_in,
    told_in,
    unsealed,
)
from catalogue.rules.refused import Refused

FORMAT = 1
MANIFEST = "hand-over.json"
RECORDS = "records/{}.jsonl"
MEMBER = re.compile(r"records/[a-z_]+\.jsonl|files/[0-9a-f]{2}/[0-9a-f]{64}(?:\.[a-z0-9]{1,5})?", re.ASCII)
WHOLE = 1 << 18
NO_HAND_OVER = "This file is no catalogue that was handed over."
TAMPERED = "This file was changed or damaged after it was made, or is no catalogue that was handed over."


class HandOverError(Refused):
    """A catalogue that cannot be handed over or taken over; ``reason`` is one sentence."""


@dataclass(frozen=True, slots=True)
class Manifest:
    """What the file says of itself: whose catalogue, when and to whom it went, how many records of which kind.

    ``lacking`` are the files that the records name and that were no longer there.
    """

    composer: str
    made_at: str
    to: str
    rows: dict[str, int]
    members: dict[str, Member] = field(default_factory=dict)
    lacking: tuple[str, ...] = ()
    format: int = FORMAT

    @property
    def moment(self) -> datetime:
        return datetime.fromisoformat(self.made_at)

    @property
    def total(self) -> int:
        return sum(self.rows.values())

    @property
    def files(self) -> tuple[str, ...]:
        return tuple(sorted(name for name in self.members if name.startswith("files/")))

    def as_bytes(self) -> bytes:
        return json.dumps(asdict(self), ensure_ascii=False, indent=1, sort_keys=True).encode()


@contextmanager
def opened(path: Path) -> Iterator[tuple[zipfile.ZipFile, Manifest]]:
    """Open a file whose seal holds, with its manifest. Raises HandOverError, also for damage found in the block."""
    with unsealed(path, HandOverError, TAMPERED) as archive:
        yield archive, manifest_of(archive)


def manifest_of(archive: zipfile.ZipFile) -> Manifest:
    manifest = manifest_from(told_in(archive, MANIFEST))
    if holds_other(archive, MANIFEST, manifest.members) or not all(map(MEMBER.fullmatch, manifest.members)):
        raise HandOverError("This file does not hold what its manifest says.")
    return manifest


def manifest_from(told: Any) -> Manifest:
    if not isinstance(told, Mapping) or not isinstance(told.get("format"), int):
        raise HandOverError(NO_HAND_OVER)
    if told["format"] > FORMAT:
        raise HandOverError("This file was made by a newer version of the program; take it over with that one.")
    try:
        return Manifest(
            composer=str(told["composer"]),
            made_at=datetime.fromisoformat(told["made_at"]).isoformat(),
            to=str(told["to"]),
            rows={str(name): int(count) for name, count in told["rows"].items()},
            members=members_in(told),
            lacking=tuple(str(name) for name in told["lacking"]),
        )
    except (KeyError, TypeError, AttributeError, ValueError) as fault:
        raise HandOverError(NO_HAND_OVER) from fault


def rows_in(archive: zipfile.ZipFile, manifest: Manifest, model: str) -> Iterator[dict[str, Any]]:
    """Give the records of a model, checked at the end. Raises HandOverError for a line that is none."""
    name = RECORDS.format(model)
    if name not in manifest.members:
        return
    for line in lines_in(archive, name, manifest.members[name]):
        told = json.loads(line)
        if not isinstance(told, dict):
            raise HandOverError("This file does not hold what its manifest says.")
        yield told


def checksum_of(path: Path) -> str:
    """Return the SHA-256 of a file, by which both houses know it."""
    found = sha256()
    with open(path, "rb") as file:
        while piece := file.read(WHOLE):
            found.update(piece)
    return found.hexdigest()
