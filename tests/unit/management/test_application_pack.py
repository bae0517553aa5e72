from __future__ import annotations

import io
import zipfile
from pathlib import Path

import pytest
from django.core.management import CommandError, call_command

from catalogue.actions.calls import choose_works, propose_call
from catalogue.models import Call
from tests.makers import NOW, make_composer, make_work

pytestmark = pytest.mark.django_db


def make_call(text: str, note: str) -> Call:
    composer = make_composer()
    call = propose_call(composer=composer, text=text, now=NOW)
    choose_works(call=call, works=[make_work("Tides", composer=composer, programme_note=note)])
    return call


def test_a_pack_is_written_and_what_lacks_is_told(tmp_path: Path) -> None:
    call, out, told = make_call("Send a score and a note.", "Twice a day."), tmp_path / "pack.zip", io.StringIO()

    call_command("document", "application-pack", call=call.pk, out=str(out), stderr=told)

    assert zipfile.ZipFile(out).namelist() == ["01-note-Tides.pdf"]
    assert "Score: No file of the score is kept." in told.getvalue()


def test_a_pack_that_names_the_composer_of_an_anonymous_call_is_not_written(tmp_path: Path) -> None:
    call, out = make_call("Anonymous entries: a motto. Send a note.", "Ilse Tarnow writes."), tmp_path / "pack.zip"

    with pytest.raises(CommandError, match="names the composer: 01-note-Tides"):
        call_command("document", "application-pack", call=call.pk, out=str(out), stderr=io.StringIO())

    assert not out.exists()


def test_what_is_not_said_is_asked_for() -> None:
    make_composer()

    with pytest.raises(CommandError, match="--call"):
        call_command("document", "application-pack", stderr=io.StringIO())
