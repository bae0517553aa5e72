"""From texts to lines: faces, breaks, shaping."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from catalogue.documents.model import Run, Style, Text, value, wording
from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.pdf.faces import CHAINS, carried_face
from catalogue.documents.renderers.pdf.setting import (
    SIMPLE,
    SetLine,
    all_words,
    characters,
    is_simple,
    set_line,
    set_text,
    simple_parts,
    simple_words,
)
from catalogue.documents.sheets.geometry import CELL, ENTRY_DETAIL, ENTRY_TITLE, SUBTITLE, Look


def read(line: SetLine) -> str:
    return "".join(piece.text for piece in line.pieces)


def faces(text: Text, look: Look = ENTRY_DETAIL) -> list[tuple[str, str]]:
    return [(piece.text, piece.face.name) for piece in set_line(text, look, "en-GB").pieces]


def test_lines_break_at_spaces_and_stay_within_the_measure() -> None:
    lines = set_text(wording("First performed by the players of the lock"), ENTRY_DETAIL, 90, "en-GB")

    assert [read(line) for line in lines] == ["First performed by", "the players of the lock"]
    assert all(line.width <= 90 for line in lines)


def test_a_line_may_have_a_measure_of_its_own() -> None:
    lines = set_text(wording("one two three four"), ENTRY_DETAIL, lambda line: 40 if line else 20, "en-GB")

    assert [read(line) for line in lines] == ["one", "two three", "four"]


def test_a_no_break_space_holds_a_date_together() -> None:
    lines = set_text(wording("Linz, 16\N{NO-BREAK SPACE}May\N{NO-BREAK SPACE}2026"), ENTRY_DETAIL, 60, "en-GB")

    assert [read(line) for line in lines] == ["Linz,", "16\N{NO-BREAK SPACE}May\N{NO-BREAK SPACE}2026"]


def test_a_word_wider_than_the_measure_is_rather_broken_behind_a_hyphen() -> None:
    lines = set_text(value("answering-machine_4.wav", exact=True), ENTRY_DETAIL, 70, "en-GB")

    assert [read(line) for line in lines] == ["answering-", "machine_4.wav"]


def test_a_word_wider_than_the_measure_is_broken_and_nothing_of_it_lost() -> None:
    word = "W" * 200

    lines = set_text(value(word), ENTRY_DETAIL, 100, "en-GB")

    assert "".join(map(read, lines)) == word
    assert all(line.width <= 100 for line in lines)


def test_an_empty_text_has_no_line() -> None:
    assert set_text((), ENTRY_DETAIL, 100, "en-GB") == ()


def test_a_character_is_set_in_the_first_face_that_has_it() -> None:
    assert faces(value("E♭")) == [("E", "NotoSerif-Regular"), ("♭", "LedgerSigns-Regular")]
    assert faces(value("اب"))[0][1] == "NotoNaskhArabic-Regular"
    assert faces(value("אב"))[0][1] == "NotoSerifHebrew-Regular"
    assert faces(value("Ж"), CELL) == [("Ж", "NotoSans-Regular")]


def test_titles_are_slanted_and_upright_again_in_slanted_text() -> None:
    title = (Run("Weir", Style.TITLE),)

    assert faces(title, ENTRY_TITLE) == [("Weir", "NotoSerif-Italic")]
    assert faces(title, SUBTITLE) == [("Weir", "NotoSerif-Regular")]


def test_arabic_letters_join_and_are_set_larger_than_the_text_around_them() -> None:
    (piece,) = set_line(value("بب"), ENTRY_DETAIL, "en-GB").pieces
    (alone,) = set_line(value("ب"), ENTRY_DETAIL, "en-GB").pieces

    assert {glyph.id for glyph in alone.glyphs} != {glyph.id for glyph in piece.glyphs}
    assert piece.width < 2 * alone.width
    assert round(piece.size, 2) == round(8.5 * 1.12, 2)


def test_latin_titles_are_kerned() -> None:
    (piece,) = set_line(wording("AV"), ENTRY_TITLE, "en-GB").pieces

    assert piece.glyphs[0].advance < piece.face.width(piece.glyphs[0].id)


def test_glyphs_stand_for_their_text_in_reading_order() -> None:
    (piece,) = set_line(value("שלום"), ENTRY_DETAIL, "en-GB").pieces

    assert "".join(glyph.source for glyph in reversed(piece.glyphs)) == "שלום"


def test_ideographs_may_break_between_each_other() -> None:
    lines = set_text(value("水の暦水の暦水の暦"), ENTRY_DETAIL, 20, "en-GB")

    assert len(lines) > 1


@settings(deadline=None)
@given(st.text(max_size=80), st.integers(20, 300))
def test_any_text_is_set_within_its_measure_without_losing_a_letter(text: str, measure: int) -> None:
    lines = set_text(value(text), ENTRY_DETAIL, measure, "en-GB")

    def letters(read_text: str) -> list[str]:
        return sorted(sign for sign in read_text if sign.isalnum())

    assert letters("".join(map(read, lines))) == letters(printable(text))


LATIN = st.text(alphabet="ab Ñœ–’′\u00a0.", max_size=24)


@given(st.lists(st.tuples(LATIN, st.sampled_from(Style)), max_size=4))
def test_simple_texts_are_set_as_all_others_are(told: list[tuple[str, Style]]) -> None:
    text = tuple(Run(words_, style) for words_, style in told)
    look = Look("serif", 8.5, emphasis=7)
    assume(is_simple(text))

    quick = list(simple_words(list(simple_parts(text, look))))

    assert quick == list(all_words(characters(text, look, "en"), look))


def test_simple_signs_are_in_every_first_face() -> None:
    faces = [carried_face(names[0]) for names in CHAINS.values()]
    signs = [chr(code) for code in range(0x20, 0x2034) if SIMPLE.fullmatch(chr(code))]

    assert len(signs) > 300
    assert [sign for sign in signs if any(ord(sign) not in face.coverage for face in faces)] == []
    assert [sign for sign in signs if unicodedata.category(sign) in ("Mn", "Me", "Cf", "Cc")] == []


@pytest.mark.parametrize(
    "said", ["never above 85 dB", "at 48 kHz", "after 0,5 s", "less than 3 %", "for 20 min", "piece No. 2"]
)
def test_a_unit_is_never_parted_from_its_figure(said: str) -> None:
    text = (*wording("A level "), *value(f"of {said} "), *wording("and no more"))
    figure = said.rpartition(" ")[0].rpartition(" ")[2]
    parted = (*wording("A level of "), *wording(f"{said.rpartition(' ')[0]} "), *value(said.rpartition(" ")[2]))

    for measure in range(45, 160, 4):
        lines = [read(line).strip() for line in set_text(text, ENTRY_DETAIL, measure, "en-GB")]
        apart = [read(line).strip() for line in set_text(parted, ENTRY_DETAIL, measure, "en-GB")]
        assert not any(line.endswith(figure) for line in (*lines, *apart))


def test_what_only_begins_like_a_unit_may_stand_on_the_next_line() -> None:
    lines = set_text(wording("2 songs"), ENTRY_DETAIL, 20, "en-GB")

    assert read(lines[0]) == "2"
