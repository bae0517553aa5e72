"""A document as Markdown (CommonMark 0.31, with pipe tables), for sites and notes.

Every sign that CommonMark could read as markup is escaped in what was typed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby

from catalogue.documents.model import (
    Block,
    Cell,
    Document,
    Entry,
    Figure,
    Leaf,
    Legend,
    Lines,
    Opening,
    Pairs,
    Paragraph,
    Run,
    Section,
    Sign,
    Signatures,
    Style,
    Table,
    Text,
    joined,
)
from catalogue.documents.renderers.characters import printable
from catalogue.drawings.player_strip import Strip

STARTS = re.compile(r"^(\d{1,9})([.)])(?=\s|$)|^([-+=])")
AROUND = {Style.PLAIN: "", Style.TITLE: "*", Style.EMPHASIS: "*", Style.STRONG: "**"}


def render_markdown(document: Document) -> bytes:
    """The document in UTF-8, blocks apart by an empty line."""
    paragraphs = [part for block in document.blocks for part in written(block, 1)]
    if document.dated:
        paragraphs.append(text_of(document.dated))
    return ("\n\n".join(part for part in paragraphs if part) + "\n").encode()


def escaped(text: str) -> str:
    r"""What was typed, as CommonMark reads it back inside a line.

    >>> escaped("*Akt* <b>")
    '\\*Akt\\* \\<b\\>'
    """
    found = printable(text)
    for sign in "\\`*_[]<>#|~&":
        found = found.replace(sign, f"\\{sign}")
    return found


def text_of(text: Text) -> str:
    """A text on a line of its own: what would begin a list or underline a heading there is escaped."""
    return STARTS.sub(lambda found: f"{found[1] or ''}\\{found[2] or found[3]}", "".join(map(run_of, text)))


def run_of(run: Run) -> str:
    """A run between its signs; spaces at its ends stay outside, where emphasis needs them."""
    around = AROUND[run.style]
    inner = escaped(run.text)
    bare = inner.strip()
    if not around or not bare:
        return inner
    return inner.replace(bare, f"{around}{bare}{around}", 1)


def written(block: Block, level: int) -> Iterator[str]:
    match block:
        case Opening():
            yield from opening(block)
        case Section():
            yield f"{'#' * (level + 1)} {text_of(block.head)}"
            yield text_of(block.aside)
            for inner in block.blocks:
                yield from written(inner, level + 1)
        case Paragraph():
            yield text_of(block.text)
        case Entry():
            yield entry(block, level)
        case Lines():
            yield lines(block)
        case Pairs():
            yield "\n".join(
                f"- {text_of(pair.label)}: {text_of(pair.value)}" for group in block.groups for pair in group
            )
        case Table():
            yield table(block)
        case Signatures():
            yield "\n".join(f"- {text_of(line)}: \\_\\_\\_\\_ ({text_of(block.asked)})" for line in block.attested)
        case Legend() if block.head:
            yield f"{'#' * (level + 1)} {text_of(block.head)}"
            yield text_of(block.note)
            yield "\n".join(f"- {told}" for told in map(sign_told, block.signs))
        case Figure() if isinstance(block.drawing, Strip):
            yield text_of(block.caption)
        case Legend() | Figure():
            return


def opening(block: Opening) -> Iterator[str]:
    yield "  \n".join(map(text_of, block.letterhead))
    yield text_of(block.composer)
    yield text_of(block.life)
    yield f"**{text_of(bare(block.title))}**" if block.leaf is Leaf.COVER else f"# {text_of(block.title)}"
    yield text_of(block.subtitle)
    yield text_of(block.above)
    yield text_of(block.aside)
    yield "\n".join(f"- {escaped(part.label)} {text_of(part.text)}" for part in block.parts)
    yield "  \n".join(text_of(text) for text in (*block.facts, *block.foot) if text)


def bare(text: Text) -> Text:
    """The text without emphasis, to stand in one of its own."""
    return tuple(run._replace(style=Style.PLAIN) for run in text)


def sign_told(sign: Sign) -> str:
    return "; ".join(text_of(text) for text in (sign.meaning, sign.detail, sign.figure) if text)


def entry(block: Entry, level: int) -> str:
    """A heading with the title, then year, number, edition and duration, then a line a detail."""
    facts = text_of(joined((*block.margin, block.figure), ", "))
    details = [text_of(detail) for detail in block.details]
    body = "  \n".join(part for part in (facts, *details) if part)
    return f"{'#' * (level + 1)} {text_of(block.title)}\n\n{body}"


def lines(block: Lines) -> str:
    years = []
    for label, group in groupby(block.lines, key=lambda line: line.label):
        years.append("\n".join((f"- {escaped(label)}", *(f"  - {text_of(line.text)}" for line in group))))
    return "\n".join(years)


def table(block: Table) -> str:
    rows = [row_of(("", *(text_of(column.head) for column in block.columns)))]
    rows.append("|" + " --- |" * (len(block.columns) + 1))
    for group in block.groups:
        for place, row in enumerate(group.rows):
            rows.append(row_of(("" if place else text_of(group.label), *map(cell_of, row))))
    if block.total:
        rows.append(row_of(("", *map(cell_of, block.total))))
    return "\n".join(rows)


def row_of(cells: tuple[str, ...]) -> str:
    return "| " + " | ".join(cells) + " |"


def cell_of(cell: Cell) -> str:
    boxes = " ".join(f"☐{mark}" for mark in cell.boxes)
    parts = ("\\_\\_\\_\\_" if cell.blank else "", "<br>".join(map(text_of, cell.lines)), boxes)
    return " ".join(part for part in parts if part)
