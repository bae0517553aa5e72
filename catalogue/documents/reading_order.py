"""What a document says, text by text, in the order in which it is read."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.documents.model import (
    Block,
    Document,
    Entry,
    Figure,
    Legend,
    Lines,
    Opening,
    Pairs,
    Paragraph,
    Section,
    Signatures,
    Table,
    Text,
)


def texts(block: Block) -> Iterator[Text]:
    """Every text of a block and of what stands in it, in reading order."""
    match block:
        case Opening():
            yield from (
                *block.letterhead,
                block.composer,
                block.life,
                block.title,
                block.subtitle,
                block.above,
                block.aside,
            )
            yield from (*(line.text for line in block.parts), *block.facts, *block.foot)
        case Section():
            yield from (block.head, block.aside)
            for inner in block.blocks:
                yield from texts(inner)
        case Paragraph():
            yield block.text
        case Entry():
            yield from (block.title, *block.margin, block.figure, *block.details)
        case Lines():
            yield from (line.text for line in block.lines)
        case Pairs():
            yield from (text for group in block.groups for pair in group for text in (pair.label, pair.value))
        case Table():
            yield from table_texts(block)
        case Legend():
            yield from (block.head, block.note)
            yield from (text for sign in block.signs for text in (sign.meaning, sign.detail, sign.figure))
        case Figure():
            yield block.caption
        case Signatures():
            yield from (*block.attested, block.asked)


def longest_list(document: Document) -> int:
    """How many lines the longest list of a document has."""
    inner = (one for block in document.blocks if isinstance(block, Section) for one in block.blocks)
    return max((len(one.lines) for one in inner if isinstance(one, Lines)), default=0)


def table_texts(table: Table) -> Iterator[Text]:
    yield from (column.head for column in table.columns)
    for group in table.groups:
        yield group.label
        yield from (text for row in group.rows for cell in row for text in cell.lines)
    yield from (text for cell in table.total for text in cell.lines)
