"""Brackets that deny, add an optional player or itemise an ensemble."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, write_words


def told(text: str) -> list[tuple[str, object, bool]]:
    return [(line.instrument, line.players, line.optional) for line in read(text).lines]


def test_what_is_not_played_is_no_doubling() -> None:
    (line,) = read("1 flute (no piccolo)").lines
    assert (line.chairs, line.note) == ((), "no piccolo")


@pytest.mark.parametrize("text", ["piano (optional flute)", "piano (flute ad lib.)"])
def test_an_optional_player_of_another_family_stands_beside(text: str) -> None:
    assert told(text) == [("piano", (1, 1), False), ("flute", (0, 1), True)]


def test_an_optional_size_of_the_instrument_is_a_doubling() -> None:
    (line,) = read("flute (optional piccolo)").lines
    assert [chair.plays for chair in line.chairs] == [("flute", "piccolo")]


@pytest.mark.parametrize(
    "text", ["trio d'anches (ob, cl, bn)", "reed trio (ob, cl, bn)", "trio of oboe, clarinet and bassoon"]
)
def test_an_ensemble_is_what_is_itemised(text: str) -> None:
    assert told(text) == [(slug, (1, 1), False) for slug in ("oboe", "clarinet", "bassoon")]


@pytest.mark.parametrize("text", ["percussion duo (marimba, 2 vibraphones)", "percussion (2 instrumentistas)"])
def test_percussionists_are_counted_and_not_what_they_play(text: str) -> None:
    assert told(text) == [("percussion", (2, 2), False)]


@pytest.mark.parametrize("text", ["coro a otto voci (SSAATTBB)", "SATB (div.)"])
def test_the_voices_of_a_choir_are_no_soloists(text: str) -> None:
    assert {line.role for line in read(text).lines} == {"ensemble"}


@pytest.mark.parametrize(
    ("language", "words"),
    [("en-GB", "at least 4 clarinets"), ("de", "mindestens 4 Klarinetten"), ("es", "mínimo 4 clarinetes")],
)
def test_so_many_or_more_is_said_in_words(language: str, words: str) -> None:
    reading = read("four or more clarinets")

    assert write_words(reading, language) == words
    assert read(words, language=language).lines == reading.lines
