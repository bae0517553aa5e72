"""Reading a backup back: sealed files that are not what they say are found."""

from __future__ import annotations

import sqlite3
from hashlib import sha256
from pathlib import Path

import pytest

from catalogue.exchange.backups import archive
from catalogue.exchange.backups.archive import DATABASE, BackupError
from catalogue.exchange.backups.checking import check_backup
from tests.unit.exchange.backups.parcels import KEPT, NEWEST, member_of, resealed, told_by

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("with_migrations")]
FILE = b"a recording"
NAME = sha256(FILE).hexdigest()


def database_after(folder: Path, statement: str) -> bytes:
    path = folder / "changed.sqlite3"
    path.write_bytes(member_of(NEWEST, DATABASE))
    with sqlite3.connect(path) as database:
        database.execute("PRAGMA ignore_check_constraints=ON")
        database.execute(statement)
    database.close()
    return path.read_bytes()


@pytest.mark.parametrize("path", sorted(KEPT.glob("*.zip")), ids=lambda path: path.stem)
def test_every_backup_that_is_kept_is_whole(path: Path) -> None:
    assert check_backup(path).rows["catalogue.work"] == 2


def test_an_uploaded_file_under_its_checksum_is_in_order(tmp_path: Path) -> None:
    path = resealed(tmp_path / "b.zip", {f"files/{NAME[:2]}/{NAME}.wav": FILE})

    assert check_backup(path).members[f"files/{NAME[:2]}/{NAME}.wav"].size == len(FILE)


def test_a_recording_without_a_line_break_for_longer_than_any_record_is_in_order(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(archive, "LONGEST_LINE", archive.PIECE)
    silence = bytes(3 * archive.PIECE)
    name = f"files/{sha256(silence).hexdigest()[:2]}/{sha256(silence).hexdigest()}.wav"

    path = resealed(tmp_path / "b.zip", {name: silence})

    assert check_backup(path).members[name].size == len(silence)


def test_an_uploaded_file_under_another_name_is_found(tmp_path: Path) -> None:
    path = resealed(tmp_path / "b.zip", {f"files/{NAME[:2]}/{'0' * 64}.wav": FILE})

    with pytest.raises(BackupError, match="is not what its name says"):
        check_backup(path)


def test_records_that_are_fewer_than_said_are_found(tmp_path: Path) -> None:
    lines = member_of(NEWEST, "records/catalogue.work.jsonl").splitlines(keepends=True)
    path = resealed(tmp_path / "b.zip", {"records/catalogue.work.jsonl": lines[0]})

    with pytest.raises(BackupError, match="does not hold as many records"):
        check_backup(path)


@pytest.mark.parametrize(
    ("statement", "reason"),
    [
        ("DELETE FROM catalogue_movement", "does not hold as many records"),
        ("UPDATE catalogue_movement SET work_id = 999", "is damaged"),
        ("UPDATE catalogue_work SET category = 'sandwich'", "is damaged"),
        ("UPDATE catalogue_composer SET paper_ink = 'green'", "is damaged"),
        ("CREATE TRIGGER t AFTER INSERT ON catalogue_work BEGIN DELETE FROM auth_user; END", "programs of its own"),
        ("CREATE VIEW v AS SELECT * FROM auth_user", "programs of its own"),
    ],
)
def test_a_database_that_has_been_changed_is_found(tmp_path: Path, statement: str, reason: str) -> None:
    path = resealed(tmp_path / "b.zip", {DATABASE: database_after(tmp_path, statement)})

    with pytest.raises(BackupError, match=reason):
        check_backup(path)


@pytest.mark.parametrize("content", [b"", b"SQLite format 3\x00", b"no database at all" * 100])
def test_a_database_that_is_none_is_found(tmp_path: Path, content: bytes) -> None:
    path = resealed(tmp_path / "b.zip", {DATABASE: content})

    with pytest.raises(BackupError):
        check_backup(path)


def test_a_backup_of_a_newer_version_is_refused(tmp_path: Path) -> None:
    told = told_by(NEWEST).migrations
    path = resealed(tmp_path / "b.zip", migrations={**told, "catalogue": [*told["catalogue"], "9999_of_next_year"]})

    with pytest.raises(BackupError, match="made by a newer version"):
        check_backup(path)


def test_a_check_leaves_nothing_behind(tmp_path: Path) -> None:
    path = resealed(tmp_path / "b.zip")
    check_backup(path)

    assert list(tmp_path.iterdir()) == [path]
