"""The programme entry: what is never left out, what is shortened, what this performance is."""

from __future__ import annotations

from catalogue.documents.contents.programme_entry import Room
from catalogue.documents.model import Document, Paragraph, Voice, plain
from catalogue.documents.renderers.plain import render_plain
from catalogue.terms import Clearance
from tests.reference.documents.house import entry
from tests.reference.documents.scores import song_entry


def told(document: Document, voice: Voice) -> list[str]:
    return [plain(block.text) for block in document.blocks if isinstance(block, Paragraph) and block.voice is voice]


def test_credit_is_whole_however_short_the_note() -> None:
    long, short = entry(), entry(room=Room(note=1, life=1))

    assert told(short, Voice.CREDIT) == told(long, Voice.CREDIT)
    assert told(short, Voice.PROSE) == told(short, Voice.LIFE) == told(short, Voice.SIGNED) == []


def test_a_note_of_somebody_else_is_signed_with_the_name() -> None:
    assert told(entry("de"), Voice.SIGNED) == ["Rolf Anders Uferland"]
    assert told(entry(), Voice.SIGNED) == ["A.Q."]


def test_the_performance_of_the_programme_says_what_it_is_and_is_not_told_beside_it() -> None:
    first, second = entry(performance=1), entry(performance=2)

    assert told(first, Voice.CREDIT)[0].endswith("This performance: world premiere.")
    assert told(second, Voice.CREDIT)[0].endswith("This performance: first performance in Japan in these records.")
    assert "First performed" not in str(first.blocks)
    assert "First performed" in str(second.blocks)


def test_the_words_stand_beside_their_translation_once_both_are_cleared() -> None:
    both, alone, neither = (
        song_entry(),
        song_entry(translation_clearance=Clearance.ASKED),
        song_entry(clearance=Clearance.ASKED),
    )
    told = [render_plain(one).decode() for one in (both, alone, neither)]

    assert ["Vandet går,\tThe water goes," in one for one in told] == [True, False, False]
    assert ["Vandet går," in one for one in told] == [True, True, False]
