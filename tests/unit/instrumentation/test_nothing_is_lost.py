"""Nothing of a text is dropped without a word: what is no player, note or label is told at its place."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest

from catalogue.instrumentation import Instrumentation, InstrumentationError, read
from catalogue.instrumentation.lead_ins import without_lead
from catalogue.instrumentation.margins import without_margins
from catalogue.instrumentation.tokens import flat_tokens, nodes_of
from catalogue.instrumentation.untold import words_of

REFERENCE = Path(__file__).parents[2] / "reference" / "instrumentation"
TEXTS = [
    json.loads(line)["text"]
    for name in ("texts.jsonl", "invented.jsonl")
    for line in (REFERENCE / name).read_text(encoding="utf-8").splitlines()
]
STRANGER = "zorbel"
MOST = 300
PLACES = 40


def with_stranger(text: str, chance: random.Random) -> str:
    """Return a text with a word that no language has, before one of its words, numbers or marks."""
    token = chance.choice(flat_tokens(text))
    return f"{text[: token.start]} {STRANGER} {text[token.start :]}"


def holds(reading: Instrumentation) -> bool:
    said = json.dumps({**reading.to_json(), "text": "", "warnings": []}).lower()
    at = reading.text.index(STRANGER)
    return STRANGER in said or any(one.start <= at < one.end for one in reading.warnings)


def is_title(text: str) -> bool:
    """Whether the stranger stands in a title, ``Sonata for``, in ``The work calls for``, or in a line beside."""
    forces = without_lead(without_margins(text)[0])
    return not any(word.text == STRANGER for word in words_of(nodes_of(forces)))


@pytest.mark.parametrize("seed", range(PLACES))
def test_an_unknown_word_anywhere_in_a_text_leaves_a_trace(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 — a choice of texts
    lost = []
    for text in chance.sample([one for one in TEXTS if len(one) < MOST], 20):
        changed = with_stranger(text, chance)
        try:
            reading = read(changed)
        except InstrumentationError:
            continue
        if not holds(reading) and not is_title(changed):
            lost.append(changed)

    assert lost == []


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("str (8.6.5 zorbel 4.2)", "(8.6.5 zorbel 4.2)"),
        ("big zorbel band: 2 asax, 2 tsax, 4 tpt", "zorbel"),
        ("wind nonet lontan vago (2 ob, 2 cl, 2 hn, 2 bn, cbn)", "lontan vago"),
        ("2 string quartet, piano", "2"),
        ("3 flutes 37, 2 oboes", "3 flutes 37"),
        ("strings (8.7.6.5.3 or 1.1.1.1.1)", "(8.7.6.5.3 or 1.1.1.1.1)"),
    ],
)
def test_what_is_not_read_is_told_at_its_place(text: str, place: str) -> None:
    told = [text[one.start : one.end] for one in read(text).warnings]

    assert [one for one in told if one in place and one] != []


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("muted trumpet", "muted"),
        ("trumpet muted", "muted"),
        ("baroque violin", "baroque"),
        ("valve trombone", "valve"),
    ],
)
def test_words_that_describe_a_player_are_notes(text: str, note: str) -> None:
    assert [line.note for line in read(text)] == [note]


@pytest.mark.parametrize(
    ("text", "slugs"),
    [
        ("brass quintet (no tuba)", ["trumpet", "horn", "trombone"]),
        ("wind quintet without horn", ["flute", "oboe", "clarinet", "bassoon"]),
        ("string quartet ohne Viola", ["violin-1", "violin-2", "cello"]),
        ("strings, no double basses", ["violin-1", "violin-2", "viola", "cello"]),
        ("flute, no strings", ["flute"]),
    ],
)
def test_what_is_denied_is_not_there(text: str, slugs: list[str]) -> None:
    assert [line.instrument for line in read(text)] == slugs


def test_what_an_open_body_does_without_is_a_note() -> None:
    assert [line.note for line in read("orchestra (no percussion)") if line.instrument == "orchestra"] == [
        "no percussion"
    ]
