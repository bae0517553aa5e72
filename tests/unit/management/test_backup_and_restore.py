"""The commands backup, restore and upgrade, as they are run: in processes of their own."""

from __future__ import annotations

import json
import os
import sqlite3
import subprocess
import sys
from io import StringIO
from pathlib import Path

import pytest
from django.conf import settings as site
from django.core.management import call_command
from django.core.management.base import CommandError

from catalogue.management.base import UnusableInput
from catalogue.management.serving import door_open
from tests.unit.exchange.backups.parcels import NEWEST, put_old_database

WITH_CALENDAR = """
from django.conf import settings
from django.core.management import call_command
from django.test import Client
from django.utils.timezone import now
from catalogue.actions.composers import save_composer
from catalogue.models import Composer
from catalogue.web.kept_calendars import forget_calendars

def told_after(**columns):
    composer = Composer.objects.get()
    for column, value in columns.items():
        setattr(composer, column, value)
    save_composer(composer=composer, now=now())
    forget_calendars()
    lines = Client(headers={"host": "127.0.0.1"}).get(f"/calendars/{composer.slug}.ics").content.decode().splitlines()
    return next(line for line in lines if line.startswith("NAME:"))

path = str(settings.DATA / "backup.zip")
told = [told_after(name="Before", feed_is_public=True)]
call_command("backup", path)
told.append(told_after(name="Undone"))
call_command("restore", path)
told.append(told_after(name="After"))
print(*told)
"""
"""Renames the composer on both sides of a restored backup, so that both states have lines of the same numbers."""
NEEDS_MIGRATIONS = pytest.mark.usefixtures("with_migrations")
WITH_SQLITE = pytest.mark.skipif("sqlite3" not in site.DATABASES["default"]["ENGINE"], reason="each has a file")


def run(data: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "LEDGERLINE_DATA": str(data)}
    command = [sys.executable, str(site.ROOT / "manage.py"), *arguments]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False)


def told(*arguments: str) -> str:
    out = StringIO()
    call_command(*arguments, stdout=out, stderr=StringIO())
    return out.getvalue()


@NEEDS_MIGRATIONS
@pytest.mark.django_db
def test_a_whole_backup_is_said_to_be_whole() -> None:
    assert told("backup", str(NEWEST), "--check").endswith(".zip is whole: 125 records, 156572 bytes.\n")


@pytest.mark.django_db
@pytest.mark.parametrize("command", [["backup", "--check"], ["restore"], ["restore", "--trial"]])
def test_a_damaged_backup_cannot_be_used(tmp_path: Path, command: list[str]) -> None:
    path = tmp_path / "damaged.zip"
    path.write_bytes(NEWEST.read_bytes()[:-1] + b"x")

    with pytest.raises(UnusableInput, match="its bytes do not agree with its checksum"):
        call_command(*command, str(path), stdout=StringIO(), stderr=StringIO())


@pytest.mark.django_db
def test_a_name_that_is_no_zip_is_refused() -> None:
    with pytest.raises(UnusableInput, match=r"has to end with \.zip"):
        call_command("backup", "backup.tar")


@NEEDS_MIGRATIONS
@pytest.mark.django_db(transaction=True)
def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file, not a folder")

    with pytest.raises(CommandError, match="cannot be written") as caught:
        call_command("backup", str(tmp_path / "taken" / "b.zip"), stdout=StringIO(), stderr=StringIO())

    assert caught.value.returncode == 1


@pytest.mark.django_db
def test_nothing_is_restored_while_the_catalogue_is_served() -> None:
    with door_open(), pytest.raises(UnusableInput, match="is being served; stop that program first"):
        call_command("restore", str(NEWEST), stdout=StringIO(), stderr=StringIO())


@WITH_SQLITE
@pytest.mark.slow
def test_a_restored_catalogue_is_backed_up_with_the_same_records(tmp_path: Path) -> None:
    data, copy = tmp_path / "data", tmp_path / "copy.zip"

    restored = run(data, "restore", str(NEWEST), "--json")
    written = run(data, "backup", str(copy), "--json")
    tried = run(data, "restore", str(copy), "--trial", "--json")

    assert (restored.returncode, written.returncode, tried.returncode) == (0, 0, 0)
    rows = json.loads(restored.stdout)["rows"]
    assert {name: count for name, count in json.loads(written.stdout)["rows"].items() if name in rows} == rows
    assert json.loads(tried.stdout)["rows"] == json.loads(written.stdout)["rows"]


@WITH_SQLITE
def test_a_backup_takes_the_place_of_a_damaged_database_with_its_journals(tmp_path: Path) -> None:
    """A command that cannot read the catalogue says in a sentence what to do, and that can be done then."""
    (tmp_path / "catalogue.sqlite3").write_bytes(b"no database" * 1000)

    refused = run(tmp_path, "premieres")
    (tmp_path / "catalogue.sqlite3-wal").write_bytes(b"left behind")
    restored = run(tmp_path, "restore", str(NEWEST), "--json")

    sentence = "The file of the catalogue is damaged or no database; put a backup in its place with “restore”."
    assert (refused.returncode, refused.stdout, refused.stderr) == (1, "", f"CommandError: {sentence}\n")
    kept = Path(json.loads(restored.stdout)["kept"])
    assert kept.read_bytes().startswith(b"no database")
    assert kept.with_name(f"{kept.name}-wal").read_bytes() == b"left behind"
    assert not (tmp_path / "catalogue.sqlite3-wal").exists()
    assert run(tmp_path, "check_catalogue").returncode == 0


@pytest.mark.parametrize(
    ("address", "sentence"),
    [
        ("nonsense", "DATABASE_URL names no database that is taken"),
        ("postgres://nobody@127.0.0.1:1/none", "The database cannot be reached: connection failed"),
    ],
)
def test_a_database_that_is_not_there_is_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, address: str, sentence: str
) -> None:
    monkeypatch.setenv("DATABASE_URL", address)
    monkeypatch.setenv("PYTHONWARNINGS", "ignore")

    done = run(tmp_path, "premieres")

    assert (done.returncode, done.stdout) == (1, "")
    assert sentence in done.stderr
    assert "Traceback" not in done.stderr


@WITH_SQLITE
@pytest.mark.slow
def test_no_calendar_from_before_a_restored_backup_is_given_out(tmp_path: Path) -> None:
    run(tmp_path, "restore", str(NEWEST))

    done = run(tmp_path, "shell", "--no-imports", "-v", "0", "-c", WITH_CALENDAR)

    names = [f"NAME:Performances of {name}" for name in ("Before", "Undone", "After")]
    assert done.stdout.splitlines()[-1] == " ".join(names)


@WITH_SQLITE
@pytest.mark.slow
def test_an_upgrade_backs_up_and_brings_up_to_date(tmp_path: Path) -> None:
    put_old_database(tmp_path)

    done = run(tmp_path, "upgrade", "--json")

    assert done.returncode == 0
    result = json.loads(done.stdout)
    assert result["migrations"] >= 2
    assert run(tmp_path, "restore", result["backup"], "--trial").returncode == 0
    assert run(tmp_path, "upgrade").stdout == "The tables are up to date.\n"


@WITH_SQLITE
@pytest.mark.slow
def test_an_upgrade_that_fails_leaves_the_tables_as_they_were(tmp_path: Path) -> None:
    put_old_database(tmp_path)
    with sqlite3.connect(tmp_path / "catalogue.sqlite3") as database:
        database.execute("CREATE TABLE catalogue_award (in_the_way)")

    failed = run(tmp_path, "upgrade")

    assert failed.returncode == 1
    assert "are as they were before" in failed.stderr
    with sqlite3.connect(tmp_path / "catalogue.sqlite3") as database:
        newest = database.execute("SELECT max(name) FROM django_migrations WHERE app = 'catalogue'").fetchone()
        columns = [row[1] for row in database.execute("PRAGMA table_info(catalogue_award)")]
    assert (newest, columns) == (("0010_tempo_maps_and_cues",), ["in_the_way"])
