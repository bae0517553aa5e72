"""The command ``screen``: what it answers as JSON, and which files it refuses."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from django.core.management import call_command

from catalogue.management.base import UnusableInput
from catalogue.models import Composer
from tests.makers import make_composer, make_work

pytestmark = pytest.mark.django_db


@pytest.fixture
def composer() -> Composer:
    return make_composer("Ilka Marovand", slug="ilka-marovand")


def screened(tmp_path: Path, text: str | bytes) -> dict[str, Any]:
    path, out = tmp_path / "call.txt", StringIO()
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    call_command("screen", str(path), "--json", stdout=out)
    return json.loads(out.getvalue())


def test_each_work_has_a_verdict_with_its_conditions(composer: Composer, tmp_path: Path) -> None:
    """The shape that is checked from outside: the call, and of each work verdict and conditions with their reasons."""
    make_work("Ebb", composer=composer, instrumentation="2vn.va.vc")

    found = screened(tmp_path, "A prize\n\nWorks for string quartet of at most 10 minutes.\nDeadline: 1 March 2027")

    [ebb] = found["works"]
    assert (found["call"]["deadline"], found["call"]["duration_max"]) == ("2027-03-01", 600)
    assert (ebb["work"], ebb["verdict"]) == ("Ebb", "cannot tell")
    assert {one["condition"]: one["verdict"] for one in ebb["conditions"]} == {
        "status": "yes", "forces": "yes", "duration": "cannot tell",
    }  # fmt: skip
    assert all(one["reason"] for one in ebb["conditions"])


def test_a_deadline_with_an_hour_is_that_moment(composer: Composer, tmp_path: Path) -> None:
    found = screened(tmp_path, "A prize\n\nDeadline: 15 January 2027, 12:00 UK time")

    assert found["call"]["deadline"] == "2027-01-15T12:00:00+00:00"


def test_a_call_in_utf_16_is_read(composer: Composer, tmp_path: Path) -> None:
    found = screened(tmp_path, "A prize\n\nDeadline: 1 March 2027".encode("utf-16"))

    assert found["call"]["deadline"] == "2027-03-01"


@pytest.mark.parametrize(
    ("content", "reason"),
    [(b"", "is empty"), (b"\x89PNG\r\n\x1a\n\0\0\0\r", "is no text"), (b"x" * 1_000_001, "too large")],
)
def test_what_is_no_text_of_a_call_is_refused(composer: Composer, tmp_path: Path, content: bytes, reason: str) -> None:
    with pytest.raises(UnusableInput, match=reason):
        screened(tmp_path, content)


def test_a_number_that_no_call_has_is_said(composer: Composer) -> None:
    with pytest.raises(UnusableInput, match="There is no call 99 in this catalogue"):
        call_command("screen", "99")
