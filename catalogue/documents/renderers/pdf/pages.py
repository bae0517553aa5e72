"""A document as a PDF: blocks measured, placed, drawn, with running heads and folios, and written as a file."""

from __future__ import annotations

from catalogue.documents.collecting import PAUSE
from catalogue.documents.labels import labels
from catalogue.documents.model import Document, Logo
from catalogue.documents.renderers.logos import AIR, logo_size
from catalogue.documents.renderers.pdf.blocks import document_items
from catalogue.documents.renderers.pdf.book import Book
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.file import file_of
from catalogue.documents.renderers.pdf.flow import Placed, placed
from catalogue.documents.renderers.pdf.ground import Ground
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.chosen import sheet_for, size_of
from catalogue.documents.sheets.houses import house_of


def page_count(document: Document) -> int:
    """How many pages the document has."""
    return pages_in(laid_out(document, ground_of(document), Element("Document")))


def ground_of(document: Document) -> Ground:
    return Ground(sheet_for(document), size_of(document.kind, document.paper), labels(document.language))


def laid_out(document: Document, ground: Ground, tree: Element) -> list[Placed]:
    return placed(document_items(document.blocks, ground, tree), ground.sheet.margins, ground.size.height)


def pages_in(items: list[Placed]) -> int:
    return max((one.page for one in items), default=0) + 1


def render_pdf(document: Document) -> bytes:
    """The document as a tagged PDF with every face embedded; the same document gives the same bytes."""
    with PAUSE.held():
        return drawn(document)


def drawn(document: Document) -> bytes:
    ground = ground_of(document)
    tree = Element("Document")
    shown = tree.add("Figure", alternative=document.adjusted.logo.alternative) if document.adjusted.logo else tree
    items = laid_out(document, ground, tree)
    pages = pages_in(items)
    book = Book(items, document, ground) if ground.sheet.book else None
    mirrored = ground.sheet.margins.right - ground.left if book else 0.0
    canvas = Canvas(ground.size, house_of(document.house, document.adjusted).ink, mirrored=mirrored)
    canvas.properties(document.language)

    def ended() -> None:
        if book is not None:
            book.end_page(canvas)
        else:
            end_page(canvas, document, ground, pages)

    if document.adjusted.logo:
        draw_logo(canvas, document.adjusted.logo, ground, shown)
    for one in items:
        while one.page != canvas.number:
            ended()
        one.item.draw(canvas, one.y, one.fresh)
    ended()
    if book is not None and canvas.number % 2:
        ended()
    drawn = canvas.frame()
    return file_of(drawn, canvas.contents, tree, document.title, document.author, document.language)


def draw_logo(canvas: Canvas, logo: Logo, ground: Ground, element: Element) -> None:
    """Set the logo at the right of the head of the first page, its lower edge above the first line."""
    wide, high = logo_size(logo, ground.sheet)
    if wide:
        with canvas.content(element):
            canvas.picture(logo.png, ground.right - wide, ground.sheet.margins.first - AIR - high, wide, high)


def end_page(canvas: Canvas, document: Document, ground: Ground, pages: int) -> None:
    """The running head from the second page on; at the foot what dates the sheet, and which page it is of how many."""
    margins = ground.sheet.margins
    foot = ground.size.height - margins.foot
    folio = ground.says.say("{page} of {pages}", page=str(canvas.number + 1), pages=str(pages))
    with canvas.artifact():
        if canvas.number:
            running(canvas, document, ground)
        canvas.text(ground.left, foot, ground.first_line(document.dated, ground.sheet.foot_note, ground.width - 60))
        canvas.text_to(ground.right, foot, ground.line(folio, ground.sheet.folio))
    canvas.turn()


def running(canvas: Canvas, document: Document, ground: Ground) -> None:
    margins = ground.sheet.margins
    x = ground.left + margins.running_x
    right = ground.first_line(document.running[1], ground.sheet.running, (ground.right - x) * 0.6)
    left = ground.first_line(document.running[0], ground.sheet.running, ground.right - x - right.width - 12)
    canvas.text(x, margins.running, left)
    canvas.text_to(ground.right, margins.running, right)
