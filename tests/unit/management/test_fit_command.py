"""The command ``fit``: an answer for a reader, an answer as JSON, a text that cannot be read."""

from __future__ import annotations

import json
from io import StringIO

import pytest
from django.core.management import call_command

from catalogue.management.base import UnusableInput


def run(*arguments: str) -> str:
    out = StringIO()
    call_command("fit", *arguments, stdout=out)
    return out.getvalue()


def test_fit_says_what_is_missing() -> None:
    assert run("2(II=picc).2.2.2 - hp(2) - str(8.6.4.4.2)", "2.2.2.2 - hp - str(6.5.4.3.2)") == (
        "No.\n"
        "  Flute 2 doubling piccolo: the player who is free does not play piccolo.\n"
        "  Harps: one too few.\n"
        "  Violins I: 6 players for the 8 written.\n"
        "  Violins II: 5 players for the 6 written.\n"
        "  Cellos: 3 players for the 4 written.\n"
    )


def test_fit_answers_in_json() -> None:
    assert json.loads(run("fl(=picc)", "fl", "--json")) == {
        "fits": False,
        "missing": [
            {
                "instrument": "piccolo",
                "players": 1,
                "why": "Flute doubling piccolo: the player who is free does not play piccolo.",
                "plays": ["flute", "piccolo"],
                "role": "ensemble",
            }
        ],
        "assignment": [
            {
                "instrument": "flute",
                "chair": 1,
                "count": 1,
                "plays": ["flute", "piccolo"],
                "player": "flute",
                "player_chair": 1,
            }
        ],
        "open": [],
        "remarks": [],
        "unused": [],
    }


def test_fit_with_the_usual_doublings_is_a_yes() -> None:
    assert run("fl(=picc)", "fl", "--usual-doublings") == "Yes.\n"


def test_fit_is_open_where_the_texts_are() -> None:
    assert json.loads(run("perc(4)", "perc(2–4)", "--json"))["fits"] is None
    assert run("perc(4)", "perc(2–4)", "--as-limits") == "Yes.\n"


def test_fit_says_which_text_cannot_be_read_and_where() -> None:
    with pytest.raises(UnusableInput, match=r"^The available forces cannot be read: .* \(characters 5 to 7\)$"):
        run("fl", "fl, zzz")
