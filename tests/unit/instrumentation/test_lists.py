"""A plain list put together from pieces that were read before says what reading all of it says."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.instrumentation import lists
from catalogue.instrumentation.reading import read, read_all
from catalogue.instrumentation.vocabulary import instruments

PIECES = (
    "flute", "2 fl", "ob", "2 clarinets", "bass clarinet", "horns", "3 trombones", "2 tpt", "2 hn", "harp", "2 pf",
    "electric guitar", "vn", "2 violins", "viola and cello", "db", "perc", "2 percussion", "marimba", "2 vibraphones",
    "drum kit", "4 gongs", "tam-tam", "bongos", "12 bells", "solo cello", "soprano", "string quartet", "two flutes",
    "flûte", "Klavier und Horn",
)  # fmt: skip
UNCLEAR = (
    "timpani, 3 tom-toms",
    "clarinet, suona et guitar",
    "alto sax, tenor",
    "violins, violas, cellos",
    "6 violins, piano",
    "Kl, Kl, Vc",
    "fl, 2 fl",
    "string quartet, 2 violins",
    "harp, soprano",
    "bongos, percussion",
    "2 fl, 2 ob, 2 cl, 2 bn, 2 hn, 3 gongs",
    "fl(=picc), cl, pf",
    "vn, 120 gongs",
    "cornet, horn, tenor horn",
    "piano, 4 hands",
    "fl, hand bells",
    "solo soprano clarinet, harp",
    "flute",
)


@pytest.fixture(autouse=True)
def nothing_kept(monkeypatch):
    monkeypatch.setattr(lists, "kept", {})


def recalled(text: str):
    return lists.recalled(text, read_all)


@pytest.mark.parametrize(
    "text",
    [
        "fl, cl, vn, vc, pf, 17 bells, 2 gongs",
        "2 pianos, percussion, 17 bells, tam-tam",
        "2 pianos, 2 percussion, 17 bells, tam-tam",
        "soprano, harp and viola, bongos",
        "string quartet, bongos, tam-tam, 3 gongs",
        "solo cello, marimba, 4 gongs, flutes",
    ],
)
def test_list_of_plain_pieces_is_put_together(text):
    assert recalled(text) is not None
    assert recalled(text).to_json() == read_all(text).to_json()


def test_any_two_pieces_say_what_reading_both_says():
    texts = [", ".join(pieces) for pieces in itertools.permutations(PIECES, 2)]
    known = [text for text in texts if recalled(text) is not None]

    assert len(known) > len(texts) // 2
    assert [recalled(text).to_json() for text in known] == [read_all(text).to_json() for text in known]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from(PIECES), min_size=3, max_size=8))
def test_any_pieces_say_what_reading_all_says(pieces):
    text = ", ".join(pieces)
    known = recalled(text)
    assert known is None or known.to_json() == read_all(text).to_json()


@pytest.mark.parametrize("text", UNCLEAR)
def test_list_whose_pieces_bear_on_one_another_is_read_whole(text):
    assert recalled(text) is None
    assert read(text).to_json() == read_all(text).to_json()


def test_piece_is_read_once_whatever_number_stands_before_what_is_noted():
    read_pieces = []

    def reader(text):
        read_pieces.append(text)
        return read_all(text)

    for number in range(2, 30):
        lists.recalled(f"harp and viola, {number} gongs", reader)

    assert read_pieces == ["harp and viola"]


@pytest.mark.parametrize("number", ["", "2 ", "12 "])
def test_pieces_made_of_their_names_alone_say_what_reading_them_says(number):
    names = [row.names[language] for row in instruments().values() for language in ("en-GB", "de", "fr", "it")]
    spelled = {one for name in names for one in (name.singular, name.plural, name.abbreviation)}
    made = {number + one: lists.remembered(number + one, read_all) for one in spelled if lists.PIECE.fullmatch(one)}
    said = {written: piece.lines for written, piece in made.items() if piece is not None and not piece.noted}

    assert len(said) > len(instruments())
    assert said == {written: read_all(written).lines for written in said}


def test_remarks_stand_where_the_pieces_stand():
    text = "fl, 12 bells, harp, 3 gongs"

    assert [(one.code, text[one.start : one.end]) for one in recalled(text).warnings] == [
        ("percussion-players", "12 bells"),
        ("percussion-players", "12 bells"),
        ("percussion-players", "3 gongs"),
    ]


def test_what_is_kept_is_bounded(monkeypatch):
    monkeypatch.setattr(lists, "MOST_KEPT", 10)
    for number in range(2, 60):
        read(f"{number} fl, harp")

    assert len(lists.kept) <= 10


def test_convention_that_is_chosen_is_heard_though_the_pieces_are_kept():
    read("fl, harp")

    assert read("fl, harp").convention == "names"
    assert read("fl, harp", convention="words").convention == "words"


@pytest.mark.slow
def test_every_name_of_the_vocabulary_beside_others_says_what_reading_all_says():
    names = sorted({name for row in instruments().values() for _, name in row.spellings})
    texts = [text for name in names for text in (f"{name}, harp, 2 gongs", f"vn, 2 {name}")]
    known = [text for text in texts if recalled(text) is not None]

    assert len(known) > len(texts) // 3
    assert [text for text in known if recalled(text).to_json() != read_all(text).to_json()] == []
