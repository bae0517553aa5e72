"""A document as plain text: what tests compare and what a mail can carry.

Nothing is wrapped and nothing is aligned by spaces; a tab stands between what a page sets in columns.
"""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.documents.model import (
    Block,
    Cell,
    Document,
    Entry,
    Figure,
    Group,
    Legend,
    Lines,
    Opening,
    Pairs,
    Paragraph,
    Section,
    Signatures,
    Table,
    Text,
    joined,
    plain,
)
from catalogue.documents.renderers.characters import printable
from catalogue.drawings.player_strip import Strip


def render_plain(document: Document) -> bytes:
    """The document in UTF-8, one line a line of content, blocks apart by an empty line."""
    blocks = ["\n".join(map(clean, lines(block))) for block in document.blocks]
    dated = [clean(plain(document.dated))] if document.dated else []
    return "\n\n".join([block for block in blocks if block] + dated).encode() + b"\n"


def clean(line: str) -> str:
    """A line as a file can hold it, with the tabs that stand between its columns."""
    return "\t".join(map(printable, line.split("\t")))


def lines(block: Block) -> Iterator[str]:
    match block:
        case Opening():
            yield from said(*block.letterhead, block.composer, block.life)
            yield from said(block.title, block.subtitle, block.above, block.aside)
            yield from (f"{part.label}\t{plain(part.text)}" for part in block.parts)
            yield from said(*block.facts, *block.foot)
        case Section():
            yield from section_lines(block)
        case Paragraph():
            yield from said(block.text)
        case Entry():
            yield from entry_lines(block)
        case Lines():
            yield from (f"{line.label}\t{plain(line.text)}" for line in block.lines)
        case Pairs():
            yield from (f"{plain(pair.label)}\t{plain(pair.value)}" for group in block.groups for pair in group)
        case Table():
            yield from table_lines(block)
        case Legend():
            yield from said(block.head, block.note)
            yield from ("\t".join(said(sign.meaning, sign.detail, sign.figure)) for sign in block.signs)
        case Figure():
            yield from said(block.caption) if isinstance(block.drawing, Strip) else ()
        case Signatures():
            yield from (f"{plain(line)}\t{plain(block.asked)}" for line in block.attested)


def said(*texts: Text) -> Iterator[str]:
    yield from (plain(text) for text in texts if text)


def section_lines(section: Section) -> Iterator[str]:
    yield "\t".join(said(section.head, section.aside))
    for block in section.blocks:
        if isinstance(block, Entry):
            yield ""
        yield from lines(block)


def entry_lines(entry: Entry) -> Iterator[str]:
    yield "\t".join((plain(joined(entry.margin, ", ")), *said(entry.title, entry.figure)))
    yield from (f"\t{plain(detail)}" for detail in entry.details)


def table_lines(table: Table) -> Iterator[str]:
    if any(column.head for column in table.columns):
        yield "\t".join(plain(column.head) for column in table.columns)
    for group in table.groups:
        yield from group_lines(group)
    if table.total:
        yield "\t".join(map(cell_text, table.total))


def group_lines(group: Group) -> Iterator[str]:
    yield from said(group.label)
    yield from ("\t".join(map(cell_text, row)) for row in group.rows)


def cell_text(cell: Cell) -> str:
    """The text of a cell, lines apart by a stroke, then an empty pair of brackets for each box."""
    boxes = " ".join(f"[{mark}]" for mark in cell.boxes)
    written = " / ".join(plain(line) for line in cell.lines)
    return " ".join(part for part in ("____" if cell.blank else "", written, boxes) if part)
