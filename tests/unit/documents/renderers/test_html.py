"""HTML that holds what was typed as text, and says what language it is in."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from catalogue.documents.model import Document, Entry, Opening, Paper, Style, plain, value, wording
from catalogue.documents.reading_order import texts
from catalogue.documents.renderers.html import html_fragment, render_html
from tests.reference.documents.house import DOCUMENTS, even, works_by
from tests.reference.documents.scores import song_entry


def tree(document: Document) -> ElementTree.Element:
    """The fragment as XML: written so that every element is closed."""
    return ElementTree.fromstring(html_fragment(document).replace("<br>", "<br/>"))  # noqa: S314 (our own text)


@pytest.mark.parametrize("case", DOCUMENTS)
def test_every_word_is_on_the_page_and_no_style_is(case: str) -> None:
    document = DOCUMENTS[case]()
    said = even("".join(tree(document).itertext()))

    assert [plain(text) for block in document.blocks for text in texts(block) if even(plain(text)) not in said] == []
    assert "style=" not in html_fragment(document)


def test_families_of_few_rows_and_pictures_stay_on_one_page_in_print() -> None:
    style = render_html(DOCUMENTS["rider"]()).decode().partition("</style>")[0]

    assert "tr, dd, figure, .signatures { break-inside: avoid; }" in style
    assert "tbody:not(:has(tr:nth-child(9))) { break-inside: avoid; }" in style
    assert '.plan text { font-family: "Noto Sans"' in style


def test_what_was_typed_is_never_markup() -> None:
    entry = Entry(value("<script>alert('1')</script>\x00&amp;", Style.TITLE))
    document = Document("k", "<t>", '"', "en-GB", Paper.A4, (Opening(value("</h1>")), entry))

    assert "".join(tree(document).itertext()).split() == ["</h1>", "<script>alert('1')</script>&amp;"]
    assert b"<script>" not in render_html(document)


def test_a_title_in_another_script_says_its_language_and_direction() -> None:
    fragment = html_fragment(works_by("category"))

    assert '<i lang="ar" dir="rtl">حجر وماء</i> <i lang="ar-Latn">Ḥajar wa-māʾ</i> (Stone and Water)' in fragment
    assert '<i lang="ru">Два берега</i>' in fragment


def test_headings_begin_where_the_page_wants_them() -> None:
    document = Document("k", "t", "a", "en-GB", Paper.A4, (Opening(wording("A list")), Entry(wording("Weir"))))

    assert "<h3>A list</h3>" in html_fragment(document, top=3)
    assert "<h5>Weir</h5>" in html_fragment(document, top=3)


def test_words_beside_their_translation_have_no_margin_and_a_list_without_heads_has_none() -> None:
    words, score = html_fragment(DOCUMENTS["front-matter-of-a-song"]()), html_fragment(DOCUMENTS["front-matter"]())

    assert '<thead><tr><th scope="col" class="words">Danish</th>' in words
    assert '<th scope="row" class="margin"></th>' not in words + score
    assert "<thead>" not in score
    assert "<tfoot><tr>" + '<td class="margin"></td>' in score


def test_words_that_read_from_the_right_begin_at_the_right_of_their_column() -> None:
    page = html_fragment(song_entry(translation="يمضي الماء،", translation_language="ar"))

    assert page.count('<td class="translation" dir="rtl"><bdi lang="ar" dir="rtl">') == 1
    assert '<td class="words"><bdi lang="da">' in page


def test_a_unit_keeps_to_its_figure_and_a_figure_to_what_counts() -> None:
    blocks = (Opening(value("String Quartet No. 2"), subtitle=value("21 min, 48 kHz, 4 songs")),)

    page = html_fragment(Document("rider", "Quartet", "Ilka Marovand", "en-GB", Paper.A4, blocks))

    assert "No.\xa02" in page
    assert "21\xa0min, 48\xa0kHz, 4 songs" in page
