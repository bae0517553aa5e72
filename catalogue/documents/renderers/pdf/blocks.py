"""From blocks to measured items: openings, sections, paragraphs, lines, facts."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.model import (
    Block,
    Entry,
    Figure,
    Leaf,
    Legend,
    Line,
    Lines,
    Opening,
    Pairs,
    Paragraph,
    Section,
    Signatures,
    Style,
    Table,
    Text,
    Voice,
    plain,
    wording,
)
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.entries import entry_item
from catalogue.documents.renderers.pdf.facts import lines_apart, pairs_items
from catalogue.documents.renderers.pdf.figures import figure_item
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both, column, depth, lowered, right_line
from catalogue.documents.renderers.pdf.halves import beside
from catalogue.documents.renderers.pdf.keys import legend_items
from catalogue.documents.renderers.pdf.leaves import leaf_item
from catalogue.documents.renderers.pdf.setting import SetLine
from catalogue.documents.renderers.pdf.signatures import signature_items
from catalogue.documents.renderers.pdf.tables import table_items
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import NoteSheet

RULE = 0.7
RUNNING_ON = (Voice.PROSE, Voice.LIFE)
"""Voices whose paragraphs follow one another as one text."""
ASIDE_AIR = 12
NOTED = 2
"""How many rows of a table the note under it stays with."""
LONG = 24
"""A paragraph of more lines than these goes on to the next page where it has to."""


def document_items(blocks: tuple[Block, ...], ground: Ground, parent: Element) -> list[Item]:
    """The items of all blocks; what is to be signed stays with what it attests."""
    items: list[Item] = []
    taken = -1
    for place, block in enumerate(blocks):
        if place == taken:
            continue
        pair = side_by_side(block, blocks[place + 1 : place + 2], ground, parent)
        if pair is not None:
            items.append(pair)
            taken = place + 1
            continue
        made = following_items(block, blocks[place - 1] if place else None, ground, parent)
        if isinstance(block, Section) and place and isinstance(blocks[place - 1], Opening):
            made[0] = replace(made[0], lead=ground.sheet.section.first_lead)
        signed = any(isinstance(later, Signatures) for later in blocks[place + 1 : place + 3])
        if made and signed and (isinstance(block, Table | Paragraph) or stands_whole(block, made, ground)):
            made[-1] = replace(made[-1], keep=True)
        items += made
    return items


def side_by_side(block: Block, after: tuple[Block, ...], ground: Ground, parent: Element) -> Item | None:
    """A section with the one after it, where both are half as wide as the page."""
    if not isinstance(block, Section) or not block.half or not after:
        return None
    (other,) = after
    return beside(block, other, ground, parent, section_items) if isinstance(other, Section) and other.half else None


def following_items(block: Block, before: Block | None, ground: Ground, parent: Element) -> list[Item]:
    """The items of a block by what stands before it: a paragraph of the same text, or facts in the column beside."""
    if isinstance(block, Paragraph):
        later = isinstance(before, Paragraph) and before.voice is block.voice and block.voice in RUNNING_ON
        made = paragraph_items(block, ground, parent, later=later)
    else:
        made = block_items(block, ground, parent)
    if made and isinstance(before, Pairs) and ground.sheet.pairs.stacked:
        made[0] = replace(made[0], lead=0)
    return made


def block_items(block: Block, ground: Ground, parent: Element) -> list[Item]:
    match block:
        case Opening() if block.leaf is not Leaf.NONE and ground.sheet.book is not None:
            return [leaf_item(block, ground.sheet.book, ground, parent)]
        case Opening():
            return opening_items(block, ground, parent)
        case Section():
            return section_items(block, ground, parent)
        case Paragraph():
            return paragraph_items(block, ground, parent)
        case Entry():
            return [entry_item(block, ground, parent)]
        case Lines():
            return lines_items(block, ground, parent)
        case Pairs():
            return pairs_items(block, ground, parent)
        case Table():
            return table_items(block, ground, parent)
        case Legend():
            return legend_items(block, ground, parent)
        case Figure():
            return [figure_item(block, ground, parent)]
        case Signatures():
            return signature_items(block, ground, parent)


# ---- opening


def opening_items(opening: Opening, ground: Ground, parent: Element) -> list[Item]:
    sheet = ground.sheet.opening
    items = letterhead_items(opening, ground, parent)
    above = len(items)
    ends: list[float] = []
    for text, look, lead, role in (
        (opening.composer, sheet.composer, 0.0, "P"),
        (opening.life, sheet.life, sheet.life_lead, "P"),
        (opening.title, sheet.title, sheet.title_lead, "H1"),
        (opening.subtitle, sheet.subtitle, sheet.subtitle_lead, "P"),
    ):
        lines = ground.lines(text, look, ground.width - sheet.x)
        if lines:
            drawing = column(lines, ground.left + sheet.x, look.leading, parent.add(role))
            lead = max(lead, sheet.letterhead_lead) if above and len(items) == above else lead
            items.append(Item(drawing, lead=lead, depth=depth(lines, look.leading), keep=True))
            ends.append(sheet.x + lines[-1].width)
    if not ends:
        return items
    beside, below = asides(opening, ends, ground, parent)
    return [*items[:-1], replace(items[-1], draw=both(items[-1].draw, *beside)), *below]


def letterhead_items(opening: Opening, ground: Ground, parent: Element) -> list[Item]:
    """The lines of a house's letterhead, its name as large as that of a composer."""
    sheet = ground.sheet.opening
    items: list[Item] = []
    for text in opening.letterhead:
        look = sheet.aside if items else sheet.composer
        lines = ground.lines(text, look, ground.width - sheet.x)
        drawing = column(lines, ground.left + sheet.x, look.leading, parent.add("P"))
        items.append(Item(drawing, lead=look.leading if items else 0, depth=depth(lines, look.leading), keep=True))
    return items


def asides(opening: Opening, ends: list[float], ground: Ground, parent: Element) -> tuple[list[Draw], list[Item]]:
    """What stands opposite the kind and over that, where it is clear of the lines that end there; else below."""
    look = ground.sheet.opening.aside
    beside: list[Draw] = []
    below: list[Item] = []
    for rise, text, end in ((look.leading, opening.above, max(ends[-2:])), (0.0, opening.aside, ends[-1])):
        line = ground.line(text, look)
        if text and end + ASIDE_AIR + line.width <= ground.width:
            beside.append(lowered(right_line(line, ground, parent.add("P")), -rise))
        elif text:
            below.append(aside_below(text, ground, parent))
    return beside, below


def aside_below(text: Text, ground: Ground, parent: Element) -> Item:
    """What has no room opposite the opening, on lines of its own below it."""
    sheet = ground.sheet.opening
    lines = ground.lines(text, sheet.aside, ground.width - sheet.x)
    drawing = column(lines, ground.left + sheet.x, sheet.aside.leading, parent.add("P"))
    return Item(drawing, lead=sheet.aside.leading, depth=depth(lines, sheet.aside.leading), keep=True)


# ---- sections


def section_items(section: Section, ground: Ground, parent: Element) -> list[Item]:
    """A head and what stands under it; the head is told again where the section goes on to a new page."""
    sheet = ground.sheet.section
    element = parent.add("Sect")
    head = key_head(section, ground, element) if section.key else plain_head(section, ground, element)
    befores = (None, *section.blocks)
    inner: list[Item] = []
    for block, before in zip(section.blocks, befores, strict=False):
        made = following_items(block, before, ground, element)
        if isinstance(before, Table) and isinstance(block, Paragraph) and block.voice is Voice.NOTE:
            inner[-NOTED:] = [replace(item, keep=True) for item in inner[-NOTED:]]
        inner += made
    if inner:
        inner[0] = replace(inner[0], lead=sheet.after)
    again = Item(continued_head(section, ground), lead=0)
    together = section.key or stands_whole(section, inner, ground)
    for place, item in enumerate(inner):
        item.fresh_lead = item.fresh_lead or (item.lead if item.again else sheet.continued_after)
        item.again = (again, *[replace(one, lead=one.lead or sheet.after) for one in item.again])
        if together:
            item.keep = place < len(inner) - 1
    return [head, *inner]


def stands_whole(block: Block, items: list[Item], ground: Ground) -> bool:
    """Whether a section is short enough to stand on one page."""
    margins = ground.sheet.margins
    page = ground.size.height - margins.last - margins.later
    height = sum(item.lead + item.depth + item.tail for item in items)
    return isinstance(block, Section) and height <= page * ground.sheet.section.whole


def plain_head(section: Section, ground: Ground, element: Element) -> Item:
    sheet = ground.sheet.section
    aside = ground.line(section.aside, sheet.aside)
    beside = aside.width + 12 if section.aside and not sheet.aside_below else 0
    measure = ground.width - sheet.x - beside
    lines = ground.lines(section.head, sheet.head, measure)
    drawings = [column(lines, ground.left + sheet.x, sheet.head.leading, element.add("H2")), bookmark(section)]
    deep = depth(lines, sheet.head.leading)
    if section.aside and sheet.aside_below:
        deep += sheet.aside_below
        drawings.append(lowered(column((aside,), ground.left + sheet.x, sheet.aside.leading, element.add("P")), deep))
    elif section.aside:
        drawings.append(right_line(aside, ground, element.add("P")))
    begins = sheet.begins and not section.runs_on
    return Item(both(*drawings), lead=sheet.lead, depth=deep, keep=True, begins=begins)


def key_head(section: Section, ground: Ground, element: Element) -> Item:
    """The head of a key, under a rule that closes the list."""
    sheet = ground.sheet.section
    item = plain_head(section, ground, element)

    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        item.draw(canvas, y, fresh)
        if not fresh:
            with canvas.artifact():
                canvas.rule(ground.left, ground.right, y - sheet.rule_above, sheet.rule)

    return replace(item, draw=draw, lead=sheet.rule_lead + sheet.rule_above)


def bookmark(section: Section) -> Draw:
    return lambda canvas, y, _fresh: canvas.bookmark(plain(section.head), y)


def continued_head(section: Section, ground: Ground) -> Draw:
    sheet = ground.sheet.section
    word = wording(f" {ground.says.word('continued')}", Style.EMPHASIS)
    line = ground.first_line((*section.head, *word), sheet.head, ground.width - sheet.x)

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.artifact():
            canvas.text(ground.left + sheet.x, y, line)

    return draw


# ---- paragraphs


def paragraph_items(paragraph: Paragraph, ground: Ground, parent: Element, *, later: bool = False) -> list[Item]:
    """A paragraph; one that comes ``later`` in a text begins a little to the right."""
    sheet = note_sheet(paragraph.voice, ground)
    indent = sheet.indent if later else 0.0
    room = ground.width - sheet.x - sheet.short
    lines = ground.lines(paragraph.text, sheet.look, lambda place: room - (0 if place else indent))
    if not lines:
        return []
    lead = sheet.look.leading if later else sheet.lead
    if len(lines) > LONG:
        made = lines_apart(lines, ground.left + sheet.x, sheet.look.leading, parent.add("P"))
        return [replace(made[0], lead=lead), *made[1:]]
    drawing = paragraph_drawing(lines, sheet, indent, ground, parent.add("P"))
    if paragraph.voice is Voice.CLOSING:
        drawing = both(drawing, closing_rule(ground))
    return [Item(drawing, lead=lead, depth=depth(lines, sheet.look.leading))]


def note_sheet(voice: Voice, ground: Ground) -> NoteSheet:
    found: NoteSheet = getattr(ground.sheet, voice.value)
    return found


def paragraph_drawing(
    lines: tuple[SetLine, ...], sheet: NoteSheet, indent: float, ground: Ground, element: Element
) -> Draw:
    if sheet.right:
        return right_line(lines[0], ground, element, short=sheet.short)
    if not indent:
        return column(lines, ground.left + sheet.x, sheet.look.leading, element)

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            for place, line in enumerate(lines):
                canvas.text(ground.left + sheet.x + (0 if place else indent), y + place * sheet.look.leading, line)

    return draw


def closing_rule(ground: Ground) -> Draw:
    sheet = ground.sheet.closing

    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        if not fresh:
            with canvas.artifact():
                canvas.rule(ground.left, ground.right, y - sheet.rule_above, RULE)

    return draw


# ---- lines under a year


def lines_items(block: Lines, ground: Ground, parent: Element) -> list[Item]:
    """The lines of a list; neither its first nor its last stands alone on a page."""
    listed = parent.add("L")
    before = ("", *(line.label for line in block.lines))
    items = [
        line_item(line, ground, listed.add("LI"), labelled=line.label != label)
        for line, label in zip(block.lines, before, strict=False)
    ]
    if len(items) > 1:
        items[0] = replace(items[0], keep=True)
        items[-2] = replace(items[-2], keep=True)
    return [replace(items[0], lead=ground.sheet.lines.first_lead), *items[1:]] if items else items


def line_item(line: Line, ground: Ground, element: Element, *, labelled: bool) -> Item:
    """A line with its turnovers; the label only where it changes, and again on a new page."""
    sheet = ground.sheet.lines
    label = ground.line(wording(line.label), sheet.look)
    lines = ground.lines(line.text, sheet.look, lambda place: ground.width - (sheet.turn_x if place else sheet.text_x))
    marked, body = element.add("Lbl"), element.add("LBody")

    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        if labelled or fresh:
            with canvas.content(marked) if labelled else canvas.artifact():
                canvas.text(ground.left + sheet.label_x, y, label)
        with canvas.content(body):
            for place, one in enumerate(lines):
                canvas.text(
                    ground.left + (sheet.turn_x if place else sheet.text_x), y + place * sheet.look.leading, one
                )

    return Item(draw, lead=sheet.lead, depth=depth(lines, sheet.look.leading))
