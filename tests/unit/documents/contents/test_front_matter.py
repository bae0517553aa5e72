"""The front of a score: chairs that are alike, percussion by player, notes by language, signs with their figures."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from catalogue.documents.contents.front_forces import cents_text, seats_of, together, whole_duration
from catalogue.documents.contents.front_matter import in_language
from catalogue.documents.contents.front_technical import item_text
from catalogue.documents.contents.stage import stage_of
from catalogue.documents.contents.sung_text import pieces, stanzas
from catalogue.documents.labels import labels
from catalogue.documents.model import Legend, Opening, Section, Sign, plain
from catalogue.facts import MovementFacts
from catalogue.instrumentation import read
from catalogue.record_facts import PercussionFacts, PerformanceNoteFacts, SignFacts, WorkRecords
from catalogue.rules.technical.items import Item
from catalogue.rules.technical.reading import read_places
from catalogue.rules.technical.terms import Setup
from catalogue.terms import SignGroup
from catalogue.timing import Duration
from tests.reference.documents.scores import RECORDS, SONG, score, song

ENGLISH = labels("en-GB")


def seats(forces: str, *percussion: PercussionFacts) -> list[tuple[str, str]]:
    return [(one.name, plain(one.also)) for one in together(seats_of(read(forces), percussion, ENGLISH))]


def test_chairs_that_are_alike_stand_in_one_line() -> None:
    assert seats("3(III=picc).0.0.0 – 4.0.0.0") == [
        ("Flute 1–2", ""),
        ("Flute 3", "doubling piccolo; piccolo sounds an octave higher"),
        ("Horn 1–4", ""),
    ]


def test_electronics_say_their_channels_beside_their_name() -> None:
    assert seats("vn, live electronics (8 channels)")[-1] == ("Live electronics", "8 channels")


def test_a_percussionist_whose_instruments_are_listed_beyond_the_text_has_a_line() -> None:
    listed = (PercussionFacts(1, 1, "gong"), PercussionFacts(2, 2, "bells", number=3, pitches="C, D, E"))

    assert seats("perc(1)", *listed) == [("Percussion 1", "gong"), ("Percussion 2", "3 bells (C, D, E)")]
    assert seats("hp", *listed[:1]) == [("Harp", ""), ("Percussion", "gong")]


def test_percussion_keeps_the_list_of_the_text_where_no_other_is_kept() -> None:
    assert seats("perc(1: vibraphone, tam-tam)") == [("Percussion", "1 player; vibraphone, tam-tam")]


def test_choirs_keys_and_several_keyboards_have_their_lines() -> None:
    assert seats("S, SATB choir, cl in Bb(=bcl)") == [
        ("Soprano", ""),
        ("Choir", "SATB"),
        ("Clarinet", "in Bb, doubling bass clarinet"),
    ]


@pytest.mark.parametrize(("cents", "told"), [("50.000", "+50"), ("-16.5", "−16.5"), ("0", "0"), ("200", "+200")])
def test_cents_have_a_sign_and_no_idle_noughts(cents: str, told: str) -> None:
    assert cents_text(Decimal(cents)) == told


def test_whole_duration_is_the_recorded_one_else_the_sum_of_movements_that_are_all_known() -> None:
    movements = (MovementFacts(1, "A", Duration(60)), MovementFacts(2, "B", Duration(90, approximate=True)))

    assert whole_duration(replace(SONG, movements=movements)) == Duration(240)
    assert whole_duration(replace(SONG, duration=None, movements=movements)) == Duration(150, approximate=True)
    assert whole_duration(replace(SONG, duration=None, movements=(*movements, MovementFacts(3, "C")))) is None


def test_notes_of_the_language_go_before_those_of_others_which_stand_in_where_there_are_none() -> None:
    english, german = PerformanceNoteFacts(1, "x", language="en"), PerformanceNoteFacts(2, "x", language="de")
    unnamed = PerformanceNoteFacts(3, "x")

    assert in_language((english, german, unnamed), "en-US") == (english, unnamed)
    assert in_language((english, german), "it") == (english, german)


def test_a_sign_has_its_stave_cents_and_first_bar_and_one_that_cannot_be_drawn_its_words() -> None:
    signs = (
        SignFacts(1, SignGroup.ACCIDENTAL, "sharp", "accidentalSharp", Decimal(100), first_at="bar 2"),
        SignFacts(2, SignGroup.GRAPHIC, "cloud", meaning="Freely.", concerns="all"),
    )
    key = legends(replace(RECORDS, signs=signs))

    told = [(one.drawing is not None, *map(plain, (one.meaning, one.detail, one.figure))) for one in key]
    assert told == [(True, "sharp", "", "+100 cents, from bar 2"), (False, "cloud", "all: Freely.", "")]


def legends(records: WorkRecords) -> list[Sign]:
    sections = (one for one in score(records=records).blocks if isinstance(one, Section))
    found = (block for section in sections for block in section.blocks)
    return [sign for block in found if isinstance(block, Legend) for sign in block.signs]


def test_what_is_needed_names_a_model_for_reference_only() -> None:
    item = Item("Sound", "loudspeakers", 2, "full range", "any eight-inch two-way")

    assert plain(item_text(item, ENGLISH)) == "2 loudspeakers (full range; such as any eight-inch two-way)"


def test_stanzas_keep_their_lines_and_prose_is_parted_at_spaces() -> None:
    assert stanzas("a\nb\n\n\nc") == (("a", "b"), ("c",))
    assert [len(one) for one in pieces(("word " * 200).strip())] == [399, 399, 199]


def test_a_singer_has_one_place_on_the_stage_though_the_name_means_several_elsewhere() -> None:
    stage = stage_of(read("Bar, pf"), Setup(1, "x", places=read_places("baritone; 1; 2\npiano; 0; 1")), ENGLISH)

    assert stage is not None
    assert [(one.name, one.x) for one in stage.things] == [("baritone", 1.0), ("piano", 0.0)]


def test_nothing_unknown_leaves_a_trace_on_the_title_page() -> None:
    bare = replace(SONG, duration=None, text_author="", text_language="")
    page = [one for one in song(bare, body="").blocks if isinstance(one, Opening)][1]

    assert (page.parts, page.life, page.facts, *map(plain, page.foot)) == ((), (), (), "https://quill.example")


def test_a_dedication_and_the_hire_are_told_as_they_were_entered() -> None:
    page = [one for one in score().blocks if isinstance(one, Opening)][1]

    told = [plain(text) for text in (*page.facts, *page.foot)]
    assert told[0] == "To the cooper"
    assert "Parts on hire from the publisher: hire@lockgate.example" in told
