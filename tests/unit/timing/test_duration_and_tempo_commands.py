from __future__ import annotations

import json
import wave
from io import StringIO
from pathlib import Path

import mido
import pytest
from django.core.management import call_command

from catalogue.management.base import UnusableInput
from catalogue.management.commands.tempo import CLICK_HELP, Command

pytestmark = pytest.mark.django_db

MAP = '1-2 4/4 q=60\n3 free 10\nrepeat 1-2\nmovement "Slack"\n1-4 3/4 q=90\n'


def run(*arguments: str) -> str:
    out = StringIO()
    call_command(*arguments, stdout=out)
    return out.getvalue()


@pytest.fixture
def map_file(tmp_path: Path) -> Path:
    path = tmp_path / "map.txt"
    path.write_text(MAP, encoding="utf-8")
    return path


def test_duration_answers_in_json() -> None:
    assert json.loads(run("duration", "c. 12½ minutes", "--json")) == {"seconds": 750, "approximate": True}


def test_duration_answers_a_reader() -> None:
    assert run("duration", "12:30") == "12′30″ (750 seconds, PT12M30S)\n"


def test_duration_asks_about_a_bare_number_unless_told() -> None:
    with pytest.raises(UnusableInput, match="Say whether 12 is minutes or seconds") as caught:
        run("duration", "12", "--json")

    assert caught.value.returncode == 2
    assert json.loads(run("duration", "12", "--bare", "minutes", "--json"))["seconds"] == 720


def test_tempo_answers_in_json(map_file: Path) -> None:
    answer = json.loads(run("tempo", str(map_file), "--json", "--cue", "2.3@2", "--cue", "2:1.1", "--published", "20'"))
    bars = answer.pop("bars")

    assert answer == {
        "seconds": 34.0,
        "movements": [{"name": "", "seconds": 26.0}, {"name": "Slack", "seconds": 8.0}],
        "cues": [{"place": "2.3@2", "seconds": 14.0}, {"place": "2:1.1", "seconds": 26.0}],
        "warnings": ["The duration from the tempo map is 34″, 97 % shorter than the stated 20′."],
    }
    assert len(bars) == 9
    assert bars[3] == {"movement": 1, "bar": 2, "time": 2, "start": 12.0, "seconds": 4.0}


def test_tempo_answers_a_reader(map_file: Path) -> None:
    assert run("tempo", str(map_file), "--cue", "3") == (
        "34″ (34.000 seconds), 9 bars played\n  1.   26″\n  2. Slack  8″\n3          0:16.000\n"
    )


def test_tempo_writes_a_midi_file_and_a_click(map_file: Path, tmp_path: Path) -> None:
    midi, click = tmp_path / "out.mid", tmp_path / "out.wav"

    run("tempo", str(map_file), "--cue", "3", "--midi", str(midi), "--click", str(click), "--count-in", "2")

    markers = [(message.text, message.time) for message in mido.MidiFile(midi).tracks[0] if message.type == "marker"]
    assert [text for text, _time in markers] == ["3"]
    assert abs(mido.MidiFile(midi).length - 34) < 0.0005
    with wave.open(str(click)) as file:
        assert file.getnframes() == (34 + 8) * 48_000
    assert sorted(path.name for path in tmp_path.iterdir()) == ["map.txt", "out.mid", "out.wav"]


@pytest.mark.parametrize(
    ("options", "reason"),
    [
        (["--cue", "99"], "Bar 99 is not in the map, or is cut."),
        (["--published", "12"], "Say whether 12 is minutes or seconds"),
        (["--click", "out.wav", "--count-in", "17"], "A count-in has between 0 and 16 bars."),
        (["--midi", "no-such-folder/out.mid"], "no-such-folder/out.mid cannot be written: No such file or directory."),
    ],
)
def test_tempo_refuses_what_it_cannot_use(map_file: Path, options: list[str], reason: str) -> None:
    with pytest.raises(UnusableInput) as caught:
        run("tempo", str(map_file), *options)

    assert str(caught.value).startswith(reason)


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"1-4 4/4 q=0", "Line 1: a tempo lies above 0"),
        (b"\xff\xfe1", "is no text in UTF-8."),
        (b"#" * 1_000_001, "is too long for a tempo map."),
    ],
)
def test_tempo_refuses_a_file_that_is_no_map(map_file: Path, content: bytes, reason: str) -> None:
    map_file.write_bytes(content)

    with pytest.raises(UnusableInput) as caught:
        run("tempo", str(map_file))

    assert reason in str(caught.value)


def test_tempo_refuses_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput, match=r"cannot be read: No such file or directory\.$"):
        run("tempo", str(tmp_path / "nothing.txt"))


def test_the_click_comes_with_a_caution_about_hearing() -> None:
    shown = " ".join(Command().create_parser("manage.py", "tempo").format_help().split())

    assert " ".join(CLICK_HELP.split()) in shown
    assert "turn the volume right down" in CLICK_HELP
    assert "local rules" in CLICK_HELP
