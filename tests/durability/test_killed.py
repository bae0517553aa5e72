"""What has been acknowledged stays, and nothing is half done, however often the program is killed in the midst of it.

They belong to the full lane; ``KILLS=200`` in the environment asks for more kills than its six.
"""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
import time
from contextlib import closing, suppress
from http.client import HTTPException
from pathlib import Path

import pytest
from django.conf import settings as site

from catalogue.exchange.backups.archive import BackupError, opened
from tests.durability.house import House, assert_sound, command, environment, run
from tests.unit.exchange.backups.parcels import NEWEST, put_old_database

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif("sqlite3" not in site.DATABASES["default"]["ENGINE"], reason="PostgreSQL is not ours to kill"),
]
KILLS = int(os.environ.get("KILLS", "6"))


def kill_after(house: House, seconds: float) -> subprocess.Popen[bytes]:
    """Let another process do the killing, so that it falls in the midst of whatever is going on."""
    assert house.server is not None
    order = f"import os, signal, time; time.sleep({seconds}); os.kill({house.server.pid}, signal.SIGKILL)"
    return subprocess.Popen([sys.executable, "-c", order])


def test_works_that_were_acknowledged_are_there_after_each_kill(house: House) -> None:
    kept: list[str] = []
    count = 0
    for number in range(KILLS):
        house.serve()
        killer = kill_after(house, 0.5 + number * 37 % 26 / 10)
        with suppress(OSError, HTTPException):
            while True:
                count += 1
                assert house.save_work(f"Kept {count}") == 302
                kept.append(f"Kept {count}")
        killer.wait()
        house.kill()
        titles = [title for (title,) in house.ask("SELECT title FROM catalogue_work")]
        assert_sound(house)
        assert sorted(set(kept) - set(titles)) == []
        assert len(titles) == len(set(titles))
        assert house.ask("SELECT count(*) FROM catalogue_movement") == [(2 * len(titles),)]
    assert kept


def test_an_import_is_stored_whole_or_not_at_all(house: House) -> None:
    for number in range(max(KILLS // 3, 2)):
        house.serve()
        assert house.send_table() == 302
        killer = kill_after(house, 0.1 + number * 37 % 30 / 10)
        with suppress(OSError, HTTPException):
            house.keep_tables()
        killer.wait()
        house.kill()
        assert_sound(house)
        (stored,), (batches,) = (
            house.ask("SELECT count(*) FROM catalogue_work")[0],
            house.ask("SELECT count(*) FROM catalogue_importbatch WHERE state = 'kept'")[0],
        )
        assert stored == (300 if batches else 0)


def killed(data: Path, seconds: float, *words: str) -> int:
    """Run a command and kill it after so many seconds; 0 where it was done before."""
    with subprocess.Popen(
        command(*words), env=environment(data), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    ) as process:
        try:
            return process.wait(seconds)
        except subprocess.TimeoutExpired:
            process.kill()
            return process.wait()


@pytest.mark.parametrize("share", [0.5, 0.7, 0.8, 0.9, 0.95])
def test_a_killed_backup_is_no_backup_and_a_killed_restore_leaves_one_catalogue_or_the_other(
    house: House, tmp_path: Path, share: float
) -> None:
    begun = time.monotonic()
    run(house.data, "backup", str(tmp_path / "first.zip"))
    usual = time.monotonic() - begun

    done = killed(house.data, share * usual, "backup", str(tmp_path / "second.zip"))
    with suppress(BackupError), opened(tmp_path / "second.zip"):
        done = 0
    assert (tmp_path / "second.zip").exists() == (done == 0)

    killed(house.data, share * 1.5 * usual, "restore", str(NEWEST))
    assert_sound(house)
    assert house.ask("SELECT name FROM catalogue_composer") == [("Ilse Tarnow",)]
    assert house.ask("SELECT count(*) FROM catalogue_work")[0][0] in (0, 2)
    assert run(house.data, "restore", str(NEWEST), "--json")
    assert house.ask("SELECT count(*) FROM catalogue_work") == [(2,)]


@pytest.mark.parametrize("share", [0.4, 0.6, 0.8, 0.9])
def test_a_killed_upgrade_is_taken_up_again(tmp_path: Path, share: float) -> None:
    data = tmp_path / "data"
    put_old_database(data)
    put_old_database(tmp_path / "other")
    begun = time.monotonic()
    run(tmp_path / "other", "upgrade")
    usual = time.monotonic() - begun

    killed(data, share * usual, "upgrade")

    run(data, "upgrade")
    assert run(data, "upgrade") == "The tables are up to date.\n"
    with closing(sqlite3.connect(data / "catalogue.sqlite3")) as database:
        assert database.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
