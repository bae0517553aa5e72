"""Typed lists of a setup: rows, their parts, and mistakes at their place."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.rules.technical.lists import ListError
from catalogue.rules.technical.reading import (
    read_inputs,
    read_media,
    read_needs,
    read_outputs,
    read_places,
    read_schedule,
    read_software,
    read_speakers,
    read_staff,
)
from catalogue.rules.technical.terms import (
    Channels,
    Duty,
    Feed,
    Input,
    Mark,
    Media,
    Need,
    Output,
    Place,
    Send,
    Slot,
    Software,
    Speaker,
)


def test_an_input_is_told_by_its_words_behind_the_microphone() -> None:
    text = (
        "1; Violin 1; clip condenser; 48 V; to live; composer\n19–20; Computer: click; line, balanced; from the studio"
    )
    assert read_inputs(text) == (
        Input(Channels(1, 1), "Violin 1", "clip condenser", Feed.MICROPHONE, "", True, "", "live", "composer"),
        Input(Channels(19, 20), "Computer: click", "line, balanced", Feed.LINE, provider="studio"),
    )


def test_a_row_pasted_from_a_spreadsheet_reads_the_same() -> None:
    assert read_inputs("4\tSampler\ttwo DI\t\t\tpresenter") == read_inputs("4; Sampler; two DI; presenter")


@pytest.mark.parametrize(
    ("text", "feed"),
    [
        ("1; Tape; digital", Feed.DIGITAL),
        ("1; Bass; DI and clip", Feed.DI),
        ("1; Horn; ribbon", Feed.MICROPHONE),
        ("1; Desk; line +4 dBu", Feed.LINE),
        ("1; Somebody", None),
    ],
)
def test_the_kind_of_an_input_follows_from_what_picks_it_up(text: str, feed: Feed | None) -> None:
    assert read_inputs(text)[0].feed == feed


def test_outputs_say_where_they_lead_and_who_hears_them() -> None:
    assert read_outputs(
        "1-8; Ring; electronics 1 to 8; presenter\n9; In-ear, conductor; click; for conductor; composer"
    ) == (
        Output(Channels(1, 8), "Ring", "electronics 1 to 8", Send.LOUDSPEAKER, provider="presenter"),
        Output(Channels(9, 9), "In-ear, conductor", "click", Send.IN_EAR, "conductor", "composer"),
    )


def test_loudspeakers_have_angles_to_the_left_below_nought() -> None:
    assert read_speakers("left; -22.5°\ntop; 0; 90\nsub; low\nback; 337.5") == (
        Speaker("left", Decimal("-22.5")),
        Speaker("top", Decimal(0), Decimal(90)),
        Speaker("sub", Decimal(0), is_low=True),
        Speaker("back", Decimal("-22.5")),
    )


def test_a_media_file_has_its_figures_in_any_order() -> None:
    digest = "ab" * 32
    assert read_media(f"01-lamp.wav; 2:58; 48 kHz; 24 bit; 8 channels; {digest}; lamp drone") == (
        Media("01-lamp.wav", 8, 48_000, 24, 178, digest, "lamp drone"),
    )


def test_needs_stand_under_their_heads_with_number_model_and_provider() -> None:
    text = "Loudspeakers:\n8 loudspeakers; full range, alike; such as the house model; presenter\n\nDesk:\nmixing desk"
    assert read_needs(text) == (
        Need("loudspeakers", 8, "full range, alike", "the house model", "presenter", "Loudspeakers"),
        Need("mixing desk", group="Desk"),
    )


def test_software_staff_schedule_and_places_are_read() -> None:
    assert read_software("Patch player; 4.2.1; the electronics; composer") == (
        Software("Patch player", "4.2.1", "the electronics", "composer"),
    )
    assert read_staff("sound engineer; whole day; presenter") == (Duty("sound engineer", "whole day", "presenter"),)
    assert read_schedule("14:00; rehearsal with electronics") == (Slot("14:00", "rehearsal with electronics"),)
    assert read_places("monitor A; -1.5; 2; 10") == (
        Place("monitor A", Decimal("-1.5"), Decimal(2), Mark.MONITOR, "10"),
    )


@pytest.mark.parametrize(
    ("read", "text", "reason", "marked"),
    [
        (
            read_inputs,
            "1; flute\nviola; clip",
            "“viola” is no channel; begin with its number, such as 5 or 5-8.",
            "viola",
        ),
        (read_inputs, "8-3; flute", "Channels are counted upwards from 1, not “8-3”.", "8-3"),
        (read_inputs, "7", "Say what is heard on the channel after “7”, with a semicolon between.", "7"),
        (read_speakers, "left; 400", "“400” is no angle here; angles reach from -180 to 180.", "400"),
        (read_speakers, "left; near", "“near” is no number.", "near"),
        (read_places, "flute; 500; 2", "“flute” stands too far away for a stage plan.", "flute; 500; 2"),
        (read_schedule, "14:00", "Say what happens then after “14:00”, with a semicolon between.", "14:00"),
    ],
)
def test_what_cannot_be_read_is_told_at_its_place(read, text: str, reason: str, marked: str) -> None:
    with pytest.raises(ListError) as caught:
        read(text)
    mistake = caught.value
    assert (mistake.reason, text[mistake.start : mistake.end]) == (reason, marked)


def test_a_list_has_an_end() -> None:
    with pytest.raises(ListError, match="at most 400 rows"):
        read_staff("somebody\n" * 401)
