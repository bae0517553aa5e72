"""A package of electronics: what goes in comes back, and what has been changed is found."""

from __future__ import annotations

import json
import zipfile
from hashlib import sha256
from pathlib import Path

import pytest

from catalogue.exchange.electronics_package import (
    MANIFEST,
    Member,
    PackageError,
    check_package,
    media_member,
    package_chunks,
    told_setup,
)
from catalogue.rules.technical.reading import read_media, read_software
from catalogue.rules.technical.terms import Setup
from catalogue.terms import LayoutName

SETUP = Setup(
    1,
    "As meant",
    layout=LayoutName.STEREO,
    software=read_software("Patch player; 4.2; composer"),
    media=read_media("tone.wav; stereo; 48 kHz; 24 bit"),
)


def media_of(setup: Setup, folder: Path) -> list[Member]:
    return [media_member(one.name, one.sha256, folder) for one in setup.media]


def written(folder: Path) -> Path:
    (folder / "tone.wav").write_bytes(b"RIFF" + bytes(200_000))
    members = [Member("setup.txt", b"Turn it on."), *media_of(SETUP, folder)]
    path = folder / "package.zip"
    path.write_bytes(b"".join(package_chunks(members, told_setup(SETUP))))
    return path


def rewritten(path: Path, **changed: bytes | None) -> Path:
    """The package with members changed, added or left out, under the manifest that it had."""
    with zipfile.ZipFile(path) as archive:
        content = {one.filename: archive.read(one) for one in archive.infolist()}
    content = {name: part for name, part in {**content, **changed}.items() if part is not None}
    with zipfile.ZipFile(path, "w") as archive:
        for name, part in content.items():
            archive.writestr(name, part)
    return path


def test_a_package_is_whole_and_says_what_is_in_it(tmp_path: Path) -> None:
    found = check_package(written(tmp_path))

    assert (found.files, found.wrong) == (("media/tone.wav", "setup.txt"), ())
    assert found.manifest["software"] == [{"name": "Patch player", "version": "4.2"}]
    assert [one["name"] for one in found.manifest["channels"]] == ["L", "R"]
    assert found.manifest["files"][1]["bytes"] == 200_004


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"setup.txt": b"Turn it off."}, "“setup.txt” is not as it was when the package was made."),
        ({"setup.txt": None}, "“setup.txt” is in the manifest and not in the package."),
        ({"more.txt": b"!"}, "“more.txt” is in the package and not in its manifest."),
    ],
)
def test_what_was_changed_is_found(tmp_path: Path, changed: dict[str, bytes | None], sentence: str) -> None:
    assert check_package(rewritten(written(tmp_path), **changed)).wrong == (sentence,)


@pytest.mark.parametrize("manifest", [b"{", b"{}", b"[]", json.dumps({"format": 2, "files": []}).encode()])
def test_a_manifest_that_is_none_is_refused(tmp_path: Path, manifest: bytes) -> None:
    with pytest.raises(PackageError):
        check_package(rewritten(written(tmp_path), **{MANIFEST: manifest}))


def test_something_else_is_no_package(tmp_path: Path) -> None:
    path = tmp_path / "score.pdf"
    path.write_bytes(b"%PDF-1.7")
    with pytest.raises(PackageError, match="no package"):
        check_package(path)


def test_a_media_file_that_is_missing_or_another_one_is_refused(tmp_path: Path) -> None:
    with pytest.raises(PackageError, match="is not in"):
        media_of(SETUP, tmp_path)
    (tmp_path / "tone.wav").write_bytes(b"other")
    named = Setup(1, "x", media=read_media(f"tone.wav; {'ab' * 32}"))
    with pytest.raises(PackageError, match="SHA-256 is another"):
        media_of(named, tmp_path)


@pytest.mark.parametrize(
    "files",
    ['[{"name": "a", "bytes": "9", "sha256": ""}]', '[{"name": [], "bytes": 9, "sha256": ""}]', "[" * 100_000, '"a"'],
)
def test_a_manifest_that_means_harm_is_refused(tmp_path: Path, files: str) -> None:
    manifest = f'{{"format": 1, "files": {files}}}'.encode()
    with pytest.raises(PackageError):
        check_package(rewritten(written(tmp_path), **{MANIFEST: manifest}))


def test_a_file_that_is_packed_is_never_unpacked(tmp_path: Path) -> None:
    path, content = tmp_path / "bomb.zip", bytes(1_000_000)
    listed = {"name": "a", "bytes": len(content), "sha256": sha256(content).hexdigest()}
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("a", content)
        archive.writestr(MANIFEST, json.dumps({"format": 1, "files": [listed]}))

    assert check_package(path).wrong == ("“a” is not as it was when the package was made.",)


def test_a_file_that_is_no_longer_what_it_was_is_not_packed() -> None:
    with pytest.raises(PackageError, match="no longer what it was"):
        list(package_chunks([Member("a", b"a")], {}, {"a": "0" * 64}))
