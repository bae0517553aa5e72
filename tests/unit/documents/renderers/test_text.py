"""The one door from text to what reportlab draws, and what goes through it."""

from __future__ import annotations

import ast
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
DOOR = (f"{PDF}/text.py", "draw_text")

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
    "reportlab.lib.rl_accel",
    "reportlab.pdfbase",
    "reportlab.pdfbase.pdfdoc",
    "reportlab.pdfbase.ttfonts",
    "reportlab.pdfgen.canvas",
    "reportlab.pdfgen.textobject",
}


def calls(tree: ast.Module) -> list[tuple[str, str]]:
    """Every call of a method that draws text, and the function of the module it stands in."""
    found = []
    for outer in tree.body:
        for node in ast.walk(outer):
            if isinstance(node, ast.Attribute) and node.attr in DRAW_TEXT:
                found.append((node.attr, getattr(outer, "name", "")))
    return found


def wrong_doors(sources: dict[str, str]) -> list[tuple[str, str, str]]:
    return [
        (path, function, method)
        for path, source in sources.items()
        for method, function in calls(ast.parse(source))
        if (path, function) != DOOR
    ]


def sources() -> dict[str, str]:
    """The modules that make documents and pages; what is only measured beside them draws as it likes."""
    found = {path.relative_to(ROOT).as_posix(): path.read_text(encoding="utf-8") for path in sorted(ROOT.rglob("*.py"))}
    return {path: source for path, source in found.items() if not path.startswith("benches/")}


def test_text_reaches_reportlab_through_one_function_only() -> None:
    assert wrong_doors(sources()) == []
    assert calls(ast.parse(sources()[DOOR[0]])) != []


@pytest.mark.parametrize("method", sorted(DRAW_TEXT))
def test_another_door_would_be_found(method: str) -> None:
    planted = f"def title(page, text):\n    page.{method}(text)\n"

    assert wrong_doors({f"{PDF}/planted.py": planted}) == [(f"{PDF}/planted.py", "title", method)]


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
