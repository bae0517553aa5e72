"""Whatever is typed, the answer is a reading or an error with a place, never anything else."""

from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.instrumentation import Instrumentation, InstrumentationError, read, shorthand
from catalogue.instrumentation.vocabulary import instruments

LONGEST = 2_000
PARTS = 20
TEXTS = [
    json.loads(line)["text"]
    for line in (Path(__file__).parents[2] / "reference" / "instrumentation" / "texts.jsonl")
    .read_text(encoding="utf-8")
    .splitlines()
]
PIECES = [
    *"()[]{}.,;:/-–+*=&|\n“”", " ", "  ", " - ", "1", "2", "12", "2222", "0", "99999999", "1/4", "II", "III=", "2nd",
    "d1", "doubling", "and", "or", "solo", "(opt)", "str", "perc", "timp+", "SATB", "offstage:", "in A", "B♭", "à",
    "ß", "フ", "ﬁ", "\u0301", "\u200b", "\x00", "😀", "no", "any", "quartet", "Orchestra 2:", "8-channel", "tape",
    *[row.names["en-GB"].abbreviation for row in list(instruments().values())[::7]],
]  # fmt: skip


def reading_or_error(text: str) -> Instrumentation | InstrumentationError:
    try:
        return read(text)
    except InstrumentationError as error:
        return error


def answers(text: str) -> None:
    """Read the text; an error has to have a place in it."""
    reading = reading_or_error(text)
    if isinstance(reading, InstrumentationError):
        assert 0 <= reading.start <= reading.end <= len(text)
        assert reading.reason != ""
        return
    assert reading.lines != ()
    for remark in reading.warnings:
        assert 0 <= remark.start <= remark.end <= len(text)
    assert json.loads(json.dumps(reading.to_json()))["text"] == text
    assert shorthand(reading) != ""


@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(st.sampled_from(PIECES), max_size=40).map("".join))
def test_any_pieces_are_answered(text):
    answers(text)


@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(TEXTS), st.integers(0, 400), st.integers(0, 12), st.sampled_from(PIECES))
def test_published_texts_with_a_slip_are_answered(text, at, cut, piece):
    place = at % (len(text) + 1)

    answers(text[:place] + piece + text[place + cut :])


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=60))
def test_any_characters_are_answered(text):
    answers(text)


def test_brackets_with_nothing_in_them_are_passed_over() -> None:
    told = [(line.instrument, line.note) for line in read("fl(), timp(), perc(), continuo(), SATB(), tape()").lines]
    assert told[:4] == [("flute", ""), ("timpani", ""), ("percussion", ""), ("basso-continuo", "")]


def test_brackets_that_say_what_is_included_and_name_nothing_are_read() -> None:
    for text in ("3 flutes (piccolo, including)", "3 flutes (2 oboes; including)", "fl (including, including)"):
        assert read(text).lines[0].instrument == "flute"


def test_a_set_of_strings_without_brackets_is_read() -> None:
    assert [line.instrument for line in read("For string%set").lines][:2] == ["violin-1", "violin-2"]


def mutated(chance: random.Random) -> str:
    """Return a published text with slips, two texts run together, shuffled words, or noise."""
    kind, text = chance.random(), chance.choice(TEXTS)
    if kind < 0.5:
        for _ in range(chance.randint(1, 3)):
            at = chance.randint(0, len(text))
            text = text[:at] + chance.choice(PIECES) + text[at + chance.randint(0, 10) :]
        return text[:LONGEST]
    if kind < 0.7:
        other = chance.choice(TEXTS)
        return (text[: chance.randint(0, len(text))] + other[chance.randint(0, len(other)) :])[:LONGEST]
    if kind < 0.85:
        words = text[:LONGEST].split()
        chance.shuffle(words)
        return " ".join(words)
    return "".join(chance.choice(PIECES) for _ in range(chance.randint(1, 30)))


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(77, 77 + PARTS))
def test_two_hundred_thousand_inputs_are_answered(seed: int) -> None:
    chance = random.Random(seed)  # noqa: S311 — inputs of a test, no secrets
    for _ in range(200_000 // PARTS):
        text = mutated(chance)
        reading = reading_or_error(text)
        if isinstance(reading, InstrumentationError):
            assert 0 <= reading.start <= reading.end <= len(text), text
        else:
            assert reading.lines != (), text
