"""/c/<composer>/profile/backups/, and the file of a backup"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from catalogue.exchange.backups.checking import check_backup
from catalogue.models import Composer
from tests.web.pages import Page

pytestmark = [pytest.mark.usefixtures("with_migrations"), pytest.mark.signed_in_as("owner")]
ADDRESS = "/c/ilka-marovand/profile/backups/"
DAILY = "daily-20260308T100000Z.zip"


@pytest.fixture(autouse=True)
def folder(settings: Any, tmp_path: Path) -> Path:
    settings.BACKUPS = tmp_path / "backups"
    settings.BACKUPS.mkdir()
    return settings.BACKUPS


@pytest.mark.django_db(transaction=True)
def test_a_backup_is_made_listed_and_taken_away(browser: Client, folder: Path) -> None:
    response = browser.post(ADDRESS)
    page = Page(browser.get(response.headers["Location"]))

    (made,) = folder.iterdir()
    (address,) = page.values("//section[@id='kept']//a/@href")
    file = browser.get(address)
    content = b"".join(file.streaming_content)
    file.close()

    assert made.name == "asked-for-20260309T100000Z.zip"
    assert page.texts("//section[@id='kept']//li/span") == ["9 Mar 2026, 10:00 UTC asked for"]
    assert check_backup(made).rows["catalogue.composer"] == 1
    assert content == made.read_bytes()
    assert file.headers["Content-Disposition"] == f'attachment; filename="{made.name}"'
    assert file.headers["Cache-Control"] == "private, no-store"


@pytest.mark.django_db
@pytest.mark.parametrize("count", [1, 3])
def test_the_number_of_queries_does_not_grow(
    browser: Client, folder: Path, count: int, django_assert_num_queries: Any
) -> None:
    for number in range(count):
        (folder / f"daily-2026030{number + 1}T100000Z.zip").write_bytes(b"x")
    browser.get(ADDRESS)

    with django_assert_num_queries(4):
        assert browser.get(ADDRESS).status_code == 200


@pytest.mark.django_db
def test_who_shares_the_database_neither_makes_nor_takes_one(
    browser: Client, folder: Path, other_composer: Composer
) -> None:
    (folder / DAILY).write_bytes(b"everything")

    page = Page(browser.get(ADDRESS))

    assert "Whoever runs the machine makes it" in page.text("//section[@id='kept']")
    assert page.texts("//main//form") == page.texts("//section[@id='kept']//a") == []
    assert browser.get(ADDRESS + DAILY + "/").status_code == 404
    assert browser.post(ADDRESS).status_code == 403


@pytest.mark.django_db
@pytest.mark.parametrize("name", ["none.zip", "..%2f..%2fcatalogue.sqlite3", "daily-20260308T100000Z.zip%00"])
def test_only_backups_are_given(browser: Client, folder: Path, name: str) -> None:
    (folder / "none.zip").write_bytes(b"another file")

    assert browser.get(f"{ADDRESS}{name}/").status_code in (400, 404)


@pytest.mark.django_db(transaction=True)
def test_a_disk_that_cannot_be_written_is_said(browser: Client, folder: Path, settings: Any) -> None:
    settings.BACKUPS = folder / "taken"
    settings.BACKUPS.write_text("a file, not a folder")

    response = browser.post(ADDRESS)

    assert response.status_code == 409
    assert "cannot be written" in Page(response).text("//*[@role='alert']")
