from __future__ import annotations

import io
import json

import pytest
from django.core.management import CommandError, call_command

from catalogue.management.base import UnusableInput

EXAMPLE = "2(II=picc).2.2(II=bcl).2 - 4.2.3.1 - timp.perc(2) - hp - str(8.6.4.4.2)"


def run(*arguments: str) -> str:
    out = io.StringIO()
    call_command("instrumentation", *arguments, stdout=out, stderr=io.StringIO())
    return out.getvalue()


def test_reading_is_printed_as_json():
    printed = json.loads(run(EXAMPLE, "--json"))

    assert printed["text"] == EXAMPLE
    assert printed["players"] == [46, 46]
    assert printed["singers"] == [0, 0]
    assert (printed["electronics"], printed["channels"]) == ("none", None)
    assert printed["convention"] == "dotted, Roman chairs"
    assert printed["shorthand"] == "2(II=picc).2.2(II=bcl).2 – 4.2.3.1 – timp.perc(2) – hp – str(8.6.4.4.2)"
    assert printed["warnings"] == []
    assert printed["lines"][0] == {
        "instrument": "flute", "family": "woodwind", "role": "ensemble", "players": [2, 2],
        "chairs": [{"chair": 1, "plays": ["flute"]}, {"chair": 2, "plays": ["flute", "piccolo"]}],
        "optional": False, "amplified": False, "group": None, "note": "",
    }  # fmt: skip
    assert [line for line in printed["lines"] if line["instrument"] == "violin-1"] == [
        {
            "instrument": "violin-1", "family": "strings", "role": "ensemble", "players": [8, 8], "unit": "players",
            "strength": "stated", "chairs": [], "optional": False, "amplified": False, "group": None, "note": "",
        }
    ]  # fmt: skip


def test_reading_is_printed_as_shorthand_with_its_remarks():
    assert run("perc(III), pf").splitlines() == [
        "perc(3) – pf",
        "  The Roman numeral was read as the number of players.",
    ]


def test_text_that_cannot_be_read_ends_with_two_and_an_error_object():
    out, err = io.StringIO(), io.StringIO()

    with pytest.raises(SystemExit) as caught:
        call_command("instrumentation", "fl, qz", "--json", stdout=out, stderr=err)

    assert caught.value.code == 2
    error = json.loads(out.getvalue())["error"]
    assert (error["start"], error["end"]) == (4, 6)
    assert error["message"] == "“qz” is not a known instrument."
    assert error["expected"] != []
    assert "qz" in err.getvalue()


def test_file_is_answered_line_by_line(tmp_path):
    source = tmp_path / "texts.txt"
    source.write_text('fl, pf\n"2 oboes\\nharp"\nqz\n', encoding="utf-8")

    first, second, third = [json.loads(line) for line in run("--from", str(source), "--json").splitlines()]

    assert [line["instrument"] for line in first["lines"]] == ["flute", "piano"]
    assert second["text"] == "2 oboes\nharp"
    assert third["error"]["start"] == 0


def test_standard_input_is_read(monkeypatch):
    send(monkeypatch, b"fl, pf\n")

    assert json.loads(run("--from", "-", "--json"))["players"] == [2, 2]


def send(monkeypatch: pytest.MonkeyPatch, content: bytes) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(content), encoding="utf-8"))


def test_a_line_of_a_file_ends_with_its_line_feed_alone(monkeypatch):
    """One text a line, one answer a line: other signs that end lines in Unicode neither part a text nor an answer."""
    send(monkeypatch, '\ufefffl\u2028pf\r\nqz\x85"\u2029\ncl\x0b, pf\n"qz\u2028"'.encode())

    answers = [json.loads(line) for line in run("--from", "-", "--json").splitlines()]

    assert [one["text"] for one in answers] == ["fl\u2028pf", 'qz\x85"\u2029', "cl\x0b, pf", "qz\u2028"]
    assert ["error" in one for one in answers] == [False, True, False, True]


def test_a_file_in_another_encoding_is_refused_at_its_line(tmp_path):
    """Exit 2 for input that cannot be used, the reason at its place."""
    source = tmp_path / "texts.txt"
    source.write_bytes("fl\nFlöte\n".encode("cp1252"))

    with pytest.raises(UnusableInput, match=r"is no text in UTF-8 \(line 2\)"):
        run("--from", str(source))


def test_a_text_and_a_file_at_once_are_refused():
    with pytest.raises(UnusableInput, match="not both"):
        run("fl", "--from", "-")


def test_file_that_is_not_there_is_told():
    with pytest.raises(CommandError, match="cannot be read") as caught:
        run("--from", "no-such-file.txt")

    assert caught.value.returncode == 2


def test_text_has_to_be_given():
    with pytest.raises(CommandError, match="Give an instrumentation") as caught:
        run()

    assert caught.value.returncode == 2


def test_options_reach_the_reader():
    options = ("--convention", "counted doublings", "--strings-are", "desks", "--language", "en-GB", "--json")

    printed = json.loads(run("4(3pic).2.2.2 - str(8.8.6.5.4)", *options))

    assert printed["convention"] == "dotted, counted doublings"
    assert printed["players"] is None
    assert printed["lines"][-1]["unit"] == "desks"
