"""The papers as word-processor files, opened by a word processor that had no part in writing them."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from catalogue.documents.model import Legend, Section
from catalogue.documents.reading_order import texts
from catalogue.documents.registry import render
from tests.reference.demo_papers.papers import Papers, Sheet

pytestmark = [pytest.mark.django_db, pytest.mark.slow]

PROGRAM = shutil.which("soffice")
TITLES = ("The Ninth Kilometre Stone", "Litany of Tools", "Ghurfa tuṭillu ʿalā z-zaytūn")
MARKS = re.compile(r"[\s\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")


@pytest.fixture(scope="module")
def printed(papers: Papers, tmp_path_factory: pytest.TempPathFactory) -> list[tuple[Sheet, Path]]:
    """The papers with what the word processor prints of each."""
    if PROGRAM is None:
        pytest.skip("LibreOffice is not installed (libreoffice-writer), so no word processor opened the papers.")
    folder = tmp_path_factory.mktemp("word")
    chosen = [*papers.lists, *papers.entries[:4], *(sheet for sheet in papers.checklists if sheet.name in TITLES)]
    files = [folder / f"{place:02}.docx" for place in range(len(chosen))]
    for sheet, path in zip(chosen, files, strict=True):
        path.write_bytes(render(sheet.document, "docx"))
    home = f"-env:UserInstallation=file://{folder}/home"
    command = [PROGRAM, home, "--headless", "--convert-to", "pdf", "--outdir", str(folder), *map(str, files)]
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    return [(sheet, path.with_suffix(".pdf")) for sheet, path in zip(chosen, files, strict=True)]


def read(path: Path, *options: str) -> str:
    command = ["pdftotext", *options, "-enc", "UTF-8", str(path), "-"]
    return subprocess.run(command, check=True, capture_output=True).stdout.decode()


def bare(text: str) -> str:
    """Only the signs: no spaces, no marks of direction, hyphens of one kind."""
    return MARKS.sub("", text).replace("\u2011", "-")


def said(sheet: Sheet) -> set[str]:
    """What a paper says in Latin letters, run by run; the strips and the key to them are not in such a file."""
    found: set[str] = set()
    for block in sheet.document.blocks:
        inner = block.blocks if isinstance(block, Section) else (block,)
        for one in inner:
            if not isinstance(one, Legend):
                found.update(bare(run.text) for text in texts(one) for run in text if not run.language)
    return {text for text in found if len(text) > 3}


def test_every_paper_opens_with_as_many_pages_as_its_pdf(printed: list[tuple[Sheet, Path]]) -> None:
    """Give or take one: the word processor sets it in the faces that it has."""
    numbers = {
        sheet.name: (len(read(path).removesuffix("\f").split("\f")), len(sheet.pages)) for sheet, path in printed
    }

    assert {name: pages for name, pages in numbers.items() if abs(pages[0] - pages[1]) > 1} == {}


def test_every_sentence_is_in_what_the_word_processor_prints(printed: list[tuple[Sheet, Path]]) -> None:
    for sheet, path in printed:
        text = bare(read(path, "-raw"))
        lost = {one for one in said(sheet) if one not in text}

        assert len(said(sheet)) > 10
        assert (sheet.name, {one for one in lost if one not in bare(read(path))}) == (sheet.name, set())


def test_pages_are_counted_and_heads_of_tables_told_again(printed: list[tuple[Sheet, Path]]) -> None:
    for sheet, path in printed:
        pages = read(path, "-layout").removesuffix("\f").split("\f")
        told = [re.findall(r"(\d+) of (\d+)$", page.rstrip())[-1] for page in pages]
        head = {"works-list-by-year": "Title and forces", "parts-checklist": "Condition and remarks"}

        assert (sheet.name, told) == (sheet.name, [(str(page + 1), str(len(pages))) for page in range(len(pages))])
        assert all(head.get(sheet.document.kind, "") in page for page in pages if page.count("\n") > 12)
