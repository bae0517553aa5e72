"""A document as a table: what it lists, one row an entry, for a spreadsheet or another program.

Only what is listed is carried: entries, lines, rows of tables. Two formats: comma-separated values (RFC 4180, UTF-8
with a byte order mark so that spreadsheets see the letters) and Office Open XML. A text that a spreadsheet would run as
a formula is kept from it.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from datetime import UTC, datetime
from io import BytesIO, StringIO

from xlsxwriter import Workbook

from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Document,
    Entry,
    Line,
    Lines,
    Section,
    Table,
    Text,
    joined,
    plain,
)
from catalogue.documents.renderers.characters import printable
from catalogue.rules.formula_guard import guarded

FIXED = datetime(2000, 1, 1, tzinfo=UTC)
Row = tuple[str, ...]


def render_csv(document: Document) -> bytes:
    written = StringIO()
    csv.writer(written).writerows(tuple(map(guarded, row)) for row in rows_of(document))
    return b"\xef\xbb\xbf" + written.getvalue().encode()


def render_xlsx(document: Document) -> bytes:
    written = BytesIO()
    workbook = Workbook(written, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    workbook.set_properties(
        {"title": printable(document.title)[:255], "author": printable(document.author)[:255], "created": FIXED}
    )
    sheet = workbook.add_worksheet()
    bold = workbook.add_format({"bold": True})
    wrapped = workbook.add_format({"text_wrap": True, "valign": "top"})
    for place, row in enumerate(rows_of(document)):
        for column, text in enumerate(row):
            sheet.write_string(place, column, text[:32767], wrapped if place else bold)
    sheet.freeze_panes(1, 0)
    sheet.autofit(400)
    workbook.close()
    return written.getvalue()


def rows_of(document: Document) -> Iterator[Row]:
    """The head of the table, then its rows, all of one length; an index beside a list is not carried."""
    if document.data is not None:
        yield tuple(plain(column.head) for column in document.data.columns)
        yield from (row[1:] for row in block_rows(document.data, ""))
        return
    rows = [row for block in document.blocks for row in block_rows(block, "")]
    head = heads(document.blocks, labels(document.language))
    yield head
    yield from (row for row in rows if len(row) == len(head))


def heads(blocks: tuple[Block, ...], says: Labels) -> Row:
    """What the columns are called, by what the document lists."""
    for block in blocks:
        if isinstance(block, Table):
            return ("", *(plain(column.head) for column in block.columns))
        if isinstance(block, Section) and any(isinstance(inner, Entry) for inner in block.blocks):
            words = ("Section", "Year", "Number", "Edition", "Title", "Duration", "Details")
            return tuple(says.word(word) for word in words)
    return tuple(says.word(word) for word in ("Section", "Year", "Entry"))


def block_rows(block: Block, section: str) -> Iterator[Row]:
    match block:
        case Section():
            for inner in block.blocks:
                yield from block_rows(inner, plain(block.head))
        case Entry():
            yield entry_row(block, section)
        case Lines():
            yield from (line_row(line, section) for line in block.lines)
        case Table():
            for group in block.groups:
                yield from (tuple(map(printable, (plain(group.label), *map(cell_text, row)))) for row in group.rows)
        case _:
            return


def entry_row(entry: Entry, section: str) -> Row:
    details = "\n".join(printable(plain(detail)) for detail in entry.details)
    said = (entry.year, entry.number, entry.edition, entry.title, entry.figure)
    return (*map(printable, (section, *map(plain, said))), details)


def line_row(line: Line, section: str) -> Row:
    return tuple(map(printable, (section, line.label, plain(line.text))))


def cell_text(cell: Cell) -> str:
    said: Text = joined(cell.lines, "; ")
    return plain(said)
