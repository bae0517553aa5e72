"""The works list as a PDF, from facts to bytes, beside reportlab's bare canvas drawing the same lines.

A process remembers what it has set, so that a list is measured three times: its lines new and its words known, as a
server that has been running makes a list; made again after one change; and with every word new.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from io import BytesIO
from itertools import count

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas as Drawing

from catalogue.benches.invented import NOW, catalogue
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.documents.contents.forces import said_of, strip_for
from catalogue.documents.labels import labels
from catalogue.documents.model import Document, Paper
from catalogue.documents.registry import builder, render
from catalogue.documents.renderers.pdf.blocks import document_items
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.faces import FOLDER
from catalogue.documents.renderers.pdf.flow import placed
from catalogue.documents.renderers.pdf.ground import Ground
from catalogue.documents.renderers.pdf.setting import SetLine, piece_of, set_within, simply_set, words_in, worn
from catalogue.documents.renderers.pdf.shaping import shape
from catalogue.documents.renderers.pdf.strips import strip_path
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.renderers.pdf.text import template_of, written_everywhere
from catalogue.documents.sheets.chosen import sheet_of
from catalogue.documents.sheets.paper import SIZES
from catalogue.facts import CatalogueFacts

KIND, FACE = "works-list-by-category", "BenchSerif"


@dataclass(frozen=True, slots=True)
class Drawn:
    """A line as it was drawn, places from the top left."""

    page: int
    x: float
    y: float
    size: float
    text: str


class Listening(Canvas):
    """A canvas that notes the lines of text drawn on it."""

    def __init__(self, ground: Ground) -> None:
        super().__init__(ground.size)
        self.heard: list[Drawn] = []

    def one(self, element: Element, x: float, y: float, line: SetLine) -> None:
        self.hear(x, y, line)
        super().one(element, x, y, line)

    def text(self, x: float, y: float, line: SetLine) -> None:
        self.hear(x, y, line)
        super().text(x, y, line)

    def hear(self, x: float, y: float, line: SetLine) -> None:
        if line.pieces:
            words = "".join(piece.text for piece in line.pieces)
            self.heard.append(Drawn(self.number, x, y, line.pieces[0].size, words))


def works_list(told: CatalogueFacts) -> Document:
    build = builder(KIND)
    return build(told, by="category", claims={}, language="en-GB", paper=Paper.A4, printed_on=NOW.date())


def lines_of(document: Document) -> list[Drawn]:
    ground = Ground(sheet_of(document.kind, document.paper), SIZES[document.paper], labels(document.language))
    canvas = Listening(ground)
    for one in placed(
        document_items(document.blocks, ground, Element("Document")), ground.sheet.margins, ground.size.height
    ):
        while one.page > canvas.number:
            canvas.turn()
        one.item.draw(canvas, one.y, one.fresh)
    return canvas.heard


def one_face() -> str:
    """Register the one embedded face, once, and return its name."""
    if FACE not in pdfmetrics.getRegisteredFontNames():
        font = TTFont(FACE, str(FOLDER / "NotoSerif-Regular.ttf"))
        font.face.name = FACE.encode()  # a face that has been registered under its own name would be taken instead
        pdfmetrics.registerFont(font)
    return FACE


def draw_bare(lines: list[Drawn]) -> bytes:
    """Draw the lines with ``drawString`` in one embedded face and return the file."""
    face = one_face()
    width, height = SIZES[Paper.A4].width, SIZES[Paper.A4].height
    written = BytesIO()
    drawing = Drawing(written, pagesize=(width, height), pageCompression=0, invariant=1)
    page = 0
    for line in lines:
        if line.page != page:
            drawing.showPage()
            page = line.page
        drawing.setFont(face, line.size)
        drawing.drawString(line.x, height - line.y, line.text)
    drawing.showPage()
    drawing.save()
    return written.getvalue()


@contextmanager
def catalogue_of(size: int) -> Iterator[Pair]:
    """A list that has not been made before, of words that have been set before: none of its lines is remembered."""
    one_face()
    told = catalogue(works=size, performances=size)
    lines = lines_of(works_list(told))
    yield Pair(lambda: render(works_list(told), "pdf"), lambda: draw_bare(lines), before=forget_lines)


def forget_lines() -> None:
    set_within.cache_clear()
    simply_set.cache_clear()


@contextmanager
def changed_catalogue(size: int) -> Iterator[Pair]:
    """The same list again, each time after one work of it has another title."""
    one_face()
    told = catalogue(works=size, performances=size)
    lines = lines_of(works_list(told))
    versions = count(1)

    def ours() -> bytes:
        first, *others = told.works
        changed = replace(first, title=replace(first.title, title=f"Changed {next(versions)}"))
        return render(works_list(replace(told, works=(changed, *others))), "pdf")

    yield Pair(ours, lambda: draw_bare(lines))


@contextmanager
def unmet_catalogue(size: int) -> Iterator[Pair]:
    """A list none of whose words and forces this process has met: all are shaped, told and drawn for the first time."""
    with catalogue_of(size) as pair:
        yield replace(pair, before=forget_words)


def forget_words() -> None:
    forget_lines()
    for remembering in (
        worn,
        words_in,
        piece_of,
        shape,
        template_of,
        written_everywhere,
        said_of,
        strip_for,
        strip_path,
    ):
        remembering.cache_clear()


HEADING = Heading.DOCUMENTS
BOUND = "reportlab's canvas draws the same lines at the same places in one face, without strips and tags"
BENCHES = (
    Bench("works list as PDF, works", BOUND, (10, 100, 1_000), catalogue_of, aim=1.5),
    Bench("works list as PDF after one change, works", BOUND, (10, 100, 1_000), changed_catalogue, aim=1.5),
    Bench("works list as PDF of words never met, works", BOUND, (10, 100, 1_000), unmet_catalogue),
)
