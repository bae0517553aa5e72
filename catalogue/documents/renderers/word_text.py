"""Texts of a word-processor file: runs in their style, language and direction, boxes to tick, page numbers."""

from __future__ import annotations

import re

from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Pt, RGBColor
from docx.text.paragraph import Paragraph as WordParagraph
from docx.text.run import Run as WordRun

from catalogue.documents.labels import Labels
from catalogue.documents.model import Cell, Run, Style, Text, joined, wording
from catalogue.documents.renderers.characters import held, printable
from catalogue.documents.renderers.word_fonts import SIGNS, complex_face

MUSIC = re.compile("([♭♮♯𝄪𝄫→]+)")
"""The signs that the face of signs has and no other."""
BOX = "\N{BALLOT BOX}"
BLANK = "_" * 8
BLACK = RGBColor(0, 0, 0)


def write_text(
    paragraph: WordParagraph, text: Text, *, size: float | None = None, italic: bool | None = None, black: bool = False
) -> None:
    """Add the runs of a text, each in its style, language and direction, signs of music in their own face."""
    for run in text:
        slanted = italic is not False and run.slants
        for part in parted(run.text):
            made = paragraph.add_run(part)
            if run.style in (Style.TITLE, Style.EMPHASIS) or italic is not None:
                made.italic = slanted
            if black:
                made.font.color.rgb = BLACK
            if size:
                made.font.size = Pt(size)
            dress(made, run)


def parted(text: str) -> list[str]:
    """The text as a file can hold it, its signs of music by themselves.

    >>> parted("II=E♭cl")
    ['II=E', '♭', 'cl']
    """
    if text == "\t":
        return [text]
    return [part for part in MUSIC.split(printable(held(text))) if part] or [""]


def dress(made: WordRun, run: Run) -> None:
    if run.style is Style.STRONG:
        made.bold = True
    if MUSIC.fullmatch(made.text):
        fonts = made._r.get_or_add_rPr().get_or_add_rFonts()
        for script in ("ascii", "hAnsi", "cs", "eastAsia"):
            fonts.set(qn(f"w:{script}"), SIGNS)
    elif run.value and run.right_to_left:
        made.font.rtl = True
        made._r.get_or_add_rPr().get_or_add_rFonts().set(qn("w:cs"), complex_face(run.text))
    set_run_language(made, run)


def set_run_language(made: WordRun, run: Run) -> None:
    if run.language:
        element = OxmlElement("w:lang")
        element.set(qn("w:bidi" if run.right_to_left else "w:val"), run.language)
        made._r.get_or_add_rPr().append(element)


def cell_lines(cell: Cell) -> tuple[Text, ...]:
    """What stands in a cell of a form: boxes with their numbers, or a blank and what follows it, or lines of words."""
    if cell.boxes:
        return (wording("\N{THIN SPACE}".join(f"{BOX}{mark}" for mark in cell.boxes)),)
    return ((Run(f"{BLANK} "), *joined(cell.lines, " ")),) if cell.blank else cell.lines


def resize(runs: list[WordRun], size: float) -> None:
    for run in runs:
        run.font.size = Pt(size)


def field(run: WordRun, code: str) -> None:
    """A field that the word processor fills in."""
    for kind in ("begin", "", "end"):
        if kind:
            element = OxmlElement("w:fldChar")
            element.set(qn("w:fldCharType"), kind)
        else:
            element = OxmlElement("w:instrText")
            element.text = code
        run._r.append(element)


def folio(paragraph: WordParagraph, says: Labels) -> None:
    """Page n of m, both fields."""
    codes = {"page": "PAGE", "pages": "NUMPAGES"}
    for run in says.say("{page} of {pages}", page="page", pages="pages"):
        if run.value:
            field(paragraph.add_run(), codes[run.text])
        else:
            paragraph.add_run(run.text)
