from __future__ import annotations

import base64
import zlib
from collections.abc import Callable
from io import BytesIO

import pikepdf
import pytest
from pikepdf import Dictionary, Name, OutlineItem

from catalogue.exchange.pdf_files import PdfError, read_pdf
from catalogue.rules.technical.files import PageSize, PdfFacts
from tests.unit.exchange.hostile_uploads import pdf_with

A4 = (595.28, 841.89)
"""Points; ISO 216 has 210 × 297 mm."""


def facts(change: Callable[[pikepdf.Pdf], None]) -> PdfFacts:
    return read_pdf(BytesIO(pdf_with(change)))


def score(pdf: pikepdf.Pdf) -> None:
    """Four pages: drawn on, empty, drawn on and turned, drawn on and larger."""
    del pdf.pages[0]
    for size in (A4, A4, A4, (841.89, 1190.55)):
        pdf.add_blank_page(page_size=size)
    for number in (0, 2, 3):
        pdf.pages[number].Contents = pdf.make_stream(b"q 1 0 0 RG 0 0 m 9 9 l S Q")
    pdf.pages[1].Contents = pdf.make_stream(b"q 1 0 0 1 0 0 cm Q")
    pdf.pages[2].Rotate = 90
    own = Dictionary(Type=Name.Font, Subtype=Name.TrueType, BaseFont=Name("/ABCDEF+Notes"))
    own.FontDescriptor = Dictionary(Type=Name.FontDescriptor, FontFile2=pdf.make_stream(b""))
    plain = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)
    pdf.pages[0].Resources = Dictionary(Font=Dictionary(A=own, B=plain))
    with pdf.open_outline() as outline:
        outline.root.extend([OutlineItem("I. Ebb", 0), OutlineItem("II. Bore", 2)])


def test_score_says_its_pages_sizes_fonts_and_bookmarks() -> None:
    assert facts(score) == PdfFacts(
        pages=4,
        sizes=(PageSize(210, 297, 2), PageSize(297, 210, 1), PageSize(297, 420, 1)),
        fonts=2,
        loose_fonts=("Helvetica",),
        blank=(2,),
        turned=(3,),
        bookmarks=("I. Ebb", "II. Bore"),
        seen=4,
    )


@pytest.mark.parametrize(
    ("content", "is_blank"),
    [
        (b"", True),
        (b"q Q", True),
        (b"/Foo gs 1 0 0 1 0 0 cm", True),
        (b"BT /F 9 Tf (Ebb) Tj ET", False),
        (b"BT /F 9 Tf [(Ebb)]TJ ET", False),
        (b"/Im Do", False),
        (b"0 0 m 9 9 l\nS", False),
        (b"0 0 9 9 re f*", False),
    ],
)
def test_page_on_which_nothing_is_drawn_is_blank(content: bytes, is_blank: bool) -> None:
    def change(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].Contents = pdf.make_stream(content)

    assert facts(change).blank == ((1,) if is_blank else ())


@pytest.mark.parametrize(("content", "blank"), [(b"1 0 0 1 0 0 cm BT 14 TL ET", (1,)), (b"0 0 9 9 re f", ())])
def test_page_that_is_packed_for_plain_text_is_read(content: bytes, blank: tuple[int, ...]) -> None:
    """As ASCII base-85 (ISO 32000-1, 7.4.3), which ends with ~>."""

    def change(pdf: pikepdf.Pdf) -> None:
        packed = base64.a85encode(zlib.compress(content)) + b"~>"
        filters = pikepdf.Array([Name.ASCII85Decode, Name.FlateDecode])
        pdf.pages[0].Contents = pdf.make_stream(packed, Filter=filters)

    assert facts(change).blank == blank


def test_page_that_is_packed_in_an_unusual_way_is_never_called_blank() -> None:
    def change(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].Contents = pdf.make_stream(b">", Filter=Name.ASCIIHexDecode)

    assert facts(change).blank == ()


def test_locked_score_says_so_and_nothing_else() -> None:
    target, pdf = BytesIO(), pikepdf.new()
    pdf.add_blank_page()
    pdf.save(target, encryption=pikepdf.Encryption(owner="a", user="b"))

    assert read_pdf(target) == PdfFacts(is_locked=True)


def test_score_that_was_cut_off_on_its_way_says_so() -> None:
    whole = pdf_with(score)

    assert [read_pdf(BytesIO(content)).is_damaged for content in (whole, whole[: len(whole) * 9 // 10])] == [
        False,
        True,
    ]


def test_score_that_takes_too_long_is_refused() -> None:
    with pytest.raises(PdfError, match="too long"):
        read_pdf(BytesIO(pdf_with(score)), most_seconds=-1)
