"""What has been acknowledged stays, and nothing is half done, however often the program is killed in the midst of it.

They belong to the full lane; ``KILLS=200`` in the environment asks for two hundred kills in all instead of twelve: 60
among saves, 40 each among uploads and imports, 20 each among backups, restores and upgrades.
"""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from contextlib import suppress
from hashlib import sha256
from http.client import HTTPException
from pathlib import Path
from typing import Any

import pytest

from catalogue.exchange.backups.checking import check_backup
from catalogue.exchange.pictures import stored_name
from tests.durability.house import House, assert_sound
from tests.unit.exchange.backups.parcels import KEPT, NEWEST
from tests.unit.exchange.waves import wave_file

pytestmark = pytest.mark.slow
KILLS = int(os.environ.get("KILLS", "12"))
AS_IT_WAS = """import pathlib, django.utils.timezone as clock; from catalogue.exchange.backups import restoring; \
restoring.restore_backup(pathlib.Path({path!r}), now=clock.now(), as_it_was=True)"""


def kills(hundredths: int) -> range:
    return range(max(KILLS * hundredths // 100, 2))


def moments(number: range, first: float, last: float) -> Iterator[float]:
    """Give moments between two, spread evenly but in no order."""
    for one in number:
        yield first + (last - first) * (one * 37 % len(number)) / len(number)


def titles(house: House) -> list[object]:
    return [title for (title,) in house.ask("SELECT title FROM catalogue_work ORDER BY title")]


def test_works_that_were_acknowledged_are_there_after_each_kill(house: House) -> None:
    kept: list[str] = []
    count = 1
    for moment in moments(kills(30), 0.05, 1.5):
        house.serve()
        assert house.save_work(f"Kept {-count}") == 302  # whatever is loaded at first has been loaded
        kept.append(f"Kept {-count}")
        killer = house.kill_after(moment)
        with suppress(OSError, HTTPException):
            while True:
                count += 1
                assert house.save_work(f"Kept {count}") == 302
                kept.append(f"Kept {count}")
        killer.wait()
        house.kill()
        stored = titles(house)
        assert_sound(house)
        assert sorted(set(kept) - set(map(str, stored))) == []
        assert len(stored) == len(set(stored))
        assert house.ask("SELECT count(*) FROM catalogue_movement") == [(2 * len(stored),)]
    assert kept


def test_files_that_were_acknowledged_are_there_and_none_is_half_there(house: House) -> None:
    """What was cut off is sent again: what was left of it must not pass for the file."""
    kept = 0
    for moment in moments(kills(20), 0.05, 1.5):
        house.serve()
        assert send_take(house, kept) == 302  # whatever is loaded at first has been loaded
        killer = house.kill_after(moment)
        kept += 1
        with suppress(OSError, HTTPException):
            while send_take(house, kept) == 302:
                kept += 1
        killer.wait()
        house.kill()
        assert_sound(house)
        assert_files_are_whole(house, {f"Take {number}" for number in range(kept)})


def send_take(house: House, number: int) -> int:
    content = wave_file(900_000).getvalue() + number.to_bytes(8, "big")
    return house.send_file("records/files/new/", "take.wav", content, name=f"Take {number}", kind="media")


def assert_files_are_whole(house: House, acknowledged: set[str]) -> None:
    rows = house.ask("SELECT name, sha256, suffix, byte_count FROM catalogue_storedfile")
    assert acknowledged <= {str(name) for name, *_rest in rows}
    for _name, digest, suffix, size in rows:
        content = (house.data / "files" / stored_name(str(digest), str(suffix))).read_bytes()
        assert (sha256(content).hexdigest(), len(content)) == (digest, size)


def test_an_import_is_stored_whole_or_not_at_all(house: House) -> None:
    for moment in moments(kills(20), 0.1, 2.0):
        house.serve()
        with suppress(OSError, HTTPException):
            assert house.send_table() == 302
        killer = house.kill_after(moment)
        with suppress(OSError, HTTPException):
            house.keep_tables()
        killer.wait()
        house.kill()
        assert_sound(house)
        ((stored,),) = house.ask("SELECT count(*) FROM catalogue_work")
        ((batches,),) = house.ask("SELECT count(*) FROM catalogue_importbatch WHERE state = 'kept'")
        assert stored == (300 if batches else 0)
        if batches:
            assert house.killed(600, "shell", "--no-imports", "-v", "0", "-c", UNDO) == 0


UNDO = """from catalogue.models import ImportBatch, Work; \
ImportBatch.objects.all().delete(); Work._base_manager.all().delete()"""


def test_a_backup_that_was_killed_is_no_backup(house: House, django_db_blocker: Any) -> None:
    made, folder = 0, house.data / "backups"
    house.serve()
    house.save_work("Kept")
    begun = time.monotonic()
    assert house.send("profile/backups/", b"") == 302
    usual = time.monotonic() - begun
    for moment in moments(kills(10), 0.1 * usual, 1.2 * usual):
        if house.server is None:
            house.serve()
            house.save_work("Kept")  # whatever is loaded at first has been loaded
        killer = house.kill_after(moment)
        with suppress(OSError, HTTPException):
            while True:
                before = set(folder.glob("asked-for-*.zip"))
                assert house.send("profile/backups/", b"") == 302
                made += 1
                wait_for_the_next_second()  # backups are named by it
                assert set(folder.glob("asked-for-*.zip")) > before
        killer.wait()
        house.kill()
        assert_sound(house)
        with django_db_blocker.unblock():  # each is looked through in a database of its own
            for path in folder.glob("*.zip"):
                check_backup(path)


def wait_for_the_next_second() -> None:
    time.sleep(1.0 - time.time() % 1.0 + 0.01)


def test_a_killed_restore_leaves_one_catalogue_or_the_other(house: House, tmp_path: Path) -> None:
    house.serve()
    assert house.save_work("Kept") == 302
    house.kill()
    own = tmp_path / "own.zip"
    house.run("backup", str(own))
    begun = time.monotonic()
    assert house.killed(600, "restore", str(NEWEST)) == 0
    usual = time.monotonic() - begun
    other = titles(house)
    assert other != ["Kept"]
    for number, moment in enumerate(moments(kills(10), 0.1 * usual, 1.1 * usual)):
        house.killed(moment, "restore", str(NEWEST if number % 2 else own))
        assert_sound(house)
        assert house.ask("SELECT name FROM catalogue_composer") == [("Ilse Tarnow",)]
        assert titles(house) in (["Kept"], other)
    house.run("restore", str(own))
    assert titles(house) == ["Kept"]


def test_a_killed_upgrade_is_taken_up_again(tmp_path: Path) -> None:
    *_older, former, _newest = sorted(KEPT.glob("*.zip"))
    old = House(tmp_path / "old")
    try:
        told = AS_IT_WAS.format(path=str(former))
        assert old.killed(600, "shell", "--no-imports", "-v", "0", "-c", told) == 0
        usual, expected = upgraded(House(tmp_path / "usual", old), None)
        assert expected
        for number, moment in enumerate(moments(kills(10), 0.1 * usual, usual)):
            assert upgraded(House(tmp_path / str(number), old), moment)[1] == expected
    finally:
        old.gone()


def upgraded(house: House, moment: float | None) -> tuple[float, list[object]]:
    """Upgrade a catalogue, killed once at a moment where one is given; return the time it took and what it holds."""
    try:
        begun = time.monotonic()
        if moment is not None:
            house.killed(moment, "upgrade")
        assert house.killed(600, "upgrade") == 0
        taken = time.monotonic() - begun
        assert_sound(house)
        return taken, titles(house)
    finally:
        house.gone()
