from __future__ import annotations

from io import BytesIO

import pikepdf
import pytest

from catalogue.exchange.score_covers import CoverError, with_cover


def pdf_of(*widths: int, author: str = "") -> bytes:
    """Return a PDF whose pages are known by their widths."""
    written = BytesIO()
    with pikepdf.new() as pdf:
        for width in widths:
            pdf.add_blank_page(page_size=(width, 800))
            pdf.pages[-1].obj.PieceInfo = pikepdf.Dictionary(Author=author)
        if author:
            pdf.docinfo["/Author"] = author
        pdf.save(written)
    return written.getvalue()


@pytest.fixture
def score() -> BytesIO:
    return BytesIO(pdf_of(101, 102, 103, author="Ilka Marovand"))


def widths(content: bytes) -> list[int]:
    with pikepdf.open(BytesIO(content)) as pdf:
        return [int(page.mediabox[2]) for page in pdf.pages]


def test_a_cover_takes_the_place_of_the_first_pages(score: BytesIO) -> None:
    assert widths(with_cover(score, pdf_of(200), without=2)) == [200, 103]
    assert widths(with_cover(score, pdf_of(200))) == [200, 101, 102, 103]


def test_nothing_that_the_file_says_of_itself_is_taken_over(score: BytesIO) -> None:
    assert b"Marovand" in score.getvalue()
    assert b"Marovand" not in with_cover(score, pdf_of(200))


def test_a_score_that_is_all_cover_is_refused(score: BytesIO) -> None:
    with pytest.raises(CoverError) as refused:
        with_cover(score, pdf_of(200), without=3)
    assert refused.value.reason == "The score has 3 pages; 3 of them cannot be its cover."


def test_what_is_no_pdf_is_refused() -> None:
    with pytest.raises(CoverError, match="cannot be opened"):
        with_cover(BytesIO(b"no score"), pdf_of(200))
