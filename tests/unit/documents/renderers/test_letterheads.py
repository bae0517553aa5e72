"""The letterhead of a house, at the head of every format: first, line by line, and never as markup."""

from __future__ import annotations

from base64 import b64decode
from dataclasses import replace
from io import BytesIO
from zipfile import ZipFile

import docx
import pytest
from lxml import html
from markdown_it import MarkdownIt

from catalogue.documents.contents.letterhead import letterhead
from catalogue.documents.model import Adjustments, Document, Logo, Opening, Paper, value
from catalogue.documents.registry import render
from catalogue.facts import HouseFacts
from tests.fact_makers import COMPOSER
from tests.picture_files import picture_file

HOUSE = HouseFacts(
    name="Two <Quays> & *Music*",
    address="4 Quay Street\n\nLeith",
    email="hire@example.org",
    registration="Registered in Leith",
)
LINES = ["Two <Quays> & *Music*", "4 Quay Street, Leith, hire@example.org", "Registered in Leith"]
PICTURE = picture_file(size=(40, 10))
LOGO = Logo(PICTURE, 40, 10, "Two quays")


@pytest.fixture(scope="module")
def paper() -> Document:
    head = letterhead(replace(COMPOSER, house=HOUSE))
    blocks = (Opening(value("Works by year"), value("Ada Quill"), letterhead=head),)
    kept = Adjustments(logo=LOGO)
    return Document("works-list-by-year", "Works", "Ada Quill", "en-GB", Paper.A4, blocks, adjusted=kept)


def test_word_file_begins_with_it_each_line_a_paragraph_and_bears_the_logo(paper: Document) -> None:
    file = render(paper, "docx")

    with ZipFile(BytesIO(file)) as parts:
        held = {name: parts.read(name) for name in parts.namelist()}
    heads = [part for name, part in held.items() if "header" in name]

    first = [made.text for made in docx.Document(BytesIO(file)).paragraphs][:5]
    assert first == [*LINES, "Ada Quill", "Works by year"]
    assert PICTURE in held.values()
    assert sum(b'descr="Two quays"' in head for head in heads) == 1


def test_page_begins_with_it_in_one_paragraph_below_the_logo(paper: Document) -> None:
    (article,) = html.fromstring(render(paper, "html").decode()).xpath("//article")

    (logo,) = article.xpath("./img")
    (head,) = article.xpath("./header/*[1][@class='letterhead']")

    assert (logo.get("alt"), b64decode(logo.get("src").partition(",")[2])) == ("Two quays", PICTURE)
    assert list(head.itertext()) == LINES
    assert [element.tag for element in head] == ["strong", "br", "br"]


def test_markdown_begins_with_it_and_reads_it_back_as_typed(paper: Document) -> None:
    (inline, *_rest) = (
        token for token in MarkdownIt("commonmark").parse(render(paper, "md").decode()) if token.children
    )

    told = ["\n" if child.type == "hardbreak" else child.content for child in inline.children or ()]

    assert "".join(told).split("\n") == LINES


def test_plain_text_begins_with_it(paper: Document) -> None:
    assert render(paper, "txt").decode().splitlines()[:5] == [*LINES, "Ada Quill", "Works by year"]


def test_composer_without_a_house_has_none() -> None:
    assert letterhead(COMPOSER) == ()
