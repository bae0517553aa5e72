"""The front matter of a score as a word-processor file: mirrored pages, cover and title page, a key with pictures."""

from __future__ import annotations

from docx.enum.section import WD_SECTION
from docx.enum.text import WD_LINE_SPACING
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Pt
from docx.table import _Cell as WordCell
from docx.text.paragraph import Paragraph as WordParagraph

from catalogue.documents.model import (
    Cell,
    Document,
    Leaf,
    Legend,
    Opening,
    Pairs,
    Section,
    Sign,
    Table,
    Text,
    joined,
    plain,
    wording,
)
from catalogue.documents.renderers.bitmaps import sketch_png
from catalogue.documents.renderers.word_blocks import Writer
from catalogue.documents.renderers.word_pictures import add_picture
from catalogue.documents.renderers.word_tables import keep_whole, set_widths, to_the_right, ways
from catalogue.documents.renderers.word_text import field, write_text
from catalogue.documents.sheets.geometry import ColumnSheet, LeafSheet
from catalogue.drawings.player_strip import Strip

UNITS = 200.0
"""Units that a sign of the key is drawn wide."""


class BookWriter(Writer):
    """Writes blocks that begin pages of their own."""

    has_leaf = False

    def opening(self, opening: Opening) -> None:
        book = self.sheet.book
        if opening.leaf is Leaf.NONE or book is None:
            super().opening(opening)
            return
        is_cover = opening.leaf is Leaf.COVER
        sheet = book.cover if is_cover else book.title_page
        if self.has_leaf:
            self.word.add_section(WD_SECTION.ODD_PAGE)
        self.has_leaf = True
        first = self.paragraph(opening.composer, "LL Composer")
        first.paragraph_format.space_before = Pt(sheet.first - self.sheet.margins.later)
        title = self.paragraph(opening.title, "LL Cover Title" if is_cover else "Title")
        title.paragraph_format.space_before = Pt(sheet.title_lead - sheet.title.leading)
        for text in (opening.subtitle, opening.life):
            if text:
                self.paragraph(text, "LL Leaf")
        if is_cover and opening.forces:
            self.strip(opening.forces, sheet.strip_scale, sheet.x)
        self.leaf_facts(opening, sheet)

    def leaf_facts(self, opening: Opening, sheet: LeafSheet) -> None:
        lists: tuple[tuple[Text, ...], ...] = (
            tuple((*wording(f"{part.label}\N{EM SPACE}"), *part.text) for part in opening.parts),
            opening.facts,
            opening.foot,
        )
        for texts in lists:
            for place, text in enumerate(one for one in texts if one):
                made = self.paragraph(text, "LL Imprint" if texts is opening.foot else "LL Leaf")
                made.paragraph_format.space_before = Pt(0 if place else 2 * sheet.text.leading)

    def section(self, section: Section) -> None:
        head = self.paragraph(section.head, "Heading 1")
        head.paragraph_format.page_break_before = not section.runs_on
        if section.aside:
            self.paragraph(section.aside, "Subtitle")
        for block in section.blocks:
            self.block(block)

    def pairs(self, pairs: Pairs) -> None:
        """Each fact beside its label."""
        facts = [pair for group in pairs.groups for pair in group]
        table = self.word.add_table(rows=len(facts), cols=2)
        apart = Pt(self.sheet.pairs.apart - self.sheet.pairs.value.leading)
        for pair, row in zip(facts, table.rows, strict=True):
            self.cell(row.cells[0], (pair.label,), "LL Label")
            self.cell(row.cells[1], (pair.value,), "LL Value")
            for cell in row.cells:
                cell.paragraphs[0].paragraph_format.space_after = apart
        _label, text, end = self.sheet.pairs.columns[0]
        set_widths(table, [text, min(end, self.width) - text])
        self.gap()

    def list_table(self, table: Table, columns: dict[str, ColumnSheet]) -> None:
        """The rows of each group beside its label, a total below."""
        rows = [
            (group.label if not place else (), row) for group in table.groups for place, row in enumerate(group.rows)
        ]
        rows += [((), table.total)] if table.total else []
        if any(column.head for column in table.columns):
            rows.insert(0, ((), tuple(Cell((column.head,)) for column in table.columns)))
        made = self.word.add_table(rows=len(rows), cols=len(table.columns) + 1)
        for (label, row), into in zip(rows, made.rows, strict=True):
            keep_whole(into)
            self.cell(into.cells[0], (label,), "LL Label")
            for cell, place in zip(row, into.cells[1:], strict=True):
                self.cell(place, cell.lines, "LL Value")
        starts = [columns[column.key].x for column in table.columns]
        last = columns[table.columns[-1].key]
        set_widths(made, ways([0, *(max(start, 1.0) for start in starts)], last.end if last.right else self.width))
        self.gap()
        to_the_right(made, [0 if columns[column.key].right else None for column in table.columns], first=1)

    # ---- the key

    def legend(self, legend: Legend) -> None:
        if not legend.head:
            return
        self.paragraph(legend.head, "Heading 2")
        if legend.note:
            self.paragraph(legend.note, "LL Value")
        made = self.word.add_table(rows=len(legend.signs), cols=3)
        sheet = self.sheet.legend.key
        for sign, row in zip(legend.signs, made.rows, strict=True):
            keep_whole(row)
            self.drawn(sign, row.cells[0], sheet.drawing)
            self.cell(row.cells[1], tuple(text for text in (sign.meaning, sign.detail) if text), "LL Value")
            self.cell(row.cells[2], (sign.figure,), "LL Value")
        figure = 1.5 * sheet.short
        set_widths(made, [sheet.x, self.width - sheet.x - figure, figure])
        self.gap()
        to_the_right(made, [0], first=2)

    def drawn(self, sign: Sign, cell: WordCell, wide: float) -> None:
        if sign.drawing is None or isinstance(sign.drawing, Strip):
            return
        paragraph = cell.paragraphs[0]
        paragraph.paragraph_format.line_spacing_rule = WD_LINE_SPACING.SINGLE
        add_picture(paragraph, sketch_png(sign.drawing.sketch(UNITS)), wide, plain(sign.meaning))

    # ---- furniture

    def furniture(self, document: Document) -> None:
        """Running title inside, folio in small Roman figures outside, from the page after the title page on."""
        self.word.settings.element.find(qn("w:zoom")).addnext(OxmlElement("w:mirrorMargins"))
        self.word.settings.odd_and_even_pages_header_footer = True
        cover, section = self.word.sections[0], self.word.sections[-1]
        if cover is not section:
            section.footer.is_linked_to_previous = section.even_page_footer.is_linked_to_previous = False
            section.first_page_footer.is_linked_to_previous = False
        numbers = OxmlElement("w:pgNumType")
        numbers.set(qn("w:fmt"), "lowerRoman")
        numbers.set(qn("w:start"), "1")
        section._sectPr.append(numbers)
        running = joined(document.running, ", ")
        self.foot(section.footer.paragraphs[0], running, is_left=False)
        self.foot(section.even_page_footer.paragraphs[0], running, is_left=True)

    def foot(self, paragraph: WordParagraph, running: Text, *, is_left: bool) -> None:
        self.wear(paragraph, "Footer")
        if not is_left:
            write_text(paragraph, running)
            paragraph.add_run("\t")
        field(paragraph.add_run(), "PAGE")
        if is_left:
            paragraph.add_run("\t")
            write_text(paragraph, running)
