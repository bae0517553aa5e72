"""Tables of a word-processor file: widths, margins, rules, rows that stay whole (Office Open XML, ECMA-376 part 1)."""

from __future__ import annotations

from docx.document import Document as WordDocument
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.oxml.xmlchemy import BaseOxmlElement
from docx.shared import Pt
from docx.table import Table as WordTable
from docx.table import _Row as WordRow

from catalogue.documents.model import Cell, Column, Table, from_the_right
from catalogue.documents.sheets.geometry import ColumnSheet, Look

MOST_BOUND, ROWS_BOUND = 4, 2
"""How far back what is signed is bound: so many blocks, so many rows of a table."""
FEW_FACTS = 4
CELL_MARGIN = 4
"""What is kept free at the right of a cell, in points."""
AFTER_BIDI = (
    "w:adjustRightInd", "w:snapToGrid", "w:spacing", "w:ind", "w:contextualSpacing", "w:mirrorIndents",
    "w:suppressOverlap", "w:jc", "w:textDirection", "w:textAlignment", "w:textboxTightWrap", "w:outlineLvl", "w:divId",
    "w:cnfStyle", "w:rPr", "w:sectPr", "w:pPrChange",
)  # fmt: skip
"""What follows the direction of a paragraph among its properties."""


def keep_whole(row: WordRow) -> None:
    row._tr.get_or_add_trPr().append(OxmlElement("w:cantSplit"))


def keep_with_next(row: WordRow) -> None:
    for cell in row.cells:
        for paragraph in cell.paragraphs:
            paragraph.paragraph_format.keep_with_next = True


def keep_facts(table: WordTable) -> None:
    """Have each fact stay on one page, and a few of them together."""
    rows = list(table.rows)
    for place, row in enumerate(rows):
        keep_whole(row)
        if len(rows) <= FEW_FACTS and place < len(rows) - 1:
            keep_with_next(row)


def family_place(table: Table, over: str) -> int:
    """Return in which column the name of a family stands: that of its key, else the second."""
    keys = [column.key for column in table.columns]
    return keys.index(over) if over in keys else 1


def bind_above(word: WordDocument) -> None:
    """Have the last paragraphs of a file stay with what comes next, and with them the last rows of the table above."""
    for block in reversed(list(word.iter_inner_content())[-MOST_BOUND:]):
        if isinstance(block, WordTable):
            for row in block.rows[-ROWS_BOUND:]:
                keep_with_next(row)
            return
        block.paragraph_format.keep_with_next = True


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


def set_widths(table: WordTable, widths: list[float], *, air: float = 0) -> None:
    """Give the columns their widths: to the grid, which one word processor reads, and to each cell for the others.

    ``air`` is what every cell keeps free above its text and below it.
    """
    table.autofit = False
    set_margins(table, air)
    for column, width in zip(table.columns, widths, strict=True):
        column.width = Pt(width)
    for row in table.rows:
        for cell, width in zip(row.cells, widths, strict=True):
            cell.width = Pt(width)


def set_margins(table: WordTable, air: float) -> None:
    """Let the text of a cell begin at its left edge, so that tables stand in line with the text."""
    margins = OxmlElement("w:tblCellMar")
    for side, width in (("top", air), ("left", 0), ("bottom", air), ("right", CELL_MARGIN)):
        edge = OxmlElement(f"w:{side}")
        edge.set(qn("w:w"), str(round(20 * width)))
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


def set_looks(table: WordTable, looks: list[Look | None], usual: Look) -> None:
    """Set text below the heads in size and weight of its column where that has a look of its own, italics in theirs."""
    for row in table.rows[1:]:
        for own, cell in zip(looks, row.cells, strict=True):
            look = own or usual
            for run in (run for paragraph in cell.paragraphs for run in paragraph.runs):
                size = look.emphasis if run.italic and look.emphasis else look.size
                if size != usual.size:
                    run.font.size = Pt(size)
                if look.strong:
                    run.font.bold = True


def read_from_the_right(row: WordRow, columns: tuple[Column, ...], cells: tuple[Cell, ...]) -> None:
    """Let running text of a script that reads so begin at the right edge of its cell; a row begins with its label."""
    for column, cell, into in zip(columns, cells, row.cells[1:], strict=True):
        for line, paragraph in zip(cell.lines, into.paragraphs, strict=False):
            if column.by_script and from_the_right(line):
                properties = paragraph._p.get_or_add_pPr()
                properties.insert_element_before(OxmlElement("w:bidi"), *AFTER_BIDI)


# ---- where columns stand


def widths(table: Table, columns: dict[str, ColumnSheet], width: float, start: float = 0) -> list[float]:
    """The way from each column to the next; the last one takes what is left of the ``width``."""
    return ways(starts(table, columns, start), width)


def starts(table: Table, columns: dict[str, ColumnSheet], start: float) -> list[float]:
    found = [min(columns[column.key].x, columns[column.key].end - 24) for column in table.columns]
    return [start, *found[1:]]


def ends(table: Table, columns: dict[str, ColumnSheet], width: float, start: float = 0) -> list[float | None]:
    """What a column that is set against its right edge keeps free there, beside the margin of its cells."""
    found = [columns[column.key] for column in table.columns]
    until = [*starts(table, columns, start)[1:], width]
    return [
        max(nearest - one.end - CELL_MARGIN, 0) if one.right else None
        for one, nearest in zip(found, until, strict=True)
    ]
