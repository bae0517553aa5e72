"""A document as a table: what it lists, one row an entry, for a spreadsheet or another program.

What is listed is carried: entries, lines, rows of one table. A document of several tables or of prose lists no one
thing; it is carried as it is read, a row a paragraph, a fact, or a row of a table under its own head. Two formats:
comma-separated values (RFC 4180, UTF-8 with a byte order mark so that spreadsheets see the letters) and Office Open
XML. A text that a spreadsheet would run as a formula is kept from it.
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
    Pairs,
    Paragraph,
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
    listed = [row for row in rows if len(row) == len(head)]
    if listed and (has_entries(document.blocks) or len(listed) == len(rows)):
        yield head
        yield from listed
    else:
        yield from told_rows(document)


def has_entries(blocks: tuple[Block, ...]) -> bool:
    return any(isinstance(block, Section) and any(isinstance(one, Entry) for one in block.blocks) for block in blocks)


def told_rows(document: Document) -> Iterator[Row]:
    """A document that lists no one thing, in reading order: the section, then what is said, as wide as the widest."""
    says = labels(document.language)
    rows: list[Row] = [(says.word("Section"), says.word("Entry"))]
    rows += [row for block in document.blocks for row in told(block, "")]
    width = max(map(len, rows))
    yield from (row + ("",) * (width - len(row)) for row in rows)


def told(block: Block, section: str) -> Iterator[Row]:
    match block:
        case Section():
            for inner in block.blocks:
                yield from told(inner, printable(plain(block.head)))
        case Paragraph():
            yield (section, printable(plain(block.text)))
        case Pairs():
            for pair in (pair for group in block.groups for pair in group):
                yield (section, printable(plain(pair.label)), printable(plain(pair.value)))
        case Lines():
            yield from ((section, printable(line.label), printable(plain(line.text))) for line in block.lines)
        case Table():
            yield (section, *(printable(plain(column.head)) for column in block.columns))
            for group in block.groups:
                under = printable(plain(group.label)) or section
                yield from ((under, *(printable(cell_text(cell)) for cell in row)) for row in group.rows)
        case _:
            return


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
