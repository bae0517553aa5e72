"""The files of the papers, read by programs other than those that wrote them."""

from __future__ import annotations

import re
import shutil
import subprocess
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pikepdf
import pytest

from catalogue.documents.model import Document, Section, plain
from tests.reference.demo_papers.papers import Papers, Sheet

pytestmark = pytest.mark.django_db

SHOWN = {"Tj", "TJ", "'", '"'}
OPENS, CLOSES = {"BDC", "BMC"}, {"EMC"}
BROAD = {
    "Document",
    "Sect",
    "H1",
    "H2",
    "H3",
    "P",
    "L",
    "LI",
    "Lbl",
    "LBody",
    "Table",
    "TR",
    "TH",
    "TD",
    "Figure",
    "Span",
}


def chosen(papers: Papers) -> tuple[Sheet, ...]:
    """One paper of each sort, and those of the longest lists and of scripts of every kind."""
    titles = {"The Ninth Kilometre Stone", "Niwa no yohaku", "Ghurfa tuṭillu ʿalā z-zaytūn", "Ghost Meter"}
    return (*papers.lists, *papers.entries[:4], *(sheet for sheet in papers.checklists if sheet.name in titles))


def ran(sheet: Sheet, folder: Path, *command: str) -> str:
    """What a program says of a paper's PDF; it has to end well."""
    path = folder / "paper.pdf"
    path.write_bytes(sheet.pdf)
    done = subprocess.run([*command, str(path)], capture_output=True, text=True, check=False)
    assert (sheet.name, done.returncode, done.stderr) == (sheet.name, 0, "")
    return done.stdout


def opened(sheet: Sheet) -> pikepdf.Pdf:
    return pikepdf.open(BytesIO(sheet.pdf))


@pytest.mark.skipif(
    shutil.which("qpdf") is None, reason="qpdf is not installed, so its check of each PDF was not made."
)
def test_qpdf_finds_no_fault(papers: Papers, tmp_path: Path) -> None:
    for sheet in chosen(papers):
        said = ran(sheet, tmp_path, "qpdf", "--check")

        assert (sheet.name, "No syntax or stream encoding errors found" in said) == (sheet.name, True)


def test_every_face_is_embedded_cut_down_and_can_be_read_back(papers: Papers, tmp_path: Path) -> None:
    for sheet in chosen(papers):
        faces = [line.split() for line in ran(sheet, tmp_path, "pdffonts").splitlines()[2:]]

        assert faces
        for face in faces:
            assert (sheet.name, face[0], face[-5:-2]) == (sheet.name, face[0], ["yes", "yes", "yes"])


def test_a_paper_says_its_title_composer_and_language(papers: Papers) -> None:
    for sheet in chosen(papers):
        with opened(sheet) as pdf, pdf.open_metadata() as metadata:
            said = (str(pdf.docinfo["/Title"]), str(pdf.docinfo["/Author"]), str(pdf.Root.Lang))

            assert said == (sheet.document.title, sheet.document.author, sheet.document.language)
            assert metadata["dc:title"] == sheet.document.title
            assert bool(pdf.Root.MarkInfo.Marked)


def test_outline_has_the_heads_of_the_sections_in_order(papers: Papers) -> None:
    for sheet in chosen(papers):
        with opened(sheet) as pdf, pdf.open_outline() as outline:
            assert (sheet.name, [item.title for item in outline.root]) == (sheet.name, heads(sheet.document))


def heads(document: Document) -> list[str]:
    return [plain(block.head) for block in document.blocks if isinstance(block, Section)]


def test_all_text_is_told_as_content_or_as_furniture(papers: Papers) -> None:
    """Every sign is shown between marks: of content, with a number, or of what only repeats or adorns."""
    for sheet in chosen(papers):
        with opened(sheet) as pdf:
            for page in pdf.pages:
                assert (sheet.name, unmarked(page)) == (sheet.name, 0)


def unmarked(page: pikepdf.Page) -> int:
    depth = outside = 0
    for instruction in pikepdf.parse_content_stream(page):
        operator = str(instruction.operator)
        depth += (operator in OPENS) - (operator in CLOSES)
        outside += operator in SHOWN and not depth
    return outside


def test_tags_are_those_of_a_document_and_pictures_say_what_they_show(papers: Papers) -> None:
    for sheet in chosen(papers):
        with opened(sheet) as pdf:
            elements = list(walk(pdf.Root.StructTreeRoot.K))
            kinds = [str(element.S).removeprefix("/") for element in elements]

            assert (sheet.name, set(kinds) - BROAD) == (sheet.name, set())
            assert (sheet.name, kinds.count("H1")) == (sheet.name, 1)
            pictures = [element for element in elements if element.S == "/Figure"]
            assert all(str(picture.Alt).strip() for picture in pictures)
            rows = [element for element in elements if element.S == "/TR"]
            assert all({str(cell.S) for cell in kids(row)} <= {"/TH", "/TD"} for row in rows)


def walk(element: pikepdf.Object) -> list[pikepdf.Object]:
    if isinstance(element, pikepdf.Array):
        return [found for one in element for found in walk(one)]
    if not isinstance(element, pikepdf.Dictionary) or "/S" not in element:
        return []
    return [element, *(walk(element.K) if "/K" in element else [])]


def kids(element: pikepdf.Object) -> list[pikepdf.Object]:
    return [kid for kid in element.get("/K", []) if isinstance(kid, pikepdf.Dictionary) and "/S" in kid]


def test_heads_step_down_one_level_at_a_time(papers: Papers) -> None:
    for sheet in chosen(papers):
        with opened(sheet) as pdf:
            numbers = [
                int(str(one.S)[2:]) for one in walk(pdf.Root.StructTreeRoot.K) if re.match("/H[1-6]", str(one.S))
            ]

            assert (sheet.name, numbers[0]) == (sheet.name, 1)
            assert all(later - earlier <= 1 for earlier, later in pairwise(numbers))
