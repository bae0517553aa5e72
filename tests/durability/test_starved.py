"""Where nothing can be stored, whoever typed is told why, and what was stored before is whole.

The disk is a small one in memory that the test mounts; where mounting is refused, that is said. Of PostgreSQL it holds
the tables, not the log that is written ahead of them: where that has no room the server itself stops.
"""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.durability.house import ON_SQLITE, House, assert_sound, command

pytestmark = pytest.mark.slow
MEGABYTE = 1_000_000
SIZE = "24m" if ON_SQLITE else "160m"
TURNS = int(os.environ.get("TURNS", "4"))


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    place = tmp_path / "disk"
    place.mkdir()
    order = ["mount", "-t", "tmpfs", "-o", f"size={SIZE}", "tmpfs", str(place)]
    if os.geteuid() or subprocess.run(order, capture_output=True, check=False).returncode:
        pytest.skip("No small disk could be mounted here, so none was filled.")
    yield place
    subprocess.run(["umount", "-l", str(place)], check=True)


@pytest.fixture
def crammed(small_disk: Path, furnished: House, tmp_path: Path) -> Iterator[House]:
    """A house whose database lies on the small disk: its file, or the table space that PostgreSQL keeps it in."""
    if ON_SQLITE:
        house = House(small_disk / "data", furnished)
        yield house
        house.gone()
        return
    space = small_disk / "space"
    space.mkdir()
    owner = Path(furnished.ask("SHOW data_directory")[0][0]).stat()
    os.chown(space, owner.st_uid, owner.st_gid)
    open_up(small_disk, tmp_path)
    furnished.order(f"CREATE TABLESPACE crammed LOCATION '{space}'")
    house = House(tmp_path / "data", furnished, tablespace="crammed")
    yield house
    house.gone()
    furnished.order("DROP TABLESPACE crammed")


def open_up(*folders: Path) -> None:
    """Let the server's own user pass through the folders of the test."""
    for folder in (*folders, *(above for one in folders for above in one.parents)):
        folder.chmod(folder.stat().st_mode | 0o111)


def fill_up(disk: Path) -> Path:
    """Leave no room on a disk."""
    ballast = disk / "ballast"
    with ballast.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(bytes(MEGABYTE // 8))
        except OSError:
            return ballast


def test_on_a_full_disk_nothing_is_lost_and_whoever_typed_is_told(small_disk: Path, crammed: House) -> None:
    kept: list[str] = []
    crammed.serve()
    for turn in range(TURNS):
        assert crammed.save_work(f"Kept {turn}") == 302
        kept.append(f"Kept {turn}")
        ballast = fill_up(small_disk)
        statuses = [crammed.save_work(f"Refused {turn}.{number}") for number in range(60)]
        kept += [f"Refused {turn}.{number}" for number, status in enumerate(statuses) if status == 302]
        assert set(statuses) <= {302, 507}
        assert 507 in statuses
        ballast.unlink()
        assert_sound(crammed)
        assert sorted(title for (title,) in crammed.ask("SELECT title FROM catalogue_work")) == sorted(kept)


@pytest.mark.skipif(not ON_SQLITE, reason="PostgreSQL keeps its own folder")
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
