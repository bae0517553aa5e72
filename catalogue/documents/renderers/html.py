"""A document as HTML: the preview on a page, and a file to put on a site of one's own.

A file carries its house style in itself; on a page the stylesheet knows the classes. What is in another language says
so, what reads from right to left is isolated.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterator
from html import escape
from itertools import groupby

from catalogue.documents.labels import labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Entry,
    Figure,
    Leaf,
    Legend,
    Lines,
    Logo,
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
    from_the_right,
    plain,
)
from catalogue.documents.renderers.characters import held, printable
from catalogue.documents.renderers.house_css import house_css
from catalogue.drawings.player_strip import Strip, to_svg
from catalogue.drawings.sketch import to_svg as sketch_svg
from catalogue.drawings.timeline import Course, timeline
from catalogue.drawings.timeline import to_svg as timeline_svg

STRIP_SCALE = 1.2
FIGURE_WIDE = 512  # units that a timeline is placed for; it is never drawn narrower, but moved along
KEY_WIDE = 200  # units that a sign of a notation key is drawn wide
COVER_SCALE = 2.4
SKETCH_WIDE = 360  # units that a sketch is placed for, so that its words can be read on a phone
FORMS = frozenset(
    ("number", "item", "lack", "input", "output", "speaker", "file", "cue", "place", "when", "change", "who")
)
"""Keys of columns of which tables have one whose groups stand above their rows."""
TAGS = {Style.PLAIN: "", Style.TITLE: "i", Style.EMPHASIS: "em", Style.STRONG: "strong"}


def render_html(document: Document) -> bytes:
    """The document as a page of its own, in UTF-8."""
    head = f'<meta charset="utf-8">\n<title>{clean(document.title)}</title>'
    author = f'<meta name="author" content="{clean(document.author)}">'
    screen = '<meta name="viewport" content="width=device-width, initial-scale=1">'
    style = f"<style>{house_css(document)}</style>"
    body = f"<body>\n<main>\n{html_fragment(document)}\n</main>\n</body>"
    page = f"<head>\n{head}\n{author}\n{screen}\n{style}\n</head>\n{body}"
    return f'<!DOCTYPE html>\n<html lang="{clean(document.language)}">\n{page}\n</html>\n'.encode()


def html_fragment(document: Document, *, top: int = 1) -> str:
    """The document as an element to stand on a page; ``top`` is the level of its first heading."""
    writer = Writer(document, top)
    body = "\n".join(line for block in document.blocks for line in writer.block(block))
    dated = f'\n<p class="folio">{writer.text(document.dated)}</p>' if document.dated else ""
    attributes = f'class="document {clean(document.kind)} house-{document.house}" lang="{clean(document.language)}"'
    return f"<article {attributes}>\n{logo(document.adjusted.logo)}{body}{dated}\n</article>"


def logo(drawn: Logo | None) -> str:
    """The logo as a picture that stands in the page itself."""
    if drawn is None:
        return ""
    source = f"data:image/png;base64,{b64encode(drawn.png).decode()}"
    size = f'width="{drawn.width}" height="{drawn.height}"'
    return f'<img class="logo" src="{source}" alt="{clean(drawn.alternative)}" {size}>\n'


def clean(text: str) -> str:
    """Text as HTML can hold it."""
    return escape(printable(text))


def way(column: Column, cell: Cell) -> str:
    """From which side a cell of running text is set, where that is not the document's own."""
    said = [line for line in cell.lines if plain(line)]
    return ' dir="rtl"' if column.by_script and said and all(map(from_the_right, said)) else ""


class Writer:
    """Writes the blocks of one document; headings begin at level ``top``."""

    def __init__(self, document: Document, top: int) -> None:
        self.says = labels(document.language)
        self.top = top

    def block(self, block: Block) -> Iterator[str]:
        match block:
            case Opening():
                yield from self.opening(block)
            case Section():
                yield from self.section(block)
            case Paragraph():
                yield self.tagged("p", block.voice, block.text)
            case Entry():
                yield from self.entry(block)
            case Lines():
                yield from self.lines(block)
            case Pairs():
                yield from self.pairs(block)
            case Table():
                yield from self.table(block)
            case Legend():
                yield from self.legend(block)
            case Figure():
                yield from self.figure(block)
            case Signatures():
                yield from self.signatures(block)

    # ---- text

    def text(self, text: Text) -> str:
        return "".join(map(self.run, text))

    def run(self, run: Run) -> str:
        attributes = f' lang="{clean(run.language)}"' if run.language else ""
        if run.value and run.right_to_left:
            attributes += ' dir="rtl"'
        tag, text = TAGS[run.style] or ("bdi" if attributes else ""), clean(held(run.text))
        return f"<{tag}{attributes}>{text}</{tag}>" if tag else text

    def tagged(self, tag: str, name: str, text: Text) -> str:
        """An element with its class, or nothing where there is no text."""
        attribute = f' class="{name}"' if name else ""
        return f"<{tag}{attribute}>{self.text(text)}</{tag}>" if text else ""

    def heading(self, level: int, text: Text) -> str:
        return self.tagged(f"h{min(self.top + level, 6)}", "", text)

    # ---- blocks

    def opening(self, opening: Opening) -> Iterator[str]:
        if opening.leaf is not Leaf.NONE:
            yield from self.leaf(opening)
            return
        parts = (
            self.letterhead(opening.letterhead),
            self.tagged("p", "composer", opening.composer),
            self.tagged("p", "life", opening.life),
            self.heading(0, opening.title),
            self.tagged("p", "subtitle", opening.subtitle),
            self.tagged("p", "contact", opening.above),
            self.tagged("p", "contact", opening.aside),
        )
        yield from ("<header>", *filter(None, parts), "</header>")

    def letterhead(self, lines: tuple[Text, ...]) -> str:
        told = "<br>".join(map(self.text, lines))
        return f'<p class="letterhead">{told}</p>' if told else ""

    def leaf(self, opening: Opening) -> Iterator[str]:
        """A cover, whose title is no heading since the title page tells it again, or a title page."""
        is_cover = opening.leaf is Leaf.COVER
        yield f'<{"div" if is_cover else "header"} class="leaf {opening.leaf.replace(" ", "-")}">'
        yield self.tagged("p", "composer", opening.composer)
        yield self.tagged("p", "title", opening.title) if is_cover else self.heading(0, opening.title)
        yield self.tagged("p", "subtitle", opening.subtitle)
        yield self.tagged("p", "life", opening.life)
        if opening.forces:
            yield to_svg(opening.forces, COVER_SCALE)
        if opening.parts:
            items = (f"<li>{clean(part.label)} {self.text(part.text)}</li>" for part in opening.parts)
            yield f'<ul class="parts">{"".join(items)}</ul>'
        yield from (self.tagged("p", "fact", fact) for fact in opening.facts)
        yield from (self.tagged("p", "imprint", line) for line in opening.foot if line)
        yield f"</{'div' if is_cover else 'header'}>"

    def section(self, section: Section) -> Iterator[str]:
        yield '<section class="key">' if section.key else "<section>"
        yield self.heading(1, section.head)
        if section.aside:
            yield self.tagged("p", "aside", section.aside)
        for block in section.blocks:
            yield from self.block(block)
        yield "</section>"

    def entry(self, entry: Entry) -> Iterator[str]:
        yield '<article class="entry">'
        yield self.heading(2, entry.title)
        if entry.margin:
            yield f'<p class="margin">{"<br>".join(map(self.text, entry.margin))}</p>'
        if entry.figure:
            yield self.tagged("p", "figure", entry.figure)
        if entry.strip:
            yield to_svg(entry.strip, STRIP_SCALE)
        yield from (self.tagged("p", "detail", detail) for detail in entry.details)
        yield "</article>"

    def lines(self, block: Lines) -> Iterator[str]:
        """A list of years, under each its lines."""
        yield '<ul class="years">'
        for label, lines in groupby(block.lines, key=lambda line: line.label):
            items = "".join(f"<li>{self.text(line.text)}</li>" for line in lines)
            yield f'<li><span class="margin">{clean(label)}</span><ul>{items}</ul></li>'
        yield "</ul>"

    def pairs(self, pairs: Pairs) -> Iterator[str]:
        for group in pairs.groups:
            rows = "".join(
                f"{self.label(pair.label, is_first=not place)}<dd>{self.text(pair.value)}</dd>"
                for place, pair in enumerate(group)
            )
            if rows:
                yield f'<dl class="pairs">{rows}</dl>'

    def label(self, label: Text, *, is_first: bool) -> str:
        """The label of a fact; what has none goes on with the fact before it, if there is one."""
        return f"<dt>{self.text(label)}</dt>" if label or is_first else ""

    def legend(self, legend: Legend) -> Iterator[str]:
        yield self.heading(2, legend.head)
        yield self.tagged("p", "note", legend.note)
        yield '<ul class="legend key">' if legend.head else '<ul class="legend">'
        for sign in legend.signs:
            told = "".join(
                (
                    self.tagged("span", "", sign.meaning),
                    self.tagged("span", "figure", sign.figure),
                    self.tagged("span", "detail", sign.detail),
                )
            )
            yield f"<li>{self.drawn(sign)} {told if legend.head else self.text(sign.meaning)}</li>"
        yield "</ul>"

    def drawn(self, sign: Sign) -> str:
        if sign.drawing is None:
            return "<span></span>"
        if isinstance(sign.drawing, Strip):
            return to_svg(sign.drawing, STRIP_SCALE)
        return sketch_svg(sign.drawing.sketch(KEY_WIDE), title=plain(sign.meaning))

    def figure(self, figure: Figure) -> Iterator[str]:
        if isinstance(figure.drawing, Strip):
            strip = to_svg(figure.drawing, STRIP_SCALE)
            yield f'<figure class="forces">{strip}<figcaption>{self.text(figure.caption)}</figcaption></figure>'
            return
        if not isinstance(figure.drawing, Course):
            sketch = sketch_svg(figure.drawing.sketch(SKETCH_WIDE), title=plain(figure.caption))
            yield f'<figure class="plan">{sketch}<figcaption>{self.text(figure.caption)}</figcaption></figure>'
            return
        picture = timeline(figure.drawing, width=FIGURE_WIDE)
        yield f'<figure class="picture" tabindex="0">{timeline_svg(picture, title=plain(figure.caption))}'
        yield f"<figcaption>{self.text(figure.caption)}</figcaption></figure>"

    def signatures(self, signatures: Signatures) -> Iterator[str]:
        yield '<ul class="signatures">'
        for attested in signatures.attested:
            yield f"<li>{self.text(attested)} {self.tagged('span', 'asked', signatures.asked)}</li>"
        yield "</ul>"

    # ---- tables

    def table(self, table: Table) -> Iterator[str]:
        labelled = self.has_years(table)
        corner = '<td class="margin"></td>' if labelled else ""
        yield f"<table>\n{self.heads(table, corner)}"
        for group in table.groups:
            yield "<tbody>"
            if group.label and not labelled:
                yield f'<tr><th scope="rowgroup" colspan="{len(table.columns)}">{self.text(group.label)}</th></tr>'
            for place, row in enumerate(group.rows):
                yield f"<tr>{self.year(group.label, place) if labelled else ''}{self.cells(table, row)}</tr>"
            yield "</tbody>"
        if table.total:
            yield f"<tfoot><tr>{corner}{self.cells(table, table.total)}</tr></tfoot>"
        yield "</table>"

    def heads(self, table: Table, corner: str) -> str:
        """The row of heads; none over a list whose columns need none."""
        if not any(column.head for column in table.columns):
            return ""
        heads = "".join(
            f'<th scope="col" class="{column.key}">{self.text(column.head)}</th>' for column in table.columns
        )
        return f"<thead><tr>{corner}{heads}</tr></thead>"

    def has_years(self, table: Table) -> bool:
        """Whether the labels of groups stand beside their rows: those of a list do, those of a form above them."""
        is_form = any(column.key in FORMS for column in table.columns)
        return not is_form and any(group.label for group in table.groups)

    def year(self, label: Text, place: int) -> str:
        return '<td class="margin"></td>' if place else f'<th scope="row" class="margin">{self.text(label)}</th>'

    def cells(self, table: Table, row: tuple[Cell, ...]) -> str:
        pairs = zip(table.columns, row, strict=True)
        return "".join(f'<td class="{column.key}"{way(column, cell)}>{self.cell(cell)}</td>' for column, cell in pairs)

    def cell(self, cell: Cell) -> str:
        lines = "<br>".join(self.text(line) for line in cell.lines if plain(line))
        boxes = "".join(f'<span class="box">{clean(mark)}</span>' for mark in cell.boxes)
        blank = '<span class="blank"></span>' if cell.blank else ""
        return f"{blank}{lines}{boxes}"
