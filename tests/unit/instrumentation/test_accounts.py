"""What a reading does not hold of the numbers and names of its text is told, whichever rule dropped it."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import Line, read
from catalogue.instrumentation.accounts import say_of_unaccounted
from catalogue.instrumentation.drafts import Forces
from catalogue.instrumentation.languages import Speech
from catalogue.instrumentation.tokens import nodes_of


def told(text: str, *lines: Line) -> list[tuple[str, str]]:
    """Return the remarks on a text that was read as the lines: their codes and what they stand over."""
    nodes = nodes_of(text)
    forces = Forces(text, Speech(nodes, "en-GB"))
    say_of_unaccounted(nodes, forces, lines)
    return [(one.code, text[one.start : one.end]) for one in forces.remarks]


FLUTE = Line("flute", "woodwind")
OBOES = Line("oboe", "woodwind", (2, 2))


def test_a_name_that_no_line_holds_is_told() -> None:
    assert told("flute, harp", FLUTE) == [("name-not-read", "harp")]


def test_a_name_in_a_note_is_held() -> None:
    assert told("flute, harp", Line("flute", "woodwind", note="with harp")) == []


def test_a_name_within_a_bracket_is_looked_for_too() -> None:
    assert told("flute (alto flute)", FLUTE) == [("name-not-read", "alto flute")]


def test_a_family_that_its_members_stand_for_is_held() -> None:
    assert told("brass: trumpet", Line("trumpet", "brass")) == []


def test_a_number_that_stands_more_often_than_the_lines_have_it_is_told() -> None:
    assert told("flute, 2 oboes, harp 7", FLUTE, OBOES, Line("harp", "plucked")) == [("number-not-read", "7")]


def test_the_sum_of_all_players_is_held() -> None:
    assert told("3 players: flute, 2 oboes", FLUTE, OBOES) == []


@pytest.mark.parametrize("text", ["strings, Ten, hn", "Woodwind 1 (Flute), Woodwind 2 (Clarinet/Ten Sax), Trumpet"])
def test_a_tenor_is_no_number(text: str) -> None:
    assert "number-not-read" not in {one.code for one in read(text).warnings}


@pytest.mark.parametrize("text", ["5-string bass", "1st flute, 2nd flute", "flutes 1, 2 & 3", "no harp, flute"])
def test_what_counts_nobody_is_not_missed(text: str) -> None:
    assert [code for code, _ in told(text, Line("flute", "woodwind", (3, 3)), Line("double-bass", "strings"))] == []


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("clarinet (muta in ottavino), piano", "(muta in ottavino)"),
        ("2 oboes (2nd doubling bass clarinet)", "(2nd doubling bass clarinet)"),
    ],
)
def test_a_player_who_changes_to_the_instrument_of_others_is_told(text: str, place: str) -> None:
    assert [text[one.start : one.end] for one in read(text).warnings if one.code == "strange-doubling"] == [place]


@pytest.mark.parametrize(
    "text",
    [
        "asax (doubling clarinet)",
        "trumpet (also flugelhorn)",
        "horn (also Wagner tuba)",
        "reed 1 (fl, cl, asax)",
        "3 fl (II=picc)",
    ],
)
def test_players_who_change_as_many_do_are_not_told(text: str) -> None:
    assert [one.code for one in read(text).warnings if one.code == "strange-doubling"] == []


def test_figures_for_places_that_have_had_theirs_are_told() -> None:
    warnings = read("Brass: 4, 2, 3, 1; hp: 2; 5").warnings

    assert "second-figures" in {one.code for one in warnings}
