"""catalogue/exchange/calendar_files.py: built calendars as files that every process finds"""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from catalogue.exchange.calendar_files import built_by, found_calendar, let_go_of_all, put_calendar

DAY, KEY = "2026-03-09", ("public", "ilka-marovand", "en-gb")
HEAD = {"composer": 7, "state": "(1, 2)"}
CONTENT = b"BEGIN:VCALENDAR\r\n\nEND:VCALENDAR\r\n"


@pytest.fixture
def folder(settings: Any, tmp_path: Path) -> Path:
    settings.KEPT_CALENDARS = tmp_path / "calendars"
    return tmp_path / "calendars"


def test_what_was_put_is_found_under_its_day_and_key_alone(folder: Path) -> None:
    put_calendar(DAY, KEY, HEAD, CONTENT)

    assert found_calendar(DAY, KEY) == (HEAD, CONTENT, sha256(CONTENT).hexdigest())
    assert found_calendar("2026-03-10", KEY) is None
    assert found_calendar(DAY, (*KEY[:2], "en-us")) is None


def test_file_is_for_its_owner_and_named_after_nothing(folder: Path) -> None:
    put_calendar(DAY, KEY, HEAD, CONTENT)

    (file,) = (folder / DAY).iterdir()

    assert "ilka" not in file.name
    assert [path.stat().st_mode & 0o777 for path in (file.parent, file)] == [0o700, 0o600]


@pytest.mark.parametrize("end", [0, 1, 20, 90, -1])
def test_damaged_file_is_no_calendar(folder: Path, end: int) -> None:
    put_calendar(DAY, KEY, HEAD, CONTENT)
    (file,) = (folder / DAY).iterdir()
    whole = file.read_bytes()

    file.write_bytes(whole[:end])
    cut = found_calendar(DAY, KEY)
    file.write_bytes(whole.replace(b'"composer": 7', b'"composer": 8'))

    assert (cut, found_calendar(DAY, KEY)) == (None, None)


def test_folders_of_earlier_days_go_with_the_first_of_a_day(folder: Path) -> None:
    put_calendar(DAY, KEY, HEAD, CONTENT)

    put_calendar("2026-03-10", KEY, HEAD, CONTENT)

    assert [path.name for path in folder.iterdir()] == ["2026-03-10"]


def test_what_cannot_be_written_is_not_kept(folder: Path) -> None:
    folder.write_text("a file where the folder belongs")

    put_calendar(DAY, KEY, HEAD, CONTENT)

    assert found_calendar(DAY, KEY) is None


def test_another_address_of_the_house_has_calendars_of_its_own(folder: Path, settings: Any) -> None:
    put_calendar(DAY, KEY, HEAD, CONTENT)
    built_by.cache_clear()
    settings.SITE_URL = "https://elsewhere.example"

    assert found_calendar(DAY, KEY) is None
    built_by.cache_clear()


def test_all_go_at_once(folder: Path) -> None:
    put_calendar(DAY, KEY, HEAD, CONTENT)

    let_go_of_all()

    assert found_calendar(DAY, KEY) is None
