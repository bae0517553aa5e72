"""A document as a word-processor file (Office Open XML): real styles, real tables, page numbers that are fields.

Player strips, timelines, stages and loudspeakers are pictures, each with its sentence for those who cannot see it. The
left column is a hanging tab.
The same document gives the same bytes.
"""

from __future__ import annotations

from datetime import UTC, datetime
from io import BytesIO

from docx import Document as new_document

from catalogue.documents.model import Document
from catalogue.documents.renderers.archives import timeless
from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.word_blocks import Writer
from catalogue.documents.renderers.word_book import BookWriter
from catalogue.documents.renderers.word_fonts import embed_fonts
from catalogue.documents.sheets.chosen import sheet_for

FIXED = datetime(2000, 1, 1, tzinfo=UTC)


def render_word(document: Document) -> bytes:
    """The document as a file; the same document gives the same bytes."""
    word = new_document()
    sheet = sheet_for(document)
    writer = (BookWriter if sheet.book else Writer)(word, document, sheet)
    for block in document.blocks:
        writer.block(block)
    writer.furniture(document)
    embed_fonts(word)
    properties = word.core_properties
    properties.title, properties.author = printable(document.title)[:255], printable(document.author)[:255]
    properties.language, properties.last_modified_by, properties.comments = document.language, "", ""
    properties.created = properties.modified = FIXED
    properties.revision = 1
    written = BytesIO()
    word.save(written)
    return timeless(written.getvalue())
