"""What a composer chooses beside the house style, in every format: faces, ink, margins, logo."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from io import BytesIO

import docx
import pikepdf
from docx.oxml.ns import qn
from docx.shared import RGBColor
from lxml import html as reader

from catalogue.documents.model import Adjustments, Document, Paper
from catalogue.documents.renderers.html import render_html
from catalogue.documents.renderers.logos import HIGH, WIDE, logo_size, small_logo
from catalogue.documents.renderers.pdf.pages import render_pdf
from catalogue.documents.renderers.word import render_word
from catalogue.documents.sheets.chosen import sheet_for, sheet_of
from catalogue.documents.sheets.houses import house_of
from catalogue.documents.sheets.paper import MM
from catalogue.terms import FaceFamily, HouseStyle, PaperMargins
from tests.picture_files import picture_file
from tests.reference.documents.house import DOCUMENTS, works_by

CHOSEN = Adjustments(
    FaceFamily.SANS, "#7a1f1f", PaperMargins.NARROW, small_logo(picture_file(size=(400, 100), mode="RGBA"), "A quay")
)


@cache
def worn() -> Document:
    return replace(works_by("category"), adjusted=CHOSEN)


def test_what_is_chosen_stands_instead_of_what_the_style_has() -> None:
    house = house_of(HouseStyle.CLASSIC, CHOSEN)

    assert (house.text, house.scale, house.strong_heads) == ("sans", 0.94, False)
    assert [round(part * 255) for part in house.ink] == [0x7A, 0x1F, 0x1F]
    assert house_of(HouseStyle.CLEAR, Adjustments()) == house_of(HouseStyle.CLEAR)


def test_margins_are_narrow_or_moved_for_binding_but_not_where_pages_are_cut() -> None:
    def sides(kind: str, margins: PaperMargins) -> tuple[int, int]:
        found = sheet_of(kind, Paper.A4, HouseStyle.CLASSIC, Adjustments(margins=margins)).margins
        return round(found.left / MM), round(found.right / MM)

    assert [sides("cv-section", one) for one in PaperMargins] == [(25, 20), (20, 15), (30, 15)]
    assert sides("cue-sheet-pocket", PaperMargins.BOUND) == sides("cue-sheet-pocket", PaperMargins.USUAL)
    assert sides("front-matter", PaperMargins.BOUND) == sides("front-matter", PaperMargins.USUAL)


def test_a_pdf_shows_the_logo_once_with_its_words_and_sets_heads_in_the_ink() -> None:
    with pikepdf.open(BytesIO(render_pdf(worn()))) as pdf:
        code = [page.Contents.read_bytes().decode("latin-1") for page in pdf.pages]
        told = [str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one]

    assert [page.count(" Do") for page in code] == [1] + [0] * (len(code) - 1)
    assert told[0] == "A quay"
    assert "0.478431 0.121569 0.121569 rg" in code[0]
    assert render_pdf(worn()) == render_pdf(worn())


def test_a_word_processor_file_has_the_logo_in_its_first_head_and_the_ink_in_its_styles() -> None:
    word = docx.Document(BytesIO(render_word(worn())))
    (logo,) = word.sections[0].first_page_header._element.iter(qn("wp:docPr"))

    assert logo.get("descr") == "A quay"
    assert word.styles["Heading 1"].font.color.rgb == RGBColor(0x7A, 0x1F, 0x1F)
    assert word.styles["Heading 1"].font.name == "Noto Sans"
    assert round(word.sections[0].left_margin.mm) == 20


def test_a_page_carries_its_style_and_its_logo_in_itself() -> None:
    page = render_html(worn()).decode()
    tree = reader.fromstring(page)
    (logo,) = tree.xpath("//img")
    (style,) = tree.xpath("//head/style")

    assert (logo.get("alt"), logo.get("src")[:22]) == ("A quay", "data:image/png;base64,")
    assert all(said in style.text for said in ("color: #7a1f1f", '"Noto Sans"', "margin: 22mm 15mm 20mm 20mm", "210mm"))
    assert "@media print" in style.text
    assert not any(word in page for word in ("http:", "https:", "url(", "@import"))


def test_every_document_has_its_paper_in_its_style() -> None:
    style = render_html(DOCUMENTS["works-by-year-american"]()).decode()

    assert "@page { size: 216mm 279mm;" in style
    assert not any(name in style.partition("</style>")[0] for name in ("FACE", "HEAVY", "INK", "WIDE", "LEFT", "SIZE"))


def test_a_page_keeps_the_shape_of_the_logo_and_gives_wide_papers_room() -> None:
    upright, wide = (render_html(one).decode() for one in (DOCUMENTS["cv"](), DOCUMENTS["return"]()))

    assert "width: auto; height: auto;" in upright
    assert ("max-width: 42em" in upright, "max-width: 68em" in wide) == (True, True)


def test_a_logo_fits_its_place_and_keeps_its_shape() -> None:
    sheet = sheet_for(worn())
    wide, tall = small_logo(picture_file(size=(800, 100)), "x"), small_logo(picture_file(size=(50, 400)), "x")

    assert logo_size(wide, sheet) == (WIDE, WIDE / 8)
    assert [round(part, 1) for part in logo_size(tall, sheet)] == [round(HIGH * tall.width / tall.height, 1), HIGH]
    assert logo_size(wide, sheet_of("front-matter", Paper.A4)) == (0, 0)
