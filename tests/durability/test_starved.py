"""Where nothing can be stored, whoever typed is told why, and what was stored before is whole.

The disk is a small one in memory that the test mounts; where mounting is refused, that is said.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings as site

from tests.durability.house import House, assert_sound, command

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif("sqlite3" not in site.DATABASES["default"]["ENGINE"], reason="PostgreSQL keeps its own disk"),
]
MEGABYTE = 1_000_000
TURNS = int(os.environ.get("TURNS", "4"))


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    place = tmp_path / "disk"
    place.mkdir()
    order = ["mount", "-t", "tmpfs", "-o", "size=24m", "tmpfs", str(place)]
    if os.geteuid() or subprocess.run(order, capture_output=True, check=False).returncode:
        pytest.skip("No small disk could be mounted here, so none was filled.")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


def fill_up(disk: Path) -> Path:
    """Leave no room on a disk."""
    ballast = disk / "ballast"
    with ballast.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(bytes(MEGABYTE // 8))
        except OSError:
            return ballast


def test_on_a_full_disk_nothing_is_lost_and_whoever_typed_is_told(small_disk: Path, furnished: House) -> None:
    house = House(small_disk / "data", furnished)
    kept: list[str] = []
    try:
        house.serve()
        for turn in range(TURNS):
            assert house.save_work(f"Kept {turn}") == 302
            kept.append(f"Kept {turn}")
            ballast = fill_up(small_disk)
            statuses = [house.save_work(f"Refused {turn}.{number}") for number in range(60)]
            kept += [f"Refused {turn}.{number}" for number, status in enumerate(statuses) if status == 302]
            assert set(statuses) <= {302, 507}
            assert 507 in statuses
            ballast.unlink()
            assert_sound(house)
            assert sorted(title for (title,) in house.ask("SELECT title FROM catalogue_work")) == sorted(kept)
    finally:
        house.kill()


def test_in_a_folder_that_may_not_be_written_a_command_says_so_and_leaves_all_as_it_was(
    small_disk: Path, furnished: House
) -> None:
    house = House(small_disk / "data", furnished)
    before = (house.data / "catalogue.sqlite3").read_bytes()
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)

    order = command("start", "--port", str(house.port))
    done = subprocess.run(order, env=house.environment, capture_output=True, text=True, timeout=120, check=False)

    said = "CommandError: The folder that holds the catalogue may not be written to, so nothing was stored."
    assert (done.returncode, done.stderr.splitlines()[-1]) == (1, said)
    assert (house.data / "catalogue.sqlite3").read_bytes() == before
