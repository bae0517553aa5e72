"""Markdown that another reader reads back as what was typed."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from catalogue.documents.model import Document, Entry, Opening, Paper, Paragraph, Style, plain, value
from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.markdown import render_markdown
from tests.reference.documents.house import DOCUMENTS, texts_without_figures

READER = MarkdownIt("commonmark").enable("table")
INVISIBLE = ("em_open", "em_close", "strong_open", "strong_close")
MARKUP = (
    "*a* _b_ `c`",
    "# head",
    "1. one",
    "- item",
    "+ item",
    "> quote",
    "---",
    "===",
    "<b>x</b>",
    "[a](b)",
    "![a](b)",
    "&amp;",
)


def tokens(made: bytes) -> list[Token]:
    found: list[Token] = []
    for token in READER.parse(made.decode()):
        found += [token, *(token.children or ())]
    return found


def read(made: bytes) -> str:
    """What is read, emphasis leaving no trace and every other element a space."""
    return "".join(
        token.content if token.type.startswith("text") else "" if token.type in INVISIBLE else " "
        for token in tokens(made)
    )


@pytest.mark.parametrize("case", DOCUMENTS)
def test_every_word_is_read_back(case: str) -> None:
    document = DOCUMENTS[case]()
    said = " ".join(read(render_markdown(document)).split())

    lost = [plain(text) for text in texts_without_figures(document) if bare(plain(text)) not in said]

    assert lost == []


def bare(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("typed", MARKUP)
def test_what_was_typed_is_never_markup(typed: str) -> None:
    blocks = (Opening(value(typed)), Entry(value(typed, Style.TITLE), details=(value(typed),)), Paragraph(value(typed)))
    made = render_markdown(Document("k", "t", "a", "en-GB", Paper.A4, blocks))

    kinds = {token.type for token in tokens(made)}

    assert kinds <= {
        "heading_open", "heading_close", "paragraph_open", "paragraph_close", "inline", "text", "text_special",
        "em_open", "em_close", "softbreak", "hardbreak",
    }  # fmt: skip
    assert bare(read(made)).count(typed) == 4


@settings(deadline=None)
@given(st.text(st.characters(codec="utf-8", exclude_categories=("Zs", "Zl", "Zp", "Cf")), min_size=1, max_size=30))
def test_any_line_is_read_back(typed: str) -> None:
    made = render_markdown(Document("k", "t", "a", "en-GB", Paper.A4, (Paragraph(value(typed, exact=True)),)))

    assert bare(read(made)) == bare(printable(typed))
