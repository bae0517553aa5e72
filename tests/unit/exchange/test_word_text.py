from __future__ import annotations

import pytest

from catalogue.exchange.tables import TableError
from catalogue.exchange.word_text import DEEPEST, text_of_file
from tests.unit.exchange.spreadsheets import make_xlsx, make_zip, make_zip_with_link

W = 'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main"'


def docx(body: str, head: str = '<?xml version="1.0"?>') -> bytes:
    document = f"{head}<w:document {W}><w:body>{body}</w:body></w:document>"
    return make_zip({"[Content_Types].xml": b"<Types/>", "word/document.xml": document.encode()})


def paragraph(*runs: str) -> str:
    return f"<w:p>{''.join(f'<w:r><w:t>{run}</w:t></w:r>' for run in runs)}</w:p>"


def reason(content: bytes) -> str:
    with pytest.raises(TableError) as caught:
        text_of_file(content)
    return caught.value.reason


def test_paragraphs_become_lines() -> None:
    body = paragraph("Ash ", "Ferry (2019)") + paragraph() + paragraph("Copper &amp; Hymn")

    assert text_of_file(docx(body)) == "Ash Ferry (2019)\n\nCopper & Hymn\n"


def test_breaks_and_tabs_and_cells_are_told_apart() -> None:
    broken = "<w:p><w:r><w:t>Ash</w:t><w:tab/><w:t>2019</w:t><w:br/><w:t>for flute</w:t></w:r></w:p>"
    cells = "".join(f"<w:tc>{paragraph(text)}</w:tc>" for text in ("Sallow", "8 min"))

    assert text_of_file(docx(broken + f"<w:tbl><w:tr>{cells}</w:tr></w:tbl>")) == (
        "Ash\t2019\nfor flute\nSallow \t8 min \t\n"
    )


def test_deleted_text_and_fields_are_left_out() -> None:
    body = (
        "<w:p><w:del><w:r><w:t>not this</w:t><w:delText>nor this</w:delText></w:r></w:del>"
        "<w:r><w:instrText>PAGE</w:instrText><w:t>Ash Ferry</w:t></w:r></w:p>"
    )

    assert text_of_file(docx(body)) == "Ash Ferry\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_plain_text_is_read_in_any_usual_encoding(encoding: str) -> None:
    assert text_of_file("Étude (2019)\n".encode(encoding)) == "Étude (2019)\n"


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (docx("<w:p>"), "This file is damaged and cannot be read."),
        (docx("", '<!DOCTYPE x [<!ENTITY a "b">]>'), "This file is damaged and cannot be read."),
        (docx("<w:p>" * (DEEPEST + 1)), "This file is too large or too deep to be read; paste its text instead."),
        (docx(paragraph("".join(map(str, range(400_000))))), "This text is too long; paste it in parts."),
        (make_xlsx({"Works": [("Title",)]}), "This is no text of a word processor; DOCX and plain text are read."),
        (make_zip_with_link(), "This file holds a link to another file and is not read."),
        (b"%PDF-1.7", "This file is of another kind; save it as DOCX or plain text, or paste its text."),
        (b"ab\0c", "This is no text; DOCX and plain text are read."),
        (b"x" * 10_000_001, "This file is larger than 10 MB."),
    ],
)
def test_what_is_no_text_or_beyond_all_measure_is_refused(content: bytes, said: str) -> None:
    assert reason(content) == said


def test_zip_bomb_is_refused_before_it_is_unpacked() -> None:
    assert "unpacks to more than" in reason(docx("<w:p>" + " " * 30_000_000 + "</w:p>"))
