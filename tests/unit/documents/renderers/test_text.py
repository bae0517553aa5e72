"""The one door from text to what reportlab draws, and what goes through it."""

from __future__ import annotations

import ast
import re
from io import BytesIO
from itertools import groupby
from pathlib import Path

import pikepdf
import pytest

import catalogue
from catalogue.documents.model import Text, value
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.setting import set_line
from catalogue.documents.sheets.geometry import ENTRY_DETAIL
from catalogue.documents.sheets.paper import SIZES

ROOT = Path(catalogue.__file__).parent
PDF = "documents/renderers/pdf"

# Everything in reportlab's canvas and text objects that takes a text and puts it on a page.
DRAW_TEXT = {
    "drawString",
    "drawRightString",
    "drawCentredString",
    "drawCenteredString",
    "drawAlignedString",
    "textOut",
    "_textOut",
    "textLine",
    "textLines",
    "_formatText",
    "_shapedTextOut",
    "drawText",
    "beginText",
    "freeTextAnnotation",
    "textAnnotation",
    "linkURL",
}
# What of reportlab may be loaded at all: nothing that reads markup, no charts, no barcodes.
LOADED = {
    "reportlab.lib.utils",
    "reportlab.pdfbase",
    "reportlab.pdfbase.pdfdoc",
    "reportlab.pdfbase.ttfonts",
    "reportlab.pdfgen.canvas",
}


def functions(source: str) -> list[tuple[str, list[ast.AST]]]:
    """Every function and class of a module, and what stands in it; what stands in none under an empty name."""
    return [(getattr(outer, "name", ""), list(ast.walk(outer))) for outer in ast.parse(source).body]


def drawn_by_reportlab(source: str) -> list[str]:
    """Every call of a method of reportlab's that draws text."""
    nodes = [node for _name, inner in functions(source) for node in inner]
    return [node.attr for node in nodes if isinstance(node, ast.Attribute) and node.attr in DRAW_TEXT]


def showing(source: str) -> list[str]:
    """Every function that writes an operator which shows text (ISO 32000-1, table 109)."""
    found = []
    for name, inner in functions(source):
        said = [node.value for node in inner if isinstance(node, ast.Expr)]
        texts = [node for node in inner if isinstance(node, ast.Constant) and isinstance(node.value, str)]
        found += [name for one in texts if one not in said and re.search(r"\bT[jJ]( |$)", str(one.value))]
    return found


def sources() -> dict[str, str]:
    """The modules that make documents and pages; what is only measured beside them draws as it likes."""
    found = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in sorted(ROOT.rglob("*.py"))}
    return {path: source for path, source in found.items() if not path.startswith("benches/")}


def test_text_reaches_the_page_through_one_function_only() -> None:
    assert {path: found for path, source in sources().items() if (found := drawn_by_reportlab(source))} == {}
    papers = {path: source for path, source in sources().items() if path.startswith("documents/")}
    assert {path: found for path, source in papers.items() if (found := showing(source))} == {
        f"{PDF}/text.py": ["operators"]
    }


@pytest.mark.parametrize("method", sorted(DRAW_TEXT))
def test_another_door_would_be_found(method: str) -> None:
    assert drawn_by_reportlab(f"def title(page, text):\n    page.{method}(text)\n") == [method]


def test_another_operator_would_be_found() -> None:
    assert showing('def title(page, text):\n    page.addLiteral(f"({text}) Tj")\n') == ["title"]


def test_nothing_of_reportlab_that_reads_markup_is_loaded() -> None:
    loaded = set()
    for source in sources().values():
        for node in ast.walk(ast.parse(source)):
            if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("reportlab"):
                loaded.add(node.module)
            elif isinstance(node, ast.Import):
                loaded |= {one.name for one in node.names if one.name.startswith("reportlab")}

    assert loaded == LOADED


def operators(text: Text) -> list[tuple[str, list[str]]]:
    """What is written for one line, its baseline 100 above the foot."""
    canvas = Canvas(next(iter(SIZES.values())))
    canvas.text(50, canvas.height - 100, set_line(text, ENTRY_DETAIL, "en-GB"))
    canvas.turn()
    with pikepdf.open(BytesIO(canvas.finish())) as pdf:
        return [
            (str(operator), [str(one) for one in operands])
            for operands, operator in pikepdf.parse_content_stream(pdf.pages[0])
        ]


def test_a_line_begins_where_it_is_put() -> None:
    assert ("Tm", ["1", "0", "0", "1", "50", "100"]) in operators(value("Weir"))


def test_every_mark_and_every_letter_after_marks_stands_at_its_own_height() -> None:
    text = value("شَّدَّةٌ")  # two marks on one letter, each raised by itself, one at once after the other
    (piece,) = set_line(text, ENTRY_DETAIL, "en-GB").pieces

    risen, rises = 0.0, []
    for operator, operands in operators(text):
        if operator == "Ts":
            risen = float(operands[0])
        elif operator in ("Tj", "TJ"):
            rises.append(round(risen, 3))

    heights = [round(glyph.y * piece.size / 1000, 3) for glyph in piece.glyphs]
    assert rises == [height for height, _glyphs in groupby(heights)]
    assert heights.count(0) == 3


def test_text_of_one_look_is_one_text_object() -> None:
    written = [operator for operator, _numbers in operators(value("Across the lock and over the weir"))]

    assert (written.count("BT"), written.count("Tf")) == (1, 1)


def test_what_glyphs_do_not_spell_out_is_told_beside_them() -> None:
    unknown = "\U0001f6a2\U0001f6a3"  # two signs for one empty box
    canvas = Canvas(next(iter(SIZES.values())))
    canvas.text(50, 50, set_line(value(f"Ship {unknown} sails"), ENTRY_DETAIL, "en-GB"))
    canvas.turn()

    with pikepdf.open(BytesIO(canvas.finish())) as pdf:
        told = [
            str(operands[1].ActualText)
            for operands, operator in pikepdf.parse_content_stream(pdf.pages[0])
            if str(operator) == "BDC"
        ]

    assert told == [unknown]
