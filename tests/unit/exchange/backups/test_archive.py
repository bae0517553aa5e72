"""The file of a backup: no byte of it changes unnoticed, and nothing it says of itself is believed."""

from __future__ import annotations

import stat
import zipfile
from dataclasses import asdict
from datetime import UTC
from hashlib import sha256
from pathlib import Path

import pytest

from catalogue.exchange.backups import archive
from catalogue.exchange.backups.archive import MANIFEST, PIECE, BackupError, Member, lines_in, opened, packing
from tests.unit.exchange.backups.parcels import KEPT, NEWEST, NOW, manifest_bytes, with_manifest

FLIPS = 200


def test_each_flipped_byte_is_found(tmp_path: Path) -> None:
    whole = NEWEST.read_bytes()
    path = tmp_path / "flipped.zip"
    unnoticed = []

    for number in range(FLIPS):
        place = number * (len(whole) - 1) // (FLIPS - 1)
        path.write_bytes(whole[:place] + bytes([whole[place] ^ (1 << number % 8)]) + whole[place + 1 :])
        try:
            with opened(path):
                unnoticed.append(place)
        except BackupError:
            pass

    assert unnoticed == []


@pytest.mark.parametrize("cut", [1, 64, 200, 20_000])
def test_a_file_that_is_cut_short_is_found(tmp_path: Path, cut: int) -> None:
    path = tmp_path / "cut.zip"
    path.write_bytes(NEWEST.read_bytes()[:-cut])

    with pytest.raises(BackupError, match="no backup, or it is damaged"), opened(path):
        pass


@pytest.mark.parametrize(
    ("manifest", "reason"),
    [
        (b"[]", "its manifest cannot be read"),
        (b"{}", "its manifest cannot be read"),
        (manifest_bytes(format=2), "made by a newer version"),
        (manifest_bytes(made_at="yesterday"), "its manifest cannot be read"),
        (manifest_bytes(members={"a": 1}), "its manifest cannot be read"),
        (manifest_bytes(rows={"a": "many"}), "its manifest cannot be read"),
        (manifest_bytes(members={"files/../x": {"sha256": "", "size": 1}}), "does not hold what its manifest says"),
        (b"not JSON", "damaged and cannot be unpacked"),
    ],
)
def test_a_manifest_that_is_none_is_refused(tmp_path: Path, manifest: bytes, reason: str) -> None:
    path = with_manifest(tmp_path / "odd.zip", manifest)

    with pytest.raises(BackupError, match=reason), opened(path):
        pass


def test_lines_come_whole_across_pieces_and_one_that_never_ends_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(archive, "LONGEST_LINE", 3 * PIECE)
    told = [b"a" * (PIECE - 1), b"", b"b" * (2 * PIECE), b"c", b"end"]
    name, endless = "records/catalogue.work.jsonl", b"x" * (5 * PIECE)
    for place, content in (("whole", b"\n".join(told)), ("endless", endless)):
        with packing(tmp_path / place, NOW) as packer:
            packer.add(name, iter([content]))
            packer.add(MANIFEST, iter([manifest_bytes(members={name: asdict(packer.members[name])})]))

    with opened(tmp_path / "whole") as (whole, manifest):
        assert list(lines_in(whole, name, manifest.members[name])) == told
    with (
        pytest.raises(BackupError, match="holds a line that is no record"),
        opened(tmp_path / "endless") as (backup, manifest),
    ):
        list(lines_in(backup, name, manifest.members[name]))


@pytest.mark.parametrize("name", ["../x", "files/ab/../../x", "/etc/passwd", "files/ab/short", "records/a.jsonl", "x"])
def test_a_member_with_a_name_of_its_own_is_refused(tmp_path: Path, name: str) -> None:
    path = tmp_path / "odd.zip"
    with packing(path, NOW) as packer:
        packer.add(name, iter([b"x"]))
        told = {name: {"sha256": one.sha256, "size": one.size} for name, one in packer.members.items()}
        packer.add(MANIFEST, iter([manifest_bytes(members=told)]))

    with pytest.raises(BackupError, match="does not hold what its manifest says"), opened(path):
        pass


def test_a_zip_that_is_no_backup_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "empty.zip"
    with packing(path, NOW):
        pass

    with pytest.raises(BackupError, match="it has no manifest"), opened(path):
        pass


def test_only_its_owner_may_read_a_backup(tmp_path: Path) -> None:
    path = with_manifest(tmp_path / "new.zip", manifest_bytes())

    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_members_say_when_whose_and_what_they_are_and_what_is_packed_already_is_not_packed_again(
    tmp_path: Path,
) -> None:
    content = b"rope " * 1_000
    with packing(tmp_path / "new.zip", NOW) as packer:
        packer.add("records/catalogue.work.jsonl", iter([content[:7], content[7:]]))
        packer.add("files/take.flac", iter([content]), stored=True)
        packer.add(MANIFEST, iter([manifest_bytes()]))

    with zipfile.ZipFile(tmp_path / "new.zip") as archive:
        packed, stored, _manifest = archive.infolist()
    assert (packed.compress_size < 200, stored.compress_size) == (True, len(content))
    assert {one.date_time for one in (packed, stored)} == {NOW.astimezone(UTC).timetuple()[:6]}
    assert {one.external_attr >> 16 for one in (packed, stored)} == {stat.S_IFREG | 0o600}
    assert packer.members == dict.fromkeys(
        ["records/catalogue.work.jsonl", "files/take.flac"], Member(sha256(content).hexdigest(), len(content))
    )


def test_a_file_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "there.zip"
    path.write_bytes(b"mine")

    with pytest.raises(FileExistsError), packing(path, NOW):
        pass

    assert path.read_bytes() == b"mine"


def test_a_missing_file_and_a_folder_are_said_to_be_so(tmp_path: Path) -> None:
    with pytest.raises(BackupError, match="There is no file"), opened(tmp_path / "none.zip"):
        pass
    with pytest.raises(BackupError, match="is a folder"), opened(KEPT):
        pass
