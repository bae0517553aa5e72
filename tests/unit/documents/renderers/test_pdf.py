"""The PDF as a reader finds it: its words, pages, faces, structure, and that it is the same every time."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from catalogue.documents.model import (
    Document,
    Entry,
    Opening,
    Paper,
    Paragraph,
    Section,
    Style,
    Voice,
    plain,
    value,
    wording,
)
from catalogue.documents.reading_order import texts
from catalogue.documents.renderers.pdf.pages import render_pdf
from tests.reference.documents.house import DOCUMENTS, works_by

CASES = tuple(DOCUMENTS)

# What somebody might type as a title to see whether a page runs it: markup of paragraphs, of pages, of PDF itself.
HOSTILE = (
    "<b>Bold</b> & <i>not</i>",
    '<img src="https://elsewhere.example/x.png"/>',
    '<a href="https://elsewhere.example/">here</a>',
    "<font color=\"[[getattr(pow,'__globals__')]]\">x</font>",
    "<para><br/></para>",
    "&lt;&#60;&amp;nbsp;",
    "(unbalanced \\) parenthesis",
    "endstream endobj ET Q",
    "%PDF-1.7 %%EOF",
    "<</S /JavaScript /JS (app.alert(1))>>",
    "{work}: {event}",
    "{{ title }} {% if x %}",
    "${jndi:x} $(x) `x`",
    "=HYPERLINK(1)",
    "</title><script>alert(1)</script>",
    "<?xml version='1.0'?><!DOCTYPE x>",
    "<svg onload=alert(1)>",
)


def pages_of(pdf_bytes: bytes) -> list[list[tuple[float, float, str]]]:
    """The words of each page with their places, read through the ToUnicode maps of the file."""
    with pikepdf.open(BytesIO(pdf_bytes)) as pdf:
        return [placed_words(page) for page in pdf.pages]


def placed_words(page: pikepdf.Page) -> list[tuple[float, float, str]]:
    """What each text object says in all, where it begins."""
    maps = {name: unicode_map(font.ToUnicode.read_bytes().decode()) for name, font in page.Resources.Font.items()}
    found: list[tuple[float, float, str]] = []
    font, x, y, said = "", 0.0, 0.0, ""
    for operands, operator in pikepdf.parse_content_stream(page):
        match str(operator):
            case "BT":
                said = ""
            case "Tf":
                font = str(operands[0])
            case "Tm":
                x, y = float(operands[4]), float(operands[5])
            case "Tj" | "TJ":
                parts = operands[0] if str(operator) == "TJ" else operands
                codes = b"".join(bytes(part) for part in parts if isinstance(part, pikepdf.String))
                said += "".join(maps[font][code] for code in codes)
            case "ET":
                found.append((x, y, said))
    return found


def unicode_map(program: str) -> dict[int, str]:
    pairs = re.findall(r"<([0-9A-F]{2})> <([0-9A-F]*)>", program.partition("endcodespacerange")[2])
    return {int(code, 16): bytes.fromhex(text).decode("utf-16-be") for code, text in pairs}


def words_of(pdf_bytes: bytes) -> str:
    return "\n".join("".join(word for _x, _y, word in page) for page in pages_of(pdf_bytes))


def short(*blocks: Entry | Section | Paragraph, title: str = "A list") -> Document:
    opening = Opening(wording(title), value("Ada Quill"))
    return Document("works-list-by-category", title, "Ada Quill", "en-GB", Paper.A4, (opening, *blocks))


def entry(title: str, details: int = 1) -> Entry:
    lines = tuple(wording("A detail") for _ in range(details))
    return Entry(value(title, Style.TITLE), wording("2024"), details=lines)


def pages_read(document: Document) -> list[str]:
    """The words of each page, one after another."""
    return ["".join(word for _x, _y, word in page) for page in pages_of(render_pdf(document))]


def entries_of(pdf: pikepdf.Pdf, key: str) -> set[str]:
    """What stands under a key in any object of the file."""
    things = [thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary | pikepdf.Stream)]
    return {str(thing.get(key)) for thing in things if key in thing}


@pytest.mark.parametrize("case", CASES)
def test_every_word_of_a_document_is_on_its_pages(case: str) -> None:
    document = DOCUMENTS[case]()
    said = words_of(render_pdf(document)).replace(" ", "")

    lost = [
        plain(text)
        for block in document.blocks
        for text in texts(block)
        if not any(run.right_to_left for run in text) and plain(text).replace(" ", "") not in said
    ]

    assert lost == []


@pytest.mark.parametrize("title", HOSTILE)
def test_a_title_is_never_run_as_markup(title: str) -> None:
    made = render_pdf(short(Section(wording("Orchestra"), (entry(title),)), title=title))

    assert title.replace(" ", "") in words_of(made).replace(" ", "")
    with pikepdf.open(BytesIO(made)) as pdf:
        assert str(pdf.docinfo["/Title"]) == title
        kinds, subtypes = entries_of(pdf, "/S"), entries_of(pdf, "/Subtype")
    assert kinds & {"/URI", "/JavaScript", "/Launch"} == set()
    assert subtypes & {"/Image", "/Link"} == set()


@pytest.mark.parametrize("case", ["works-by-category", "parts-for-a-performance"])
def test_the_same_facts_give_the_same_bytes_in_another_program(case: str) -> None:
    code = (
        "import hashlib; from tests.reference.documents.house import DOCUMENTS; "
        "from catalogue.documents.renderers.pdf.pages import render_pdf; "
        "[render_pdf(make()) for make in list(DOCUMENTS.values())[:2]]; "
        f"print(hashlib.sha256(render_pdf(DOCUMENTS[{case!r}]())).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", code],
            capture_output=True,
            text=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "SOURCE_DATE_EPOCH": day, "PYTHONPATH": str(Path.cwd())},
        ).stdout
        for seed, day in (("1", ""), ("2", "1700000000"))
    }

    assert len(digests) == 1


@pytest.mark.parametrize("case", [case for case in CASES if not case.startswith("front-matter")])
def test_every_page_says_which_it_is_of_how_many(case: str) -> None:
    document = DOCUMENTS[case]()
    pages = pages_of(render_pdf(document))
    word = {"de": "von", "fr": "sur", "it": "di", "es": "de"}.get(document.language, "of")

    folios = ["".join(text for _x, y, text in page if y < 50)[-6:] for page in pages]

    assert folios == [f"{number} {word} {len(pages)}"[-6:] for number in range(1, len(pages) + 1)]


def test_documents_that_are_made_at_the_same_time_do_not_mix() -> None:
    cases = ["works-by-category", "cv", "parts-for-a-performance"] * 2
    alone = [render_pdf(DOCUMENTS[case]()) for case in cases]

    with ThreadPoolExecutor(len(cases)) as pool:
        together = list(pool.map(lambda case: render_pdf(DOCUMENTS[case]()), cases))

    assert together == alone


def test_every_face_is_embedded_and_can_be_read_back() -> None:
    with pikepdf.open(BytesIO(render_pdf(DOCUMENTS["works-by-category"]()))) as pdf:
        fonts = [thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and "/BaseFont" in thing]
        assert all("/FontFile2" in font.FontDescriptor for font in fonts)
        assert all("/ToUnicode" in font for font in fonts)
        assert {str(font.BaseFont) for font in fonts} == {
            "/AAAAAA+NotoSerif-Regular",
            "/AAAAAA+NotoSerif-Italic",
            "/AAAAAB+NotoSerif-Italic",  # of a Russian title, which the codes of Latin texts do not spell
            "/AAAAAA+NotoNaskhArabic-Regular",
        }


def test_the_file_says_its_language_title_author_and_sections() -> None:
    with pikepdf.open(BytesIO(render_pdf(DOCUMENTS["works-by-category-german"]()))) as pdf:
        assert str(pdf.Root.Lang) == "de"
        assert (str(pdf.docinfo["/Title"]), str(pdf.docinfo["/Author"])) == ("Werke nach Gattungen", "Ada Quill")
        with pdf.open_outline() as outline:
            titles = [item.title for item in outline.root]
    assert titles[:2] == ["Orchester", "Soloinstrument und Orchester"]
    assert titles[-1] == "Zum Lesen des Verzeichnisses"


def roles(node: pikepdf.Object) -> list[str]:
    """The roles of a structure tree from the top, in order."""
    kids = node.K if isinstance(node.get("/K"), pikepdf.Array) else [node.get("/K")]
    inner = [role for kid in kids if isinstance(kid, pikepdf.Dictionary) and "/S" in kid for role in roles(kid)]
    return ([str(node.S)] if "/S" in node else []) + inner


def test_the_structure_tree_has_headings_tables_pictures_and_languages() -> None:
    with pikepdf.open(BytesIO(render_pdf(works_by("category")))) as pdf:
        found = roles(pdf.Root.StructTreeRoot)
        languages = {
            str(thing.Lang) for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and "/Lang" in thing
        }
        pictures = {
            str(thing.Alt) for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and "/Alt" in thing
        }
    assert found[:4] == ["/Document", "/P", "/H1", "/P"]
    assert {"/Sect", "/H2", "/H3", "/Figure", "/L", "/LI", "/Lbl", "/LBody"} <= set(found)
    assert {"en-GB", "ar", "ru"} <= languages
    assert any(picture.startswith("11 players: flute doubling alto flute") for picture in pictures)


def test_content_is_marked_and_everything_else_is_an_artifact() -> None:
    with pikepdf.open(BytesIO(render_pdf(DOCUMENTS["parts-for-a-performance"]()))) as pdf:
        depth = 0
        for page in pdf.pages:
            for _operands, operator in pikepdf.parse_content_stream(page):
                if str(operator) in ("BDC", "BMC"):
                    depth += 1
                elif str(operator) == "EMC":
                    depth -= 1
                elif str(operator) in ("Tj", "TJ", "S", "s", "f", "f*", "B", "b"):
                    assert depth > 0
            assert depth == 0


def test_a_section_that_goes_on_says_so_and_an_entry_is_never_split() -> None:
    entries = tuple(entry(f"Piece{number}", details=6) for number in range(20))

    pages = pages_of(render_pdf(short(Section(wording("Orchestra"), entries))))

    for page in pages[1:]:
        assert "".join(word for _x, _y, word in page).count("Orchestra continued") == 1
    for page in pages:
        read = "".join(word for _x, _y, word in page)
        assert read.count("A detail") == 6 * read.count("Piece")


def test_a_head_is_never_left_without_its_first_entry() -> None:
    filling = tuple(entry("Filling", details=4) for _ in range(9))
    for more in range(12):
        first = Section(wording("One"), (*filling, entry("Last", details=more)))
        pages = pages_read(short(first, Section(wording("Heading"), (entry("Under", details=3),))))
        page = next(page for page in pages if "Heading" in page)
        assert page.index("Heading") < page.index("Under")


def test_a_key_stays_whole() -> None:
    notes = tuple(Paragraph(wording(f"Note{number}"), Voice.NOTE) for number in range(8))
    for details in range(0, 40, 3):
        document = short(Section(wording("One"), (entry("E", details),)), Section(wording("Key"), notes, key=True))
        pages = pages_read(document)
        assert len([page for page in pages if "Note" in page]) == 1


def test_total_and_signatures_stay_on_one_page() -> None:
    pages = pages_read(DOCUMENTS["parts-for-a-performance"]())
    (last,) = [page for page in pages if "Total" in page]

    assert all(words in last for words in ("Double bass", "Packed by", "Checked in by"))


def test_letter_keeps_the_left_margin_and_moves_the_right_edge_out() -> None:
    on_a4 = pages_of(render_pdf(works_by("year")))[0]
    on_letter = pages_of(render_pdf(works_by("year", paper=Paper.LETTER)))[0]

    def edge(page: list[tuple[float, float, str]]) -> tuple[float, float]:
        return min(x for x, _y, _word in page), max(x for x, y, _word in page if y < 50)

    (left, right), (letter_left, letter_right) = edge(on_a4), edge(on_letter)
    assert letter_left == left
    assert round(letter_right - right, 1) == 16.7


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext is not installed")
def test_another_reader_finds_arabic_in_its_logical_order(tmp_path: Path) -> None:
    path = tmp_path / "list.pdf"
    path.write_bytes(render_pdf(DOCUMENTS["works-by-category"]()))

    read = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, text=True, check=True).stdout

    assert "حجر وماء" in read
    assert "Два берега (Two Banks)" in read
    assert "First performed by Quayside Choir, Riga, 2019" in read


def test_a_character_that_no_face_has_can_still_be_copied() -> None:
    made = render_pdf(short(entry("\U0001f6a2 Ship")))

    with pikepdf.open(BytesIO(made)) as pdf:
        code = pdf.pages[0].Contents.read_bytes().decode()
        assert "Ship" in words_of(made)
        assert "\U0001f6a2" in words_of(made) or "FEFFD83DDEA2" in code


def test_a_thousand_works_are_set_without_growing_out_of_proportion() -> None:
    entries = tuple(entry(f"Piece {number}", details=4) for number in range(1000))

    pages = pages_of(render_pdf(short(Section(wording("Orchestra"), entries))))

    said = [text for page in pages for *_place, text in page if text.startswith("Piece ")]
    assert said == [f"Piece {number}" for number in range(1000)]


def test_an_unknown_kind_is_set_on_the_plain_sheet() -> None:
    assert "A detail" in words_of(render_pdf(replace(short(entry("Weir")), kind="something-new")))
