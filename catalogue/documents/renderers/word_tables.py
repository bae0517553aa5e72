"""Tables of a word-processor file: widths, margins, rules, rows that stay whole (Office Open XML, ECMA-376 part 1)."""

from __future__ import annotations

from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.oxml.xmlchemy import BaseOxmlElement
from docx.shared import Pt
from docx.table import Table as WordTable
from docx.table import _Row as WordRow

CELL_MARGIN = 4
"""What is kept free at the right of a cell, in points."""


def keep_whole(row: WordRow) -> None:
    row._tr.get_or_add_trPr().append(OxmlElement("w:cantSplit"))


def rule(row: WordRow, eighths: int = 3) -> None:
    """A rule under a row, its thickness in eighths of a point."""
    for cell in row.cells:
        border(cell._tc.get_or_add_tcPr(), "w:tcBorders", "bottom", eighths)


def border(properties: BaseOxmlElement, group: str, side: str, eighths: int) -> None:
    borders, edge = OxmlElement(group), OxmlElement(f"w:{side}")
    for name, written in (("val", "single"), ("sz", str(eighths)), ("space", "1"), ("color", "000000")):
        edge.set(qn(f"w:{name}"), written)
    borders.append(edge)
    properties.append(borders)


def ways(starts: list[float], end: float) -> list[float]:
    """The way from each place to the next, and from the last to the end."""
    return [until - start for start, until in zip(starts, [*starts[1:], end], strict=True)]


def set_widths(table: WordTable, widths: list[float]) -> None:
    """Give the columns their widths: to the grid, which one word processor reads, and to each cell for the others."""
    table.autofit = False
    set_margins(table)
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Pt(width)
    for row in table.rows:
        for cell, width in zip(row.cells, widths, strict=True):
            cell.width = Pt(width)


def set_margins(table: WordTable) -> None:
    """Let the text of a cell begin at its left edge, so that tables stand in line with the text."""
    margins = OxmlElement("w:tblCellMar")
    for side, width in (("left", 0), ("right", CELL_MARGIN)):
        edge = OxmlElement(f"w:{side}")
        edge.set(qn("w:w"), str(20 * width))
        edge.set(qn("w:type"), "dxa")
        margins.append(edge)
    table._tbl.tblPr.find(qn("w:tblLook")).addprevious(margins)


def to_the_right(table: WordTable, columns: list[float | None], first: int = 0) -> None:
    """Set the text of some columns against their right edge, less so many points that are kept free there.

    The first of ``columns`` is that column of the table.
    """
    places = [(place, free) for place, free in enumerate(columns, first) if free is not None]
    for row in table.rows:
        cells = row.cells
        for place, free in places:
            for paragraph in cells[place].paragraphs:
                paragraph.alignment = WD_ALIGN_PARAGRAPH.RIGHT
                paragraph.paragraph_format.right_indent = Pt(free)
