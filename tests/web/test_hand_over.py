"""/c/<composer>/profile/hand-over/ and /house/take-over/"""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import call_command
from django.test import Client

from catalogue.management.base import UnusableInput
from catalogue.models import Composer, HandOver, Work
from catalogue.web import uploads
from tests.makers import make_work
from tests.unit.exchange.handover.test_handover import remove_all
from tests.web.pages import Page

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.slow]

GIVE, TAKE = "/c/ilka-marovand/profile/hand-over/", "/house/take-over/"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], owner: User, settings: Any, tmp_path: Path) -> Client:
    settings.DATA = tmp_path
    return signed_in(owner)


def made(browser: Client) -> bytes:
    return b"".join(browser.post(GIVE, {"to": "Second House"}))


def upload(content: bytes) -> SimpleUploadedFile:
    return SimpleUploadedFile("ilka.zip", content, "application/zip")


def test_catalogue_is_given_looked_into_and_taken_elsewhere(
    browser: Client, composer: Composer, stranger: User, signed_in: Callable[[User], Client]
) -> None:
    work = make_work("Tides", composer=composer)
    content = made(browser)
    noted = HandOver.objects.get()
    remove_all_of(composer)
    theirs = signed_in(stranger)

    looked = Page(theirs.post(TAKE, {"file": upload(content), "look": "1"}))
    count = Work.objects.count()
    answer = theirs.post(TAKE, {"file": upload(content), "take": "1"})

    assert (noted.way, noted.party, len(noted.sha256)) == ("given", "Second House", 64)
    assert "Ilka Marovand: 2 records, 0 files." in looked.text("//section[@id='found']")
    assert count == 0
    assert answer.headers["Location"] == "/c/ilka-marovand/"
    assert Work.objects.get(title="Tides").uid == work.uid
    assert HandOver.objects.get(way="taken").sha256 == noted.sha256


def remove_all_of(composer: Composer) -> None:
    Work.objects.filter(composer=composer).delete()
    composer.delete()


def test_what_stands_against_it_is_said_at_its_place(browser: Client, composer: Composer) -> None:
    make_work("Tides", composer=composer)
    content = made(browser)

    again = Page(browser.post(TAKE, {"file": upload(content), "take": "1"}))
    changed = Page(browser.post(TAKE, {"file": upload(content[:-9]), "take": "1"}))
    nobody = Page(browser.post(GIVE, {"to": ""}))

    assert again.wrong == ["This catalogue is here already: 1 of its records are. Nothing is stored twice."]
    assert changed.wrong == [
        "This file was changed or damaged after it was made, or is no catalogue that was handed over."
    ]
    assert len(nobody.wrong) == 1
    assert Composer.objects.count() == 1
    assert "Second House" in Page(browser.get(GIVE)).text("//section[@id='given']")


def test_a_file_that_is_too_large_is_dropped_while_it_comes_in_and_the_page_says_so(
    browser: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A catalogue with recordings may have 400 MB, as sound may that is sent by itself."""
    assert uploads.MOST_BY_PAGE["take-over"] == 400_000_000
    monkeypatch.setitem(uploads.MOST_BY_PAGE, "take-over", 10)

    assert Page(browser.post(TAKE, {"file": upload(b"x" * 11)})).wrong == ["This file is larger than 400 MB."]


def test_whoever_owns_no_catalogue_takes_none_over(
    viewer: User, signed_in: Callable[[User], Client], composer: Composer
) -> None:
    page = Page(signed_in(viewer).post(TAKE, {"file": upload(b"x"), "take": "1"}))

    assert "Ask an owner." in page.text()
    assert page.values("//main//form/@action") == []


def test_commands_do_the_same(composer: Composer, owner: User, tmp_path: Path) -> None:
    make_work("Tides", composer=composer)
    path = tmp_path / "ilka.zip"
    call_command("hand_over", str(path), to="The composer", stdout=io.StringIO())
    with pytest.raises(UnusableInput, match="here already"):
        call_command("take_over", str(path), owner=owner.username, stdout=io.StringIO())
    remove_all()
    said = io.StringIO()
    with pytest.raises(UnusableInput, match="Say with --owner"):
        call_command("take_over", str(path), owner="nobody", dry_run=True, stdout=io.StringIO())

    call_command("take_over", str(path), owner=owner.username, stdout=said)

    assert said.getvalue().startswith("Ilka Marovand: 2 records, 0 files.\nIt is a catalogue here now")
    assert Composer.objects.get().works.get().title == "Tides"
