"""The command ``electronics_package``: a package made, read back, and refused where something is missing."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from catalogue.management.base import UnusableInput
from catalogue.models import TechnicalSetup, Work
from tests.makers import make_work
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db


@pytest.fixture
def work() -> Work:
    work = make_work("Rope Tables", instrumentation="pf, fixed media")
    make_record(TechnicalSetup, work=work, media="tone.wav; stereo; 48 kHz", setting_up="Turn it on.")
    return work


def test_a_package_is_made_and_reads_back_whole(work: Work, tmp_path: Path) -> None:
    (tmp_path / "tone.wav").write_bytes(b"RIFF")
    path, out = tmp_path / "package.zip", StringIO()

    call_command("electronics_package", work=[str(work.pk)], media=tmp_path, out=path, stderr=StringIO())
    call_command("electronics_package", check=path, json=True, stdout=out)

    assert json.loads(out.getvalue()) == {
        "whole": True,
        "files": ["media/tone.wav", "rider.pdf", "rider.txt", "setup.txt"],
        "wrong": [],
    }


@pytest.mark.parametrize(
    ("options", "reason"),
    [
        ({}, "Say of which work with --work"),
        ({"media": Path("nowhere")}, "“tone.wav” is not in nowhere."),
    ],
)
def test_what_is_missing_is_said_and_nothing_is_written(
    work: Work, tmp_path: Path, options: dict[str, Path], reason: str
) -> None:
    asked = {"work": [str(work.pk)], "out": tmp_path / "package.zip"} if options else {}
    with pytest.raises(UnusableInput, match=reason):
        call_command("electronics_package", **asked, **options)
    assert list(tmp_path.iterdir()) == []
