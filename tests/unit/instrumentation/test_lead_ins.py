"""Sentences that lead to the forces, in the wording of programme notes and catalogues (common practice)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read, shorthand
from catalogue.instrumentation.lead_ins import without_lead


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("The orchestra includes piccolo, two flutes, harp", "picc.2fl – hp"),
        ("Composed in 1888, it calls for an orchestra of 3 flutes, 2 oboes, strings", "3.2.0.0 – str"),
        ("Its five movements are scored for an ensemble of three: flute, viola and harp", "fl – va – hp"),
        ("Besides the solo piano the score requires 2 flutes, harp", "solo pf – 2fl – hp"),
        ("In addition to the solo violin, the concerto calls for 2 flutes, strings", "solo vn – 2fl – str"),
        ("In addition to the strings, the work uses 2 horns", "str – 2hn"),
        ("The first movement, a scherzo, uses 2 horns and strings only", "2hn – str"),
        ("Das Werk ist für 2 Flöten, Harfe und Streicher geschrieben", "2fl – hp – str"),
        ("Scored for flute and harp. Two percussionists are required.", "fl – hp – perc(2)"),
        ("for piano accompanied by string orchestra", "pf – str"),
        ("for harp with the accompaniment of string quartet, flute", "hp – vnI.vnII.va.vc – fl"),
        ("an evening for the rare combination of viola da gamba and theorbo", "gamba – theorbo"),
    ],
)
def test_the_words_before_the_forces_name_nobody(text: str, written: str) -> None:
    reading = read(text)

    assert read(written).lines == reading.lines
    assert [remark.code for remark in reading.warnings] == []


@pytest.mark.parametrize("text", ["Percussion requires 3 players", "The string orchestra includes 2 harps"])
def test_a_subject_that_plays_stays(text: str) -> None:
    assert read(text).lines[0].instrument in ("percussion", "violin-1")
    assert read(text).warnings != ()


def test_places_count_characters_of_the_text_as_it_was_given() -> None:
    text = "The work calls for 2 flutes, glass bowls"
    place = read(text).warnings[0]

    assert text[place.start : place.end] == "glass bowls"
    assert shorthand(read("2 flutes and harp")) == "2fl – hp"


def test_a_text_of_blanks_is_left_at_once() -> None:
    """A search that goes back over blanks would take minutes for these."""
    for text in (f"{' ' * 1_990}flute", f"a{' ' * 1_900}flute", f"the {' ' * 1_900}work"):
        assert without_lead(text) == text
