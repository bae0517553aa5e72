"""The commands that set up and serve: what they write, what they print, and what stands in their way."""

from __future__ import annotations

import socket
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command
from django.test import Client

from catalogue.management.base import UnusableInput
from catalogue.management.commands import demo, start
from catalogue.models import Membership
from tests.makers import make_composer, make_user

pytestmark = pytest.mark.django_db
FILES = [
    "cv-section.pdf",
    "cv-section.txt",
    "delivery-note.pdf",
    "delivery-note.txt",
    "front-matter-postscript-in-pencil.pdf",
    "front-matter-postscript-in-pencil.txt",
    "front-matter-string-quartet-no-2.pdf",
    "front-matter-string-quartet-no-2.txt",
    "front-matter-ten-past-four.pdf",
    "front-matter-ten-past-four.txt",
    "front-matter-the-ninth-kilometre-stone.pdf",
    "front-matter-the-ninth-kilometre-stone.txt",
    "front-matter-weaving-shed-at-idle.pdf",
    "front-matter-weaving-shed-at-idle.txt",
    "hire-statement.pdf",
    "hire-statement.txt",
    "missing-parts-letter.pdf",
    "missing-parts-letter.txt",
    "parts-checklist.pdf",
    "parts-checklist.txt",
    "performance-history.pdf",
    "performance-history.txt",
    "performance-return.pdf",
    "performance-return.txt",
    "performances.ics",
    "press-sheet.pdf",
    "press-sheet.txt",
    "programme-entry.pdf",
    "programme-entry.txt",
    "return-check.pdf",
    "return-check.txt",
    "rider.pdf",
    "rider.txt",
    "works-list-by-category.pdf",
    "works-list-by-category.txt",
    "works-list-by-year.pdf",
    "works-list-by-year.txt",
]


@pytest.fixture(autouse=True)
def own_address(settings: Any) -> None:
    """Serving at a port changes what links begin with; afterwards they begin as before."""
    settings.SITE_URL = settings.SITE_URL


@pytest.mark.slow
def test_demo_writes_the_four_outputs_and_the_same_ones_again(tmp_path: Path) -> None:
    for name in ("first", "second"):
        call_command("demo", no_serve=True, out=str(tmp_path / name), stdout=StringIO())

    written = {
        name: {path.name: path.read_bytes() for path in (tmp_path / name).iterdir()} for name in ("first", "second")
    }
    assert sorted(written["first"]) == FILES
    assert written["first"] == written["second"]


def test_demo_prints_an_address_that_signs_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, client: Client) -> None:
    monkeypatch.setattr(demo, "serve", lambda port, ready: ready())
    out = StringIO()

    call_command("demo", out=str(tmp_path), port=8765, stdout=out)

    address = next(word for word in out.getvalue().split() if word.startswith("http://"))
    assert address.startswith("http://127.0.0.1:8765/enter/")
    assert client.get(address.removeprefix("http://127.0.0.1:8765"), follow=True).status_code == 200
    assert client.session["_auth_user_id"]


def test_taken_port_is_said_before_the_long_work_begins(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]

        with pytest.raises(UnusableInput, match=f"Port {port} is taken by another program; choose another with --port"):
            call_command("demo", out=str(tmp_path), port=port)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("port", [-1, 70_000])
def test_port_that_is_none_is_refused(port: int) -> None:
    with pytest.raises(UnusableInput, match="choose one from 1024 to 65535"):
        call_command("start", port=port)


def test_start_asks_for_the_owner_until_there_is_one() -> None:
    assert start.entrance().startswith("/start/")

    Membership.objects.create(user=make_user("ilka"), composer=make_composer("Ilka Marovand"), role="owner")

    assert start.entrance() == "/"
    with pytest.raises(UnusableInput, match="has an owner already"):
        call_command("start", address_only=True)


def test_address_of_the_first_owner_is_told_without_serving(settings: Any) -> None:
    settings.SITE_URL = "https://house.example"
    out = StringIO()

    call_command("start", address_only=True, stdout=out)

    assert out.getvalue().startswith("https://house.example/start/")
