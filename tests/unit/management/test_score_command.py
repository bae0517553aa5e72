"""The command ``score``: what it prints for readers and for programs, and what it refuses."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

from catalogue.exchange.scores import parsing
from catalogue.management import progress
from catalogue.management.base import UnusableInput
from catalogue.management.commands import score as command
from tests.score_files import BACKWARD, bar, compressed, score, sound


@pytest.fixture
def file(tmp_path: Path) -> Path:
    head = (
        '<work><work-title>Kettle Song</work-title></work><identification><creator type="composer">Ada Quill</creator>'
    )
    written = tmp_path / "kettle.mxl"
    content = score(
        bar(sound(tempo="60")), bar(after=BACKWARD), head=head + "</identification>", parts=("Flute", "Piano")
    )
    written.write_bytes(compressed(content))
    return written


def test_what_a_score_says_is_printed_as_json(file: Path) -> None:
    out = StringIO()
    call_command("score", str(file), "--json", stdout=out)
    assert json.loads(out.getvalue()) == {
        "title": "Kettle Song",
        "creators": [{"name": "Ada Quill", "type": "composer"}],
        "movements": [],
        "parts": [{"name": "Flute", "instrument": "flute"}, {"name": "Piano", "instrument": "piano"}],
        "instrumentation": "fl – pf",
        "bars": 2,
        "bars_played": 4,
        "seconds": 16.0,
        "seconds_unrepeated": 8.0,
        "has_tempo_marks": True,
        "tempo_map": "1-2     4/4   q=60\nrepeat 1-2\n",
        "warnings": [],
    }


def test_what_a_score_says_is_printed_in_words(file: Path) -> None:
    out = StringIO()
    call_command("score", str(file), stdout=out)
    assert out.getvalue().splitlines() == [
        "Kettle Song",
        "Ada Quill (composer)",
        "fl – pf",
        "2 bars, 4 played with repeats",
        "about 16″ by its tempo marks, 8″ without repeats: an estimate to confirm",
    ]


def test_a_score_without_repeats_is_told_without_them(tmp_path: Path) -> None:
    (tmp_path / "one.musicxml").write_bytes(score(bar()))
    out = StringIO()
    call_command("score", str(tmp_path / "one.musicxml"), stdout=out, stderr=StringIO())
    assert out.getvalue().splitlines() == ["(no title)", "fl", "1 bar"]


def test_a_long_score_shows_how_far_it_has_come(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    class Terminal(StringIO):
        def isatty(self) -> bool:
            return True

    monkeypatch.setattr(parsing, "AT_ONCE", 0)
    monkeypatch.setattr(parsing, "PORTION", 500)
    monkeypatch.setattr(command, "PORTION", 500)
    monkeypatch.setattr(progress, "QUIET_FOR", 0)
    told = Terminal()
    call_command("score", str(file), stdout=StringIO(), stderr=told)
    assert "Reading the score, MB [" in told.getvalue()


def test_a_file_that_is_no_score_is_named_with_the_reason(tmp_path: Path) -> None:
    file = tmp_path / "letter.xml"
    file.write_text("<letter/>")
    with pytest.raises(UnusableInput, match=r"letter\.xml: This XML is no MusicXML score"):
        call_command("score", str(file))


def test_a_file_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match="cannot be read: No such file"):
        call_command("score", str(tmp_path / "nothing.musicxml"))
