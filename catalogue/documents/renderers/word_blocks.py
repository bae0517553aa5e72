"""The blocks of a document as paragraphs, tables and pictures of a word-processor file."""

from __future__ import annotations

from docx.document import Document as WordDocument
from docx.enum.table import WD_CELL_VERTICAL_ALIGNMENT as Upright
from docx.enum.text import WD_ALIGN_PARAGRAPH, WD_LINE_SPACING
from docx.oxml import OxmlElement
from docx.shared import Pt
from docx.table import _Cell as WordCell
from docx.table import _Row as WordRow
from docx.text.paragraph import Paragraph as WordParagraph

from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Document,
    Entry,
    Figure,
    Legend,
    Lines,
    Logo,
    Opening,
    Pair,
    Pairs,
    Paragraph,
    Section,
    Signatures,
    Table,
    Text,
    Voice,
    joined,
    plain,
    wording,
)
from catalogue.documents.renderers.bitmaps import sketch_png
from catalogue.documents.renderers.logos import logo_size
from catalogue.documents.renderers.word_pictures import add_picture, add_strip, hang_strip
from catalogue.documents.renderers.word_styles import set_styles, tab_stops
from catalogue.documents.renderers.word_tables import (
    CELL_MARGIN,
    bind_above,
    border,
    ends,
    family_place,
    keep_facts,
    keep_whole,
    keep_with_next,
    read_from_the_right,
    rule,
    set_looks,
    set_widths,
    to_the_right,
    ways,
    widths,
)
from catalogue.documents.renderers.word_text import cell_lines, folio, resize, write_text
from catalogue.documents.sheets.chosen import size_of
from catalogue.documents.sheets.geometry import ColumnSheet, Sheet
from catalogue.drawings.player_strip import Strip
from catalogue.drawings.redrawn import timeline_sketch
from catalogue.drawings.timeline import Course, timeline

VOICES = {
    Voice.PROSE: "Body Text",
    Voice.SIGNED: "LL Signed",
    Voice.CREDIT: "LL Credit",
    Voice.LIFE: "LL Life",
    Voice.NOTE: "LL Note",
    Voice.CLOSING: "LL Note",
}
GROUP_ABOVE = 4.5
"""Space above the first row of a group in a list, in points; the others have half of it."""
UNIT = 0.74
"""Points to a unit of a sketch."""


def together(text: Text) -> Text:
    """The text on one line with what stands before it."""
    return tuple(run._replace(text=run.text.replace(" ", "\N{NO-BREAK SPACE}")) for run in text)


class Writer:
    """Writes the blocks of one document into a file that has its styles."""

    def __init__(self, word: WordDocument, document: Document, sheet: Sheet) -> None:
        self.word = word
        self.sheet = sheet
        self.says: Labels = labels(document.language)
        self.width = size_of(document.kind, document.paper).width - sheet.margins.left - sheet.margins.right
        styles = set_styles(word, document, sheet)
        self.ids = {name: style.style_id for name, style in styles.items()}
        tab_stops(styles["LL Entry Title"], (sheet.entry.title_x, False), (self.width, True))
        tab_stops(styles["LL Entry Detail"], (sheet.entry.detail_x, False))
        tab_stops(styles["LL CV Line"], (sheet.lines.text_x, False))
        tab_stops(styles["Heading 1"], (self.width, True))
        tab_stops(styles["LL Signature"], ((self.width - sheet.signatures.gutter) / 2 - CELL_MARGIN, True))
        for name in ("Subtitle", "Header", "Footer"):
            tab_stops(styles[name], (self.width, True))

    def block(self, block: Block) -> None:
        match block:
            case Opening():
                self.opening(block)
            case Section():
                self.section(block)
            case Paragraph():
                self.paragraph(block.text, VOICES[block.voice])
            case Entry():
                self.entry(block)
            case Lines():
                self.lines(block)
            case Pairs():
                self.pairs(block)
            case Table():
                self.table(block)
            case Signatures():
                self.signatures(block)
            case Figure():
                self.figure(block)
            case Legend():
                self.legend(block)

    def legend(self, legend: Legend) -> None:
        """The marks of strips, each before what it means."""
        paragraph = self.wear(self.word.add_paragraph(), VOICES[Voice.NOTE])
        paragraph.paragraph_format.line_spacing_rule = WD_LINE_SPACING.SINGLE
        for place, sign in enumerate(legend.signs):
            if place:
                paragraph.add_run("\N{EM SPACE} ")
            if isinstance(sign.drawing, Strip):
                add_strip(paragraph, sign.drawing, 1, alternative=plain(sign.meaning))
                paragraph.add_run("\N{NO-BREAK SPACE}")
            write_text(paragraph, together(sign.meaning))

    def figure(self, figure: Figure) -> None:
        """A sketch or a strip as a picture over its caption; a timeline under it."""
        if isinstance(figure.drawing, Course):
            self.timeline(figure, figure.drawing)
            return
        if isinstance(figure.drawing, Strip):
            self.strip(figure.drawing, self.sheet.figure.strip_scale, self.sheet.figure.strip_x)
            self.paragraph(figure.caption, VOICES[Voice.NOTE])
            return
        wide = self.width * figure.share
        paragraph = self.picture_line()
        paragraph.alignment = WD_ALIGN_PARAGRAPH.CENTER
        add_picture(paragraph, sketch_png(figure.drawing.sketch(wide / UNIT)), wide, plain(figure.caption))
        self.paragraph(figure.caption, VOICES[Voice.NOTE]).alignment = WD_ALIGN_PARAGRAPH.CENTER

    def timeline(self, figure: Figure, course: Course) -> None:
        self.paragraph(figure.caption, VOICES[Voice.NOTE]).paragraph_format.keep_with_next = True
        picture = timeline(course, width=self.width / self.sheet.figure.scale)
        made = self.picture_line(keep=False)
        add_picture(made, sketch_png(timeline_sketch(picture)), self.width, plain(figure.caption))

    def strip(self, strip: Strip, scale: float, x: float) -> None:
        made = self.picture_line()
        made.paragraph_format.left_indent = Pt(x)
        add_strip(made, strip, min(scale, (self.width - x) / strip.width))

    def picture_line(self, *, keep: bool = True) -> WordParagraph:
        """A paragraph for a picture, as high as that is; it stays with what follows."""
        made = self.word.add_paragraph()
        made.paragraph_format.keep_with_next = keep
        made.paragraph_format.line_spacing_rule = WD_LINE_SPACING.SINGLE
        made.paragraph_format.space_before = made.paragraph_format.space_after = Pt(0)
        return made

    # ---- text

    def wear(self, paragraph: WordParagraph, style: str) -> WordParagraph:
        """Put a style on by its id: python-docx would look it up by name every time."""
        paragraph._p.style = self.ids[style]
        return paragraph

    def paragraph(self, text: Text, style: str) -> WordParagraph:
        made = self.wear(self.word.add_paragraph(), style)
        write_text(made, text)
        return made

    def tabbed(self, parts: tuple[Text, ...], style: str) -> WordParagraph:
        """Texts with a tab between them, empty ones keeping their place but for those at the end."""
        made = self.wear(self.word.add_paragraph(), style)
        while parts and not parts[-1]:
            parts = parts[:-1]
        for place, part in enumerate(parts):
            if place:
                made.add_run("\t")
            write_text(made, part)
        return made

    # ---- blocks

    def opening(self, opening: Opening) -> None:
        for place, line in enumerate(opening.letterhead, start=1):
            made = self.paragraph(line, "LL Life Dates" if place > 1 else "LL Composer")
            made.paragraph_format.space_after = Pt(
                self.sheet.opening.letterhead_lead / 2 if place == len(opening.letterhead) else 0
            )
        if opening.composer:
            self.paragraph(opening.composer, "LL Composer")
        if opening.life:
            self.paragraph(opening.life, "LL Life Dates")
        self.paragraph(opening.title, "Title")
        if opening.above:
            self.beside((), opening.above).paragraph_format.space_after = Pt(0)
        if opening.subtitle or opening.aside:
            self.beside(opening.subtitle, opening.aside)

    def beside(self, subtitle: Text, aside: Text) -> WordParagraph:
        """A subtitle, and at the right edge what stands beside it."""
        made = self.tabbed((subtitle,), "Subtitle")
        if aside:
            look = self.sheet.opening.aside
            made.add_run("\t")
            write_text(made, aside, size=look.size, italic=look.italic)
        return made

    def section(self, section: Section) -> None:
        head = self.paragraph(section.head, "Heading 1")
        if section.aside:
            head.add_run("\t")
            write_text(head, section.aside, size=self.sheet.section.aside.size, italic=True, black=True)
        for block in section.blocks:
            self.block(block)

    def entry(self, entry: Entry) -> None:
        """Year, title and duration on one line; number and edition before the first details."""
        year, *beside = (*entry.margin, ())[: max(len(entry.margin), 1)]
        title = self.tabbed((year, entry.title, entry.figure), "LL Entry Title")
        resize(title.runs[: len(year)], self.sheet.entry.year.size)
        resize(title.runs[len(title.runs) - len(entry.figure) :], self.sheet.entry.year.size)
        rows = max(len(beside), len(entry.details))
        for place in range(rows):
            left = beside[place] if place < len(beside) else ()
            detail = entry.details[place] if place < len(entry.details) else ()
            made = self.tabbed((left, detail), "LL Entry Detail")
            resize(made.runs[: len(left)], self.sheet.entry.number.size)
            made.paragraph_format.keep_with_next = place < rows - 1
        title.paragraph_format.keep_with_next = rows > 0
        if entry.strip:
            self.hung_strip(title, made if rows else title, entry.strip, rows)

    def hung_strip(self, title: WordParagraph, last: WordParagraph, strip: Strip, rows: int) -> None:
        """The strip under the duration, at the right of the details; what it hangs deeper than those is kept free."""
        sheet = self.sheet.entry
        below = sheet.title.leading
        hang_strip(title, strip, sheet.strip_scale, below=below, air=sheet.strip_air)
        deeper = strip.height * sheet.strip_scale - rows * sheet.detail.leading
        last.paragraph_format.space_after = Pt(max(deeper, 0))

    def lines(self, block: Lines) -> None:
        before = ""
        for line in block.lines:
            self.tabbed((wording("" if line.label == before else line.label), line.text), "LL CV Line")
            before = line.label

    def pairs(self, pairs: Pairs) -> None:
        """Groups of facts side by side, as far as the sheet has columns."""
        alone = self.sheet.pairs.alone if len(pairs.groups) == 1 else None
        columns = (alone,) if alone else self.sheet.pairs.columns
        groups: list[list[Pair]] = [[] for _ in columns]
        for place, group in enumerate(pairs.groups):
            groups[min(place, len(columns) - 1)] += group
        table = self.word.add_table(rows=max(map(len, groups)), cols=2 * len(columns))
        for place, facts in enumerate(groups):
            for pair, row in zip(facts, table.rows, strict=False):
                self.cell(row.cells[2 * place], (pair.label,), "LL Label")
                self.cell(row.cells[2 * place + 1], (pair.value,), "LL Value")
        starts = [start for label_x, value_x, _end in columns for start in (label_x, value_x)]
        set_widths(table, ways(starts, self.width))
        keep_facts(table)
        self.gap()

    def gap(self) -> None:
        """A narrow paragraph below a table: two tables that touch are read as one, and a file may not end in one."""
        self.wear(self.word.add_paragraph(), "LL Gap")

    def signatures(self, signatures: Signatures) -> None:
        """Lines to sign on, two side by side, on the page of what they sign."""
        bind_above(self.word)
        pairs = [signatures.attested[start : start + 2] for start in range(0, len(signatures.attested), 2)]
        table = self.word.add_table(rows=len(pairs), cols=3)
        gutter = self.sheet.signatures.gutter
        width = (self.width - gutter) / 2
        for pair, row in zip(pairs, table.rows, strict=True):
            keep_whole(row)
            for attested, cell in zip(pair, row.cells[::2], strict=False):
                self.signature(cell, attested, signatures.asked)
        set_widths(table, [width, gutter, width])
        self.gap()

    def signature(self, cell: WordCell, attested: Text, asked: Text) -> None:
        made = self.wear(cell.paragraphs[0], "LL Signature")
        border(made._p.get_or_add_pPr(), "w:pBdr", "top", 4)
        write_text(made, attested)
        made.add_run("\t")
        write_text(made, asked, italic=True)

    # ---- tables

    def table(self, table: Table) -> None:
        if self.sheet.list_table is not None:
            self.list_table(table, self.sheet.list_table.columns)
        else:
            self.ruled_table(table, self.sheet.ruled_table.columns)

    def list_table(self, table: Table, columns: dict[str, ColumnSheet]) -> None:
        made = self.word.add_table(rows=1, cols=len(table.columns) + 1)
        self.head_row(made.rows[0], ((), *(column.head for column in table.columns)))
        for group in table.groups:
            for place, row in enumerate(group.rows):
                added = made.add_row()
                self.list_row(added, () if place else group.label, row)
                read_from_the_right(added, table.columns, row)
        set_widths(made, [44, *widths(table, columns, self.width, start=44)])
        self.gap()
        to_the_right(made, ends(table, columns, self.width, start=44), first=1)

    def list_row(self, row: WordRow, label: Text, cells: tuple[Cell, ...]) -> None:
        """A row; the first of a group has its label, and a little more space above it."""
        keep_whole(row)
        self.cell(row.cells[0], (label,), "LL Row Title")
        for number, (cell, into) in enumerate(zip(cells, row.cells[1:], strict=True)):
            self.cell(into, cell.lines, "LL Row Turn", first="LL Row Detail" if number else "LL Row Title")
        if label:
            for into in row.cells:
                into.paragraphs[0].paragraph_format.space_before = Pt(GROUP_ABOVE)

    def ruled_table(self, table: Table, columns: dict[str, ColumnSheet]) -> None:
        made = self.word.add_table(rows=1, cols=len(table.columns))
        self.head_row(made.rows[0], tuple(column.head for column in table.columns))
        for group in table.groups:
            if group.label:
                family = made.add_row()
                keep_whole(family)
                at = family_place(table, self.sheet.ruled_table.family_column)
                for place, into in enumerate(family.cells):
                    self.cell(into, (group.label,) if place == at else (), "LL Family")
                rule(family)
            totalled = bool(table.total) and group is table.groups[-1]
            for place, row in enumerate(group.rows):
                self.ruled_row(added := made.add_row(), row, "LL Table Cell")
                if self.sheet.ruled_table.keeps(place, len(group.rows), ends=totalled):
                    keep_with_next(added)
        if table.total:
            self.ruled_row(made.add_row(), table.total, "LL Table Key")
        set_widths(made, widths(table, columns, self.width), air=self.sheet.ruled_table.air / 2)
        self.gap()
        to_the_right(made, ends(table, columns, self.width))
        set_looks(made, [columns[column.key].look for column in table.columns], self.sheet.ruled_table.cell)

    def ruled_row(self, row: WordRow, cells: tuple[Cell, ...], style: str) -> None:
        keep_whole(row)
        row.height = Pt(self.sheet.ruled_table.row)
        several = any(len(cell.lines) > 1 for cell in cells)
        for cell, into in zip(cells, row.cells, strict=True):
            self.cell(into, cell_lines(cell), "LL Table Cell" if cell.blank else style)
            into.vertical_alignment = Upright.TOP if several else Upright.CENTER
        rule(row)

    def cell(self, cell: WordCell, lines: tuple[Text, ...], style: str, *, first: str = "") -> None:
        """Write lines into a cell, the first in a style of its own where one is given."""
        for place, line in enumerate(lines or ((),)):
            paragraph = cell.add_paragraph() if place else cell.paragraphs[0]
            write_text(self.wear(paragraph, style if place or not first else first), line)

    def head_row(self, row: WordRow, heads: tuple[Text, ...]) -> None:
        """The first row, told again on every page."""
        for cell, head in zip(row.cells, heads, strict=True):
            self.cell(cell, (head,), "LL Table Head")
        row._tr.get_or_add_trPr().append(OxmlElement("w:tblHeader"))
        rule(row, eighths=6)

    # ---- furniture

    def furniture(self, document: Document) -> None:
        section = self.word.sections[0]
        left, right = document.running
        head = section.header.paragraphs[0]
        write_text(head, joined((left, right), "\t"))
        if document.adjusted.logo:
            self.logo(section.first_page_header.paragraphs[0], document.adjusted.logo)
        for footer in (section.footer, section.first_page_footer):
            foot = footer.paragraphs[0]
            self.wear(foot, "Footer")
            write_text(foot, document.dated)
            foot.add_run("\t")
            folio(foot, self.says)

    def logo(self, head: WordParagraph, logo: Logo) -> None:
        wide, _high = logo_size(logo, self.sheet)
        if wide:
            head.alignment = WD_ALIGN_PARAGRAPH.RIGHT
            head.paragraph_format.line_spacing_rule = WD_LINE_SPACING.SINGLE
            add_picture(head, logo.png, wide, logo.alternative)
