"""Backups put back: into a scratch database, into SQLite, into PostgreSQL, and from every version."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from hashlib import sha256
from pathlib import Path

import pytest
from django.conf import settings as site
from django.db import connection

from catalogue.actions.sealed_secrets import unsealed
from catalogue.exchange.backups.archive import DATABASE, BackupError
from catalogue.exchange.backups.checking import check_backup
from catalogue.exchange.backups.databases import Snapshot, fresh_sqlite, migrate_to, sqlite_at
from catalogue.exchange.backups.lines import apps_at, record_of, told_columns
from catalogue.exchange.backups.restoring import Wanted, compare, restore_backup, restore_sqlite, try_backup
from catalogue.exchange.backups.writing import packing_of, write_backup
from catalogue.gathering.versions import state_of_public
from catalogue.models import Composer, ImportBatch, SecondFactor, Submission, Work
from tests.makers import make_performance, make_work
from tests.unit.exchange.backups.parcels import KEPT, NEWEST, NOW, member_of, resealed

pytestmark = pytest.mark.usefixtures("with_migrations")
FILE = b"a recording"
NAME = sha256(FILE).hexdigest()
PLAIN = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"
"""The secret of the second step in the backup of the last version that stored it plain."""

SAVED_AT = datetime(2026, 3, 9, 9, 30, tzinfo=UTC)
"""When the submission in the newest backup was saved last."""


def wanted(path: Path) -> Wanted:
    return Wanted(path, check_backup(path), "20260309")


def titles_in(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as database:
        return [title for (title,) in database.execute("SELECT title FROM catalogue_work ORDER BY title")]


@pytest.mark.django_db
@pytest.mark.parametrize("path", sorted(KEPT.glob("*.zip")), ids=lambda path: path.stem)
@pytest.mark.slow
def test_every_backup_that_is_kept_comes_back_as_it_was(path: Path) -> None:
    assert try_backup(path).total_rows > 40


@pytest.mark.slow
@pytest.mark.django_db(transaction=True)
def test_what_is_backed_up_comes_back_as_it_was(tmp_path: Path) -> None:
    make_performance(make_work("Tides – für Orchester", duration="c. 12 min", completed="1998", notes="رسالة\n✓"))
    counted: list[None] = []

    manifest = write_backup(tmp_path / "b.zip", now=NOW, step=lambda: counted.append(None))

    assert manifest.rows["catalogue.work"] == 1
    assert len(counted) == manifest.total_rows
    assert try_backup(tmp_path / "b.zip") == manifest
    assert [path.name for path in tmp_path.iterdir()] == ["b.zip"]


@pytest.mark.django_db(transaction=True)  # the swap lets go of every connection
@pytest.mark.slow
def test_sqlite_is_swapped_and_the_old_file_kept(tmp_path: Path) -> None:
    target = tmp_path / "data" / "catalogue.sqlite3"
    first = resealed(tmp_path / "first.zip")

    assert restore_sqlite(wanted(first), target) == ""
    with closing(sqlite3.connect(target)) as database:
        database.execute("UPDATE catalogue_work SET title = 'Changed since'")
        database.commit()
    kept = Path(restore_sqlite(wanted(first), target))

    assert titles_in(target) == ["Gone", "Tides – für Orchester"]
    assert titles_in(kept) == ["Changed since", "Changed since"]
    assert sorted(path.name for path in target.parent.iterdir()) == sorted([kept.name, target.name])


@pytest.mark.slow
@pytest.mark.django_db
def test_lines_alone_make_the_same_catalogue(tmp_path: Path) -> None:
    target = tmp_path / "catalogue.sqlite3"
    from_postgresql = resealed(tmp_path / "b.zip", {DATABASE: None}, database="postgresql")

    restore_sqlite(Wanted(from_postgresql, check_backup(from_postgresql), "s", as_it_was=True), target)

    with sqlite_at(target) as alias:
        compare(alias, check_backup(NEWEST))


@pytest.mark.django_db
@pytest.mark.parametrize(
    "member",
    [pytest.param({DATABASE: None}, id="by lines", marks=pytest.mark.slow), pytest.param({}, id="by snapshot")],
)
@pytest.mark.slow
def test_a_catalogue_of_the_first_version_is_brought_up_to_date(tmp_path: Path, member: dict[str, None]) -> None:
    newest = [("catalogue", "0001_initial"), ("sessions", "0001_initial")]
    with fresh_sqlite(tmp_path) as alias:
        migrate_to(alias, newest)
        models = apps_at(newest)
        composer = models.get_model("catalogue", "Composer").objects.using(alias).create(name="Ilse", slug="ilse")
        models.get_model("catalogue", "Work").objects.using(alias).create(composer=composer, title="Tides")
        file = tmp_path / "fresh.sqlite3" if not member else None
        list(packing_of(tmp_path / "old.zip", Snapshot(alias, file), NOW))

    target = tmp_path / "data" / "catalogue.sqlite3"
    restore_sqlite(wanted(tmp_path / "old.zip"), target)

    assert "0002_entry_keys" not in check_backup(tmp_path / "old.zip").migrations["catalogue"]
    with sqlite_at(target) as alias:
        found = Work.objects.using(alias).get()
        assert (found.title, found.composer.name) == ("Tides", "Ilse")


@pytest.mark.slow
@pytest.mark.django_db
def test_records_that_do_not_agree_are_refused_and_nothing_is_touched(tmp_path: Path) -> None:
    lost = b'{"id": 1, "work_id": 77, "number": 1, "title": "x", "duration": null, "attacca": false}\n'
    lines = {"records/catalogue.movement.jsonl": lost * 2, DATABASE: None}
    path, target = resealed(tmp_path / "b.zip", lines), tmp_path / "catalogue.sqlite3"
    target.write_bytes(b"as it was")

    with pytest.raises(BackupError, match="do not agree with one another"):
        restore_sqlite(wanted(path), target)

    assert target.read_bytes() == b"as it was"
    assert sorted(one.name for one in tmp_path.iterdir()) == ["b.zip", "catalogue.sqlite3"]


@pytest.mark.parametrize(
    "line",
    [
        b"not JSON", b"[]", b'"text"', b"\xff", b'{"no_such_column": 2}', b'{"id": "many"}',
        b'{"content": "no Base64"}',
        b'{"made_at": "yesterday"}',
    ],
)  # fmt: skip
def test_a_line_that_is_no_record_is_refused(line: bytes) -> None:
    with pytest.raises(BackupError, match=r"A line of “catalogue\.importbatch” in this backup cannot be read"):
        record_of(ImportBatch, {column.attname: column for column in told_columns(ImportBatch)}, line)


@pytest.mark.django_db
@pytest.mark.slow
def test_uploaded_files_come_back_to_their_place(tmp_path: Path, settings: object) -> None:
    settings.FILES = tmp_path / "files"
    path = resealed(tmp_path / "b.zip", {f"files/{NAME[:2]}/{NAME}.wav": FILE})

    restore_sqlite(wanted(path), tmp_path / "catalogue.sqlite3")

    assert (tmp_path / "files" / NAME[:2] / f"{NAME}.wav").read_bytes() == FILE


@pytest.mark.django_db
@pytest.mark.slow
def test_sessions_that_were_open_are_ended(tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / "open.sqlite3") as database:
        database.deserialize(member_of(NEWEST, DATABASE))
        database.execute("INSERT INTO django_session VALUES ('key', 'data', '2030-01-01')")
        content = database.serialize()

    restore_sqlite(wanted(resealed(tmp_path / "b.zip", {DATABASE: content})), tmp_path / "catalogue.sqlite3")

    with closing(sqlite3.connect(tmp_path / "catalogue.sqlite3")) as database:
        assert database.execute("SELECT * FROM django_session").fetchall() == []


@pytest.mark.django_db
@pytest.mark.slow
def test_a_second_step_that_stood_plain_is_sealed_on_the_way(tmp_path: Path) -> None:
    target = tmp_path / "catalogue.sqlite3"

    restore_sqlite(wanted(KEPT / "0031-hand-overs.zip"), target)

    with sqlite_at(target) as alias:
        factor = SecondFactor.objects.using(alias).get()
    assert (unsealed(factor.sealed_secret), factor.user_id) == (PLAIN, 1)
    assert PLAIN.encode() not in target.read_bytes()


@pytest.mark.django_db
@pytest.mark.slow
@pytest.mark.parametrize("member", [{DATABASE: None}, {}], ids=["by lines", "by snapshot"])
def test_a_submission_comes_back_with_the_count_of_its_saves(member: dict[str, bytes | None], tmp_path: Path) -> None:
    target = tmp_path / "catalogue.sqlite3"

    restore_sqlite(wanted(resealed(tmp_path / "b.zip", member)), target)

    with sqlite_at(target) as alias:
        submission = Submission.objects.using(alias).get()
    assert (submission.motto, submission.saves, submission.changed_at) == ("by lamplight", 2, SAVED_AT)


@pytest.mark.django_db(transaction=True)
@pytest.mark.skipif("postgresql" not in site.DATABASES["default"]["ENGINE"], reason="swaps schemas of PostgreSQL")
def test_postgresql_is_swapped_and_the_old_schema_kept() -> None:
    Composer.objects.create(name="Before", slug="before")
    tables = state_of_public(1).version[-1]

    restored = restore_backup(NEWEST, now=NOW)

    assert state_of_public(1).version[-1] != tables  # no calendar of the old ones is taken for one of these
    assert list(Composer.objects.values_list("name", flat=True)) == ["Ilse Tarnow"]
    assert Composer.objects.create(name="After", slug="after").pk == 2
    assert Work.with_deleted.count() == restored.manifest.rows["catalogue.work"] == 2
    with connection.cursor() as cursor:
        cursor.execute("SELECT name FROM before_20260309_100000_000000.catalogue_composer")
        assert cursor.fetchall() == [("Before",)]
        cursor.execute("DROP SCHEMA before_20260309_100000_000000 CASCADE")


@pytest.mark.django_db(transaction=True)
@pytest.mark.skipif("postgresql" not in site.DATABASES["default"]["ENGINE"], reason="swaps schemas of PostgreSQL")
@pytest.mark.parametrize("path", sorted(KEPT.glob("*.zip")), ids=lambda path: path.stem)
def test_every_backup_that_is_kept_goes_into_postgresql_and_from_there_into_a_file(path: Path, tmp_path: Path) -> None:
    restored = restore_backup(path, now=NOW)
    write_backup(tmp_path / "b.zip", now=NOW)
    target = tmp_path / "catalogue.sqlite3"
    restore_sqlite(wanted(tmp_path / "b.zip"), target)

    titles = list(Work.with_deleted.order_by("title").values_list("title", flat=True))
    assert titles_in(target) == titles
    assert len(titles) == restored.manifest.rows["catalogue.work"] > 0
    with connection.cursor() as cursor:
        cursor.execute("DROP SCHEMA before_20260309_100000_000000 CASCADE")
