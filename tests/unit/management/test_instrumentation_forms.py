"""The forms in which ``instrumentation --as`` writes: shorthand, chairs, prose, page, parts."""

from __future__ import annotations

import json
from io import StringIO
from pathlib import Path

import pytest
from django.core.management import call_command

FORCES = "2(II=picc).2.0.0 - hp"


def run(*arguments: str) -> str:
    out = StringIO()
    call_command("instrumentation", *arguments, stdout=out)
    return out.getvalue()


@pytest.mark.parametrize(
    ("form", "written"),
    [
        ("shorthand", "2(II=picc).2.0.0 – hp\n"),
        ("chairs", "2(2picc).2.0.0 – hp\n"),
        ("prose", "2 Flöten, die zweite auch Piccolo; 2 Oboen; Harfe\n"),
        (
            "page",
            "Holzbläser:\n  Flöte 1\n  Flöte 2, auch Piccolo (Piccolo klingt eine Oktave höher)\n  Oboe 1\n  Oboe 2\n\n"
            "Harfe und Zupfinstrumente:\n  Harfe\n\nZusammen:\n  5 Spieler\n",
        ),
        (
            "parts",
            "00  Partitur\n01  Flöte 1\n02  Flöte 2, auch Piccolo\n03  Oboe 1\n04  Oboe 2\n05  Harfe\n",
        ),
    ],
)
def test_each_form_is_written_in_the_language_asked_for(form: str, written: str) -> None:
    assert run(FORCES, "--as", form, "--language", "de") == written


def test_json_holds_the_form_beside_the_reading() -> None:
    found = json.loads(run(FORCES, "--as", "prose", "--json"))
    assert (found["shorthand"], found["prose"]) == (
        "2(II=picc).2.0.0 – hp",
        "2 flutes, the second doubling piccolo; 2 oboes; harp",
    )


def test_many_texts_have_an_answer_on_a_line_each(tmp_path: Path) -> None:
    source = tmp_path / "texts.txt"
    source.write_text(f"{FORCES}\nfl, str\n", encoding="utf-8")
    first, second = run("--from", str(source), "--as", "parts").splitlines()
    assert json.loads(first).startswith("00  Score\n01  Flute 1\n")
    assert json.loads(second)["error"]["message"] == (
        "The number of violin 1 players is open: state the string strengths."
    )


def test_parts_of_open_strings_are_refused_with_the_reason(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as refused:
        run("fl, str", "--as", "parts")
    assert refused.value.code == 2
    assert "The number of violin 1 players is open" in capsys.readouterr().err
