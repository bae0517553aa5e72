from __future__ import annotations

import pytest

from catalogue.rules.calls.packs import Breach, Naming, Part, Piece, asked_of, breaches, piece_of, told_apart
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.terms import Call, Portal, RecordingRule

MB = 1_000_000
SHORTER = "Send shorter excerpts, or recordings with fewer bits."


@pytest.mark.parametrize(
    ("words", "piece"),
    [
        ("2 bound copies of the score", Piece.SCORE),
        ("score PDF", Piece.SCORE),
        ("sample parts PDF", Piece.PARTS),
        ("programme note of 150 words", Piece.NOTE),
        ("biography, 100 words", Piece.BIOGRAPHY),
        ("curriculum vitae", Piece.CV),
        ("list of compositions with instrumentation", Piece.WORKS_LIST),
        ("performance history of the piece", Piece.PERFORMANCES),
        ("technical rider in English", Piece.RIDER),
        ("photograph with credit", Piece.PHOTOGRAPH),
        ("statement of 500 to 700 words", Piece.STATEMENT),
        ("a writing sample of 15 pages", Piece.SAMPLE),
        ("three letters of recommendation", Piece.REFEREES),
        ("transcripts of all degrees", Piece.CERTIFICATES),
        ("a sealed envelope with name and motto", Piece.ENVELOPE),
        ("entry form", Piece.FORM),
        ("the reed that you prefer", Piece.OTHER),
    ],
)
def test_a_line_of_what_is_to_be_sent_is_known(words: str, piece: Piece) -> None:
    assert piece_of(words) is piece


def test_what_is_asked_stands_in_the_order_of_the_call_and_each_piece_once() -> None:
    call = Call(
        documents=("biography", "score", "score as PDF", "entry form", "identity card form"),
        recording=RecordingRule.REQUIRED,
        note_words=100,
        fee="EUR 20",
    )

    pieces = [one.piece for one in asked_of(call)]

    assert pieces == [
        Piece.BIOGRAPHY, Piece.SCORE, Piece.FORM, Piece.FORM, Piece.RECORDING, Piece.NOTE, Piece.FEE,
    ]  # fmt: skip


def test_a_call_that_lists_nothing_asks_for_the_score() -> None:
    assert [one.piece for one in asked_of(Call(fee="none"))] == [Piece.SCORE]


@pytest.mark.parametrize(
    ("pattern", "title", "name"),
    [
        ("", "Slack Rope", "03-score-Slack-Rope.pdf"),
        ("{surname}_{title}", "Über «Öre»", "Marovand_Uber-Ore.pdf"),
        ("{motto}_{piece}", "Slack Rope", "Grey-Heron_score.pdf"),
        ("{title}_{nothing}_{piece}", "", "score.pdf"),
    ],
)
def test_a_file_is_named_as_the_call_asks(pattern: str, title: str, name: str) -> None:
    naming = Naming(pattern, "Ilka Marovand", "Marovand", "Grey Heron")

    assert naming.file(3, Piece.SCORE, title, "pdf") == name


def test_an_anonymous_file_bears_the_motto_where_the_name_is_asked_for() -> None:
    naming = Naming("{surname}_{name}_{title}", "Ilka Marovand", "Marovand", "Grey Heron", anonymous=True)

    assert naming.file(1, Piece.SCORE, "Slack Rope", "pdf") == "Grey-Heron_Grey-Heron_Slack-Rope.pdf"


def test_files_of_the_same_name_are_told_apart_whatever_their_case() -> None:
    assert told_apart(["a.pdf", "A.pdf", "a.pdf", "b"]) == ["a.pdf", "A-2.pdf", "a-3.pdf", "b"]


def test_words_and_sizes_are_held_against_the_call() -> None:
    portal = Portal(
        statement_least=500, statement_words=700, life_words=100, file_bytes=2_000_000, pack_bytes=3_000_000
    )
    parts = (
        Part(Piece.NOTE, "Slack Rope", words=101),
        Part(Piece.STATEMENT, words=499),
        Part(Piece.BIOGRAPHY, words=100),
        Part(Piece.SCORE, "Slack Rope", size=2_000_001),
        Part(Piece.SCORE, "Long Rope", size=2_000_000),
    )

    found = list(breaches(Call(note_words=100, portal=portal), parts))

    assert found == [
        Breach("The note of “Slack Rope” has 101 words; 100 are the most.", "Write a shorter one."),
        Breach("The statement has 499 words; 500 are the least."),
        Breach("The score of “Slack Rope” has 2.1 MB; a file may have 2 MB."),
        Breach("All files have 4.1 MB together; 3 MB are the most.", SHORTER),
    ]


@pytest.mark.parametrize(
    ("text", "portal"),
    [
        ("Also: a statement of 500 to 700 words, two referees.", Portal(500, 700, referees=2)),
        ("A 300-word statement; biography (max. 1,000 words).", Portal(statement_words=300, life_words=1000)),
        ("Send a two-page CV and a writing sample of 10 to 15 pages.", Portal(cv_pages=2, sample_pages=15)),
        ("For every work we need a score in PDF and a recording.", Portal(pairs=True, formats=("pdf",))),
        ("Three letters of recommendation are required.", Portal(referees=3)),
        ("No file over 20 MB; all files together at most 150 MB.", Portal(file_bytes=20 * MB, pack_bytes=150 * MB)),
        ("Recordings: excerpts of at most five minutes.", Portal(excerpt=300)),
        ("Name the files Surname_Firstname_Title.pdf.", Portal(file_names="{surname}_{title}")),
        ("A programme note of 200 words. The file is called entry-form.pdf.", Portal()),
    ],
)  # fmt: skip
def test_what_a_portal_takes_is_read(text: str, portal: Portal) -> None:
    assert read_call(text).call.portal == portal


def test_a_file_of_a_kind_that_the_call_does_not_take_breaks_a_rule() -> None:
    call = Call(portal=Portal(formats=("pdf", "mp3")))
    parts = [
        Part(Piece.SCORE, "Slack Rope", suffix="pdf"),
        Part(Piece.RECORDING, "Slack Rope", suffix="wav"),
        Part(Piece.PHOTOGRAPH, suffix="jpg"),
    ]

    assert [one.reason for one in breaches(call, parts)] == [
        "The recording of “Slack Rope” is a file of the kind WAV; the call takes MP3."
    ]
