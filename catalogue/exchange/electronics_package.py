"""All that the electronics of a work are played from, in one ZIP archive that is written while it is sent.

Its last member, ``manifest.json``, says what is in it: each file with its length and SHA-256, the loudspeakers in their
order with their angles, the programs with their versions, and the media files that the setup names. Read back, every
byte is held against it.
"""

from __future__ import annotations

import json
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import Any, BinaryIO

from catalogue.exchange.aligned_set import CHUNK, FIXED, Outlet
from catalogue.exchange.zip_stream import Member
from catalogue.rules.refused import Refused
from catalogue.rules.technical.layouts import speakers_of
from catalogue.rules.technical.terms import Setup

MANIFEST = "manifest.json"
FORMAT = 1
MEDIA = "media"
MOST_MANIFEST, MOST_FILES = 4_000_000, 5_000


class PackageError(Refused):
    """A package that cannot be made or read; ``reason`` is one sentence."""


@dataclass(frozen=True, slots=True)
class Checked:
    """What was found in a package that was read back: its manifest, and what is wrong with it."""

    manifest: Mapping[str, Any]
    files: tuple[str, ...]
    wrong: tuple[str, ...] = field(default=())


# ---- out


def media_member(name: str, digest: str, folder: Path) -> Member:
    """Return a media file of a folder; raise PackageError where it is missing, or is not the one of that SHA-256."""
    path = folder / PurePosixPath(name).name
    if not path.is_file():
        raise PackageError(f"“{name}” is not in {folder}.")
    member = Member(f"{MEDIA}/{path.name}", path)
    if digest and digest_of(member.parts()) != digest:
        raise PackageError(f"“{name}” is not the file that the setup names: its SHA-256 is another.")
    return member


def digest_of(parts: Iterable[bytes]) -> str:
    """Return the SHA-256 of bytes that come in parts, in hexadecimal."""
    found = sha256()
    for part in parts:
        found.update(part)
    return found.hexdigest()


def told_setup(setup: Setup) -> dict[str, Any]:
    """What the manifest says of a setup: its channels by name and angle, its programs, its media as they are named."""
    return {
        "setup": setup.name,
        "channels": [
            {"name": one.name, "azimuth": float(one.azimuth), "elevation": float(one.elevation), "low": one.is_low}
            for one in speakers_of(setup)
        ],
        "software": [{"name": one.name, "version": one.version} for one in setup.software],
        "media": [
            {"name": one.name, "channels": one.channels, "rate": one.rate, "bits": one.bits} for one in setup.media
        ],
    }


def package_chunks(
    members: Iterable[Member], told: Mapping[str, Any], digests: Mapping[str, str] | None = None
) -> Iterator[bytes]:
    """Give the archive part by part; ``told`` is what the manifest says besides the files.

    Raises PackageError, in the midst, where a file has not the SHA-256 that ``digests`` has for its name.
    """
    outlet = Outlet()
    files: list[dict[str, object]] = []
    with zipfile.ZipFile(outlet, "w", zipfile.ZIP_STORED) as archive:
        for member in members:
            digest, size = sha256(), 0
            with archive.open(zipfile.ZipInfo(member.name, FIXED), "w", force_zip64=True) as entry:
                for part in member.parts():
                    digest.update(part)
                    size += len(part)
                    entry.write(part)
                    yield outlet.taken()
            if digests and digests.get(member.name, digest.hexdigest()) != digest.hexdigest():
                raise PackageError(f"“{member.name}” is no longer what it was when it was kept.")
            files.append({"name": member.name, "bytes": size, "sha256": digest.hexdigest()})
        manifest = {"format": FORMAT, **told, "files": files}
        content = json.dumps(manifest, ensure_ascii=False, indent=1, sort_keys=True).encode()
        archive.writestr(zipfile.ZipInfo(MANIFEST, FIXED), content)
        yield outlet.taken()
    yield outlet.taken()


# ---- in again


def check_package(package: Path | BinaryIO) -> Checked:
    """Read a package back, piece by piece, and say what in it is not as its manifest says. Raises PackageError."""
    try:
        with zipfile.ZipFile(package) as archive:
            return checked(archive)
    except (zipfile.BadZipFile, zlib.error, OSError, EOFError, RuntimeError, ValueError, OverflowError) as fault:
        if isinstance(fault, PackageError):
            raise
        raise PackageError("This is no package of electronics, or it is damaged.") from fault


def checked(archive: zipfile.ZipFile) -> Checked:
    manifest = manifest_of(archive)
    listed = {one["name"]: one for one in manifest["files"]}
    if len(archive.infolist()) > MOST_FILES:
        raise PackageError(f"This archive holds more than {MOST_FILES} files and is no package of electronics.")
    there = {member.filename: member for member in archive.infolist() if member.filename != MANIFEST}
    wrong = [f"“{name}” is in the manifest and not in the package." for name in listed if name not in there]
    for name, member in there.items():
        if name not in listed:
            wrong.append(f"“{name}” is in the package and not in its manifest.")
        elif not is_as_told(archive, member, listed[name]):
            wrong.append(f"“{name}” is not as it was when the package was made.")
    return Checked(manifest, tuple(sorted(there)), tuple(wrong))


def manifest_of(archive: zipfile.ZipFile) -> dict[str, Any]:
    try:
        member = archive.getinfo(MANIFEST)
        if member.file_size > MOST_MANIFEST:
            raise PackageError("The manifest of this package is too long to be one.")
        with archive.open(member) as entry:
            found: dict[str, Any] = json.loads(entry.read(MOST_MANIFEST))
        files = [listed_file(one) for one in found["files"]]
    except (KeyError, TypeError, ValueError, RecursionError) as fault:
        if isinstance(fault, PackageError):
            raise
        raise PackageError("This archive has no manifest that can be read.") from fault
    if found.get("format") != FORMAT or len(set(files)) != len(files):
        raise PackageError("The manifest of this package is of another format.")
    return found


def listed_file(told: Any) -> str:
    """Return the name of a file in a manifest. Raises TypeError where it is not told as files are."""
    if not isinstance(told["name"], str) or not isinstance(told["sha256"], str) or type(told["bytes"]) is not int:
        raise TypeError("A file of the manifest is not told as files are.")
    name: str = told["name"]
    return name


def is_as_told(archive: zipfile.ZipFile, member: zipfile.ZipInfo, told: Mapping[str, Any]) -> bool:
    """Whether a member has the length and the SHA-256 that the manifest says.

    Packages are not packed, so that no more is ever read than the archive is long.
    """
    digest, left = sha256(), told["bytes"]
    if member.compress_type != zipfile.ZIP_STORED or member.file_size != left:
        return False
    try:
        with archive.open(member) as entry:
            while part := entry.read(CHUNK):
                left -= len(part)
                if left < 0:
                    return False
                digest.update(part)
    except (zipfile.BadZipFile, EOFError):
        return False
    return left == 0 and digest.hexdigest() == told["sha256"]


# ---- what has become of it since


def since(manifest: Mapping[str, Any], told: Mapping[str, Any], digests: Mapping[str, str]) -> Iterator[str]:
    """Say what is different now from when a package was made; ``digests`` are the SHA-256 of the files now.

    Papers and the setup text are made anew each time and not compared.
    """
    if manifest.get("work") != told.get("work"):
        yield f"This package is of “{str(manifest.get('work', ''))[:100]}”, not of this work."
        return
    if manifest.get("channels") != told.get("channels"):
        yield "The loudspeakers or their angles are others now."
    yield from versions_since(versions_of(manifest), versions_of(told))
    before = {one["name"]: one["sha256"] for one in manifest["files"] if "/" in one["name"]}
    for name, digest in before.items():
        if name not in digests:
            yield f"“{name}” is in the package and not kept here now."
        elif digests[name] != digest:
            yield f"Another “{name}” is kept here now."
    yield from (f"“{name}” has come since." for name in digests if name not in before)


def versions_of(told: Mapping[str, Any]) -> dict[str, str]:
    listed = told.get("software")
    rows = [one for one in listed if isinstance(one, dict)] if isinstance(listed, list) else []
    return {str(one.get("name", "")): str(one.get("version", "")) for one in rows}


def versions_since(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[str]:
    for name in dict.fromkeys((*before, *now)):
        if name not in now:
            yield f"“{name}” is no longer used."
        elif name not in before:
            yield f"“{name}” is used now and was not."
        elif before[name] != now[name]:
            yield f"“{name}” was {before[name] or 'of no version'} and is {now[name] or 'of no version'} now."
