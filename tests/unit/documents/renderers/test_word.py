"""Word-processor files: styles that can be changed, text that is all there, bytes that stay the same."""

from __future__ import annotations

from io import BytesIO
from uuid import UUID

import docx
import pytest
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.opc.constants import RELATIONSHIP_TYPE
from docx.oxml.ns import qn
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree

from catalogue.documents.model import Document, Entry, Opening, Paper, Section, Style, plain, value
from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.word import render_word
from catalogue.documents.renderers.word_fonts import hidden
from catalogue.documents.renderers.word_styles import word_styles
from catalogue.documents.renderers.word_tables import CELL_MARGIN
from catalogue.documents.sheets.chosen import sheet_of
from tests.reference.documents.house import DOCUMENTS, even, every, texts_without_figures, works_by
from tests.reference.documents.scores import song_entry


def opened(document: Document) -> docx.document.Document:
    return docx.Document(BytesIO(render_word(document)))


def words_of(document: Document) -> str:
    return "".join(element.text or "" for element in opened(document).element.body.iter(qn("w:t")))


def listing(titles: list[str]) -> Document:
    entries = tuple(Entry(value(title, Style.TITLE, exact=True), details=(value(title),)) for title in titles)
    blocks = (Opening(value(titles[0])), Section(value(titles[-1]), entries))
    return Document("works-list-by-category", titles[0], titles[-1], "en-GB", Paper.A4, blocks)


@pytest.mark.parametrize("case", DOCUMENTS)
def test_every_word_but_those_at_drawings_is_in_the_file(case: str) -> None:
    document = DOCUMENTS[case]()
    said = even(words_of(document))

    lost = [plain(text) for text in texts_without_figures(document) if even(plain(text)) not in said]

    assert lost == []


def test_the_styles_are_real_and_paragraphs_wear_them() -> None:
    word = opened(works_by("category"))
    styles = {style.name for style in word.styles}

    assert {style.name for style in word_styles(sheet_of("works-list-by-category", Paper.A4))} <= styles
    assert {"Title", "Heading 1", "LL Entry Title", "LL Entry Detail", "LL Note"} <= {
        paragraph.style.name for paragraph in word.paragraphs
    }


def test_heads_stay_with_what_follows_and_entries_stay_whole() -> None:
    styles = opened(works_by("category")).styles

    assert styles["Heading 1"].paragraph_format.keep_with_next
    assert styles["LL Entry Detail"].paragraph_format.keep_together
    assert styles["LL Entry Title"].paragraph_format.widow_control


def test_pages_are_numbered_by_fields_and_the_first_has_no_head() -> None:
    section = opened(works_by("category")).sections[0]
    codes = [element.text for element in section.footer._element.iter(qn("w:instrText"))]

    assert codes == ["PAGE", "NUMPAGES"]
    assert section.different_first_page_header_footer
    assert "Works by category" in section.header.paragraphs[0].text
    assert section.first_page_header.paragraphs[0].text == ""


def test_tables_repeat_their_head_and_never_split_a_row() -> None:
    (table,) = opened(works_by("year")).tables
    heads = [row._tr.trPr is not None and row._tr.trPr.find(qn("w:tblHeader")) is not None for row in table.rows]

    assert heads == [True] + [False] * (len(table.rows) - 1)
    assert all(row._tr.trPr.find(qn("w:cantSplit")) is not None for row in table.rows[1:])


def test_an_arabic_title_is_marked_as_reading_from_the_right_and_in_its_language() -> None:
    runs = [run for paragraph in opened(works_by("category")).paragraphs for run in paragraph.runs]
    (title,) = [run for run in runs if run.text == "حجر وماء"]

    assert (title.font.rtl, title.italic) == (True, False)
    assert title._r.rPr.find(qn("w:lang")).get(qn("w:bidi")) == "ar"


def test_a_japanese_title_stays_upright() -> None:
    opening = Opening(value("水の暦", Style.TITLE, "ja"), composer=value("Mizu", Style.TITLE))
    paragraphs = opened(Document("k", "t", "a", "en-GB", Paper.A4, (opening,))).paragraphs

    assert [(run.text, run.italic) for one in paragraphs for run in one.runs] == [("Mizu", True), ("水の暦", False)]


def test_figures_end_where_the_column_of_the_sheet_does() -> None:
    (table,) = opened(works_by("year")).tables
    free = 355.7 - 341.7 - CELL_MARGIN
    durations = [row.cells[2].paragraphs[0] for row in table.rows]

    assert {paragraph.alignment for paragraph in durations} == {WD_ALIGN_PARAGRAPH.RIGHT}
    assert {round(paragraph.paragraph_format.right_indent.pt) for paragraph in durations} == {round(free)}


def embedded(document: Document) -> dict[str, dict[str, bytes]]:
    """The faces that a file brings along, each font by its style."""
    table = opened(document).part.part_related_by(RELATIONSHIP_TYPE.FONT_TABLE)
    return {
        font.get(qn("w:name")): {
            etree.QName(kid).localname: hidden(table.related_parts[part].blob, UUID(kid.get(qn("w:fontKey"))))
            for kid in font
            if (part := kid.get(qn("r:id")))
        }
        for font in etree.fromstring(table.blob)
    }


def test_the_faces_come_along_with_the_signs_of_the_document() -> None:
    faces = embedded(works_by("category"))
    arabic = set(TTFont(BytesIO(faces["Noto Naskh Arabic"]["embedRegular"])).getBestCmap())

    assert {name: set(styles) for name, styles in faces.items()} == {
        "Noto Serif": {"embedRegular", "embedBold", "embedItalic"},
        "Noto Sans": {"embedRegular", "embedBold", "embedItalic"},
        "Noto Naskh Arabic": {"embedRegular"},
        "Noto Serif Hebrew": set(),
        "LedgerSigns": set(),
        "Noto Serif JP": set(),
    }
    assert {ord(sign) for sign in "حجروماء"} <= arabic
    assert ord("ب") not in arabic


def test_the_file_says_title_author_and_language() -> None:
    properties = opened(works_by("category")).core_properties

    assert (properties.title, properties.author, properties.language) == ("Works by category", "Ada Quill", "en-GB")


@settings(deadline=None, max_examples=6)
@given(st.lists(st.text(max_size=40), min_size=20, max_size=60))
def test_any_titles_make_a_file_that_opens_and_holds_them(titles: list[str]) -> None:
    said = words_of(listing(titles)).replace("\u00a0", " ")

    assert [title for title in titles if printable(title).replace("\u00a0", " ") not in said] == []


def pictures(document: Document) -> list[str]:
    """What each picture shows in words, in reading order."""
    return [shown.get("descr") for shown in opened(document).element.body.iter(qn("wp:docPr"))]


def test_a_strip_is_a_picture_that_says_its_forces_and_the_key_its_marks() -> None:
    found = pictures(works_by("category"))
    strips = [
        block.strip.title for block in every(works_by("category").blocks) if isinstance(block, Entry) and block.strip
    ]

    assert found[: len(strips)] == strips
    assert found[len(strips) :][:2] == ["a player", "a player who also plays another instrument"]


def test_a_timeline_is_a_picture_with_its_caption_in_words() -> None:
    assert pictures(DOCUMENTS["cues"]()) == [
        "Timeline: movements, cues, minutes; above them the tempo in quarter notes a minute"
    ]


def test_the_strip_of_a_score_stands_on_its_cover_and_at_its_forces() -> None:
    found = pictures(DOCUMENTS["front-matter"]())

    assert len([told for told in found if "players" in told]) >= 2
    assert all(found)


def test_words_that_read_from_the_right_begin_at_the_right_of_their_column() -> None:
    (table,) = [
        one
        for one in opened(song_entry(translation="يمضي الماء،", translation_language="ar")).tables
        if len(one.columns) == 3
    ]
    found = [(cell.text, cell.paragraphs[0]._p.find(f".//{qn('w:bidi')}")) for cell in table.rows[1].cells[1:]]

    assert [(text, bidi is not None) for text, bidi in found] == [("Vandet går,", False), ("يمضي الماء،", True)]


def test_lines_of_a_cell_of_a_form_stand_below_each_other() -> None:
    row = opened(DOCUMENTS["return"]()).tables[1].rows[1]
    said = [[even(one.text) for one in cell.paragraphs] for cell in row.cells[1:6]]

    assert said == [
        ["21 Sept 2024", "19:30"],
        ["Kornspeicher", "Linz, AT"],
        [""],
        ["Kornmarkt Philharmonic, conductor Ilse Brandvik"],
        ["SLACK ROPE", "complete"],
    ]


def test_facts_stay_whole_and_a_few_of_them_together() -> None:
    facts = [
        one
        for one in opened(DOCUMENTS["rider"]()).tables
        if one.rows[0].cells[0].paragraphs[0].style.name == "LL Label"
    ]

    assert len(facts) > 2
    for table in facts:
        rows = list(table.rows)
        assert all(row._tr.find(f".//{qn('w:cantSplit')}") is not None for row in rows)
        if len(rows) <= 4:
            assert all(row.cells[0].paragraphs[0].paragraph_format.keep_with_next for row in rows[:-1])


def test_strings_stay_together_with_their_total() -> None:
    (table,) = [one for one in opened(DOCUMENTS["parts-for-a-performance"]()).tables if len(one.rows) > 10]
    names = [row.cells[1].text for row in table.rows]
    kept = [
        all(one.paragraph_format.keep_with_next for cell in row.cells for one in cell.paragraphs) for row in table.rows
    ]

    first = names.index("Strings")
    assert names[-1] == "Total"
    assert all(kept[first + 1 : -1])


@pytest.mark.parametrize("case", ["parts-for-a-performance", "return", "rider"])
def test_what_is_signed_stays_on_the_page_of_its_last_rows(case: str) -> None:
    document = DOCUMENTS[case]()
    word = opened(document)
    blocks = list(word.iter_inner_content())
    at = max(place for place, block in enumerate(blocks) if isinstance(block, docx.table.Table))
    tables = [place for place, block in enumerate(blocks[:at]) if isinstance(block, docx.table.Table)]

    between = [block for block in blocks[tables[-1] + 1 : at] if not isinstance(block, docx.table.Table)]
    last = [one for cell in blocks[tables[-1]].rows[-1].cells for one in cell.paragraphs]

    assert all(one.paragraph_format.keep_with_next for one in (*between, *last))
