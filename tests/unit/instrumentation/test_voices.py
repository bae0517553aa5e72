"""Who sings alone, who sings in a choir, and letters that are no voices at all."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read

FOUR = ["voice-soprano", "voice-alto", "voice-tenor", "voice-bass"]


@pytest.mark.parametrize(
    "text",
    [
        "solo voices SATB",
        "S A T B soli",
        "vocal quartet (SATB)",
        "Vokalquartett SATB",
        "quatuor vocal: SATB",
        "SATB soloists",
        "4 solo voices: SATB",
    ],
)
def test_solo_singers_by_their_letters_are_no_choir(text: str) -> None:
    assert [(line.instrument, line.players, line.role) for line in read(f"{text}, organ")][:4] == [
        (slug, (1, 1), "soloist") for slug in FOUR
    ]


@pytest.mark.parametrize("text", ["recorders SATB, lute", "4 recorders (SATB), lute", "SATB recorders, lute"])
def test_letters_after_an_instrument_are_its_sizes(text: str) -> None:
    reading = read(text)

    assert (reading.singers, reading.players) == ((0, 0), (5, 5))


def test_a_semi_chorus_is_told_from_the_chorus() -> None:
    notes = {line.note for line in read("SATB semi-chorus, SATB chorus, organ") if line.family == "voice"}

    assert notes == {"semi-chorus", ""}


def test_several_soloists_are_carried_back_over_a_comma() -> None:
    assert [line.role for line in read("flute, harp soli; 2 hn")] == ["soloist", "soloist", "ensemble"]


@pytest.mark.parametrize("text", ["Violine und Violoncello solo, Streicher", "flute and harp solo, string orchestra"])
def test_one_word_after_two_soloists_is_said_of_both(text: str) -> None:
    reading = read(text)

    assert [line.role for line in reading][:2] == ["soloist", "soloist"]
    assert [one.code for one in reading.warnings] == ["soloist"]


def test_a_clarinet_in_a_is_no_alto_clarinet_outside_a_band() -> None:
    named = [next(line.instrument for line in read(text)) for text in ("A cl, pno", "A cl, A sax, tpt")]

    assert named == ["clarinet", "alto-clarinet"]


@pytest.mark.parametrize("text", ["4 Hörner (davon 2 ad lib.)", "4 horns, 2 of which optional"])
def test_optional_players_are_taken_from_the_least(text: str) -> None:
    assert [line.players for line in read(text)] == [(2, 4)]


@pytest.mark.parametrize("text", ["piano, left hand", "Klavier (left hand)", "piano left hand"])
def test_one_hand_at_the_piano_is_a_note(text: str) -> None:
    assert [(line.players, line.note) for line in read(text)] == [((1, 1), "left hand")]


def test_a_concertino_is_a_body_of_its_own() -> None:
    assert [(line.instrument, line.group) for line in read("2 hn, concertino (2 vn, vc)")] == [
        ("horn", None),
        ("violin", "concertino"),
        ("cello", "concertino"),
    ]


@pytest.mark.parametrize("name", ["soprano saxophone", "soprano recorder", "soprano cornet"])
def test_a_solo_instrument_named_after_a_voice_is_no_singer(name: str) -> None:
    (line,) = [one for one in read(f"solo {name}; orchestra") if one.role == "soloist"]

    assert line.instrument == name.replace(" ", "-")


def test_an_umlaut_tells_the_german_plural_from_the_italian_singular() -> None:
    tenors = read("2 Flöten; Tenöre oder Hörner; Streicher", language="de").lines[1]
    tenor = read("2 flauti; tenore; archi", language="it").lines[1]

    assert (tenors.instrument, tenors.players, tenors.alternatives) == ("voice-tenor", None, ("horn",))
    assert (tenor.instrument, tenor.players) == ("voice-tenor", (1, 1))
