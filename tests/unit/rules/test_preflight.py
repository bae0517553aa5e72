"""Sheet sizes: ISO 216, JIS P 0138, and inches at 25.4 mm."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalogue.rules.preflight import Asked, Offered, PaperError, Sheet, against, read_papers, untold
from catalogue.rules.technical.files import PageSize, PdfFacts

ASKED = Asked(read_papers("A3, B4"), Decimal("7"), Decimal("8.5"), "spiral", "[0-9][0-9] - *.pdf", bookmarks=True)
GOOD = PdfFacts(12, (PageSize(297, 420, 12),), bookmarks=("I",))


@pytest.mark.parametrize(
    ("text", "sides"),
    [
        ("A3", [(297, 420)]),
        ("b4; US letter", [(250, 353), (216, 279)]),
        ("9 × 12 in", [(229, 305)]),
        ("10x13", [(254, 330)]),
        ("33 × 25.4 cm", [(254, 330)]),
        ("257 × 364", [(257, 364)]),
        ("", []),
    ],
)
def test_papers_are_read_by_name_and_by_measure(text: str, sides: list[tuple[int, int]]) -> None:
    assert [(one.short, one.long) for one in read_papers(text)] == sides


def test_paper_that_is_none_is_said_at_its_place() -> None:
    with pytest.raises(PaperError) as caught:
        read_papers("A3, foolscap")

    assert (caught.value.start, caught.value.end) == (4, 12)
    assert caught.value.reason == "“foolscap” is no size of paper; write such as A3, 10 × 13 in or 254 × 330 mm."


def test_what_answers_everything_has_no_remark() -> None:
    offered = Offered("00 - Score.PDF", GOOD, Decimal("7.5"), "Spiral, plastic")

    assert list(against(ASKED, offered)) == []
    assert list(untold(ASKED, offered)) == []
    assert list(against(Asked(), Offered("x.pdf", PdfFacts(1)))) == []


def test_what_no_edition_says_is_told_and_not_taken_as_met() -> None:
    assert list(untold(ASKED, Offered("00 - Score.pdf", GOOD))) == [
        "How high the staves are is not said with an edition; at least 7 mm and at most 8.5 mm is asked for.",
        "How it is bound is not said with an edition; spiral is asked for.",
    ]
    assert list(untold(Asked(stave_most=Decimal(8), binding="spiral"), Offered("a.pdf", GOOD, binding="spiral"))) == [
        "How high the staves are is not said with an edition; at most 8 mm is asked for."
    ]
    assert list(untold(Asked(), Offered("a.pdf", GOOD))) == []


def test_each_thing_that_does_not_answer_is_said() -> None:
    pdf = PdfFacts(4, (PageSize(420, 297, 3), PageSize(210, 297, 1)), loose_fonts=("Quill",), turned=(3,))

    assert list(against(ASKED, Offered("score.pdf", pdf, Decimal("6.50"), "stapled"))) == [
        "1 page is 210 × 297 mm; A3 or B4 is asked for.",
        "Fonts are not embedded: Quill.",
        "Pages are turned: 3.",
        "The file has no bookmarks.",
        "The name of the file does not follow [0-9][0-9] - *.pdf.",
        "Staves are 6.5 mm high; at least 7 mm is asked for.",
        "Bound as stapled; spiral is asked for.",
    ]


def test_staves_that_are_too_high_and_files_that_are_locked_are_said() -> None:
    asked = Asked((Sheet("A4", 210, 297),), stave_most=Decimal(8))

    assert list(against(asked, Offered("a.pdf", PdfFacts(1), Decimal(9)))) == [
        "Staves are 9 mm high; at most 8 mm is asked for."
    ]
    assert list(against(asked, Offered("a.pdf", PdfFacts(is_locked=True)))) == [
        "The file is locked; a library cannot print it."
    ]
    assert list(against(Asked(), Offered("a.pdf", PdfFacts(1, is_damaged=True)))) == [
        "The file is damaged; not every printer takes it."
    ]
