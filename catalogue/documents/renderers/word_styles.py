"""The styles of a word-processor file: every look of the sheets as a named paragraph style, and the page."""

from __future__ import annotations

from dataclasses import dataclass, replace

from docx.document import Document as WordDocument
from docx.enum.style import WD_STYLE_TYPE
from docx.enum.text import WD_LINE_SPACING, WD_TAB_ALIGNMENT
from docx.oxml import OxmlElement
from docx.oxml.ns import qn
from docx.shared import Pt, RGBColor
from docx.styles.style import ParagraphStyle

from catalogue.documents.model import Document
from catalogue.documents.renderers.word_fonts import ARABIC, EAST_ASIAN, FAMILIES
from catalogue.documents.sheets import geometry
from catalogue.documents.sheets.chosen import size_of
from catalogue.documents.sheets.geometry import BookSheet, ListTableSheet, Look, OpeningSheet, Sheet
from catalogue.documents.sheets.houses import House, dressed_look, house_of


@dataclass(frozen=True, slots=True)
class WordStyle:
    """A paragraph style: its look, the space around it, what it stays together with, its indents in points."""

    name: str
    look: Look
    before: float = 0
    after: float = 0
    keep_next: bool = False
    keep_lines: bool = False
    left: float = 0
    hanging: float = 0


def word_styles(sheet: Sheet) -> tuple[WordStyle, ...]:
    """The styles of one kind of document, spaces reckoned from its leads."""
    opening, section, entry, lines = sheet.opening, sheet.section, sheet.entry, sheet.lines
    rows, forms = sheet.list_table or ListTableSheet(), sheet.ruled_table
    leading = forms.head.leading
    return (
        WordStyle("LL Life Dates", opening.life, keep_next=True, left=opening.x),
        *(leaf_styles(sheet, sheet.book) if sheet.book else opening_styles(opening)),
        WordStyle("Heading 1", section.head, before=section.word_lead, after=4.75, keep_next=True, left=section.x),
        WordStyle(
            "LL Entry Title", entry.title, before=7.5, keep_next=True, keep_lines=True,
            left=entry.title_x, hanging=entry.title_x,
        ),
        WordStyle(
            "LL Entry Detail", entry.detail, keep_lines=True, left=entry.detail_x, hanging=entry.detail_x
        ),
        WordStyle("Body Text", sheet.prose.look, after=sheet.prose.lead / 3, left=sheet.prose.x),
        WordStyle("LL Signed", sheet.signed.look, before=6.75, left=sheet.signed.x),
        WordStyle("LL Credit", sheet.credit.look, before=geometry.U, left=sheet.credit.x),
        WordStyle("LL Life", sheet.life.look, before=geometry.U, left=sheet.life.x),
        WordStyle("LL CV Line", lines.look, after=2.7, keep_lines=True, left=lines.turn_x, hanging=lines.turn_x),
        WordStyle("LL Label", sheet.pairs.label if sheet.book else geometry.LABEL),
        WordStyle("LL Value", sheet.pairs.value if sheet.book else geometry.VALUE),
        WordStyle("LL Family", replace(forms.family, leading=leading), keep_next=True),
        WordStyle("LL Table Head", rows.head if sheet.list_table else forms.head, keep_next=True),
        WordStyle("LL Table Cell", replace(forms.cell, leading=leading)),
        WordStyle("LL Table Key", replace(forms.total, leading=leading)),
        WordStyle("LL Row Title", rows.title, before=2.25, left=13.5, hanging=13.5),
        WordStyle("LL Row Detail", rows.cell, before=2.25),
        WordStyle("LL Gap", Look("serif", 8, 8), keep_next=True),
        WordStyle("LL Row Turn", rows.cell, left=13.5),
        WordStyle(
            "LL Note", sheet.note.look, before=sheet.note.word_air[0], after=sheet.note.word_air[1], left=sheet.note.x
        ),
        WordStyle("LL Signature", geometry.SIGNED, before=26, keep_lines=True),
        WordStyle("Header", sheet.book.running if sheet.book else sheet.running, left=sheet.margins.running_x),
        WordStyle("Footer", sheet.book.folio if sheet.book else geometry.FOLIO),
    )  # fmt: skip


def opening_styles(opening: OpeningSheet) -> tuple[WordStyle, ...]:
    return (
        WordStyle("LL Composer", opening.composer, keep_next=True, left=opening.x),
        WordStyle("Title", opening.title, after=6.75, keep_next=True, left=opening.x),
        WordStyle("Subtitle", opening.subtitle, after=geometry.U, left=opening.x),
    )


def leaf_styles(sheet: Sheet, book: BookSheet) -> tuple[WordStyle, ...]:
    """The styles of a cover, a title page and a key, in the measures of the title page."""
    leaf, key = book.title_page, sheet.legend.key
    return (
        WordStyle("LL Composer", leaf.composer, keep_next=True, left=leaf.x),
        WordStyle("LL Cover Title", book.cover.title, after=12, keep_next=True, left=leaf.x),
        WordStyle("Title", leaf.title, after=12, keep_next=True, left=leaf.x),
        WordStyle("Subtitle", sheet.section.aside, after=12),
        WordStyle("LL Leaf", leaf.text, left=leaf.x),
        WordStyle("LL Imprint", leaf.small, left=leaf.x),
        WordStyle("Heading 2", key.head, before=17, after=6, keep_next=True),
    )


def set_styles(word: WordDocument, document: Document, sheet: Sheet) -> dict[str, ParagraphStyle]:
    """Give the file its page, its language and its styles; return the styles by name."""
    set_page(word, document, sheet)
    normal = style_named(word, "Normal")
    house = house_of(document.house, document.adjusted)
    dress(normal, WordStyle("Normal", geometry.PROSE), house)
    set_language(normal, document.language)
    made = {style.name: style_named(word, style.name) for style in word_styles(sheet)}
    for style in word_styles(sheet):
        made[style.name].base_style = normal
        dress(made[style.name], style, house)
    return made


def set_page(word: WordDocument, document: Document, sheet: Sheet) -> None:
    section, size, margins = word.sections[0], size_of(document.kind, document.paper), sheet.margins
    section.page_width, section.page_height = Pt(size.width), Pt(size.height)
    section.left_margin, section.right_margin = Pt(margins.left), Pt(margins.right)
    section.top_margin, section.bottom_margin = Pt(margins.later - 12), Pt(margins.last)
    section.header_distance, section.footer_distance = Pt(margins.running - 9), Pt(margins.foot - 9)
    section.different_first_page_header_footer = True


def style_named(word: WordDocument, name: str) -> ParagraphStyle:
    names = [style.name for style in word.styles]
    return word.styles[name] if name in names else word.styles.add_style(name, WD_STYLE_TYPE.PARAGRAPH)


def dress(style: ParagraphStyle, wanted: WordStyle, house: House) -> None:
    """Take off what the style has and put on the look."""
    for name in ("w:rPr", "w:pPr"):
        for element in style.element.findall(qn(name)):
            style.element.remove(element)
    look, font = dressed_look(wanted.look, house), style.font
    font.name = FAMILIES[look.family]
    set_fonts(style, FAMILIES[look.family])
    font.size = Pt(look.size)
    font.italic, font.bold = look.italic, look.strong
    font.color.rgb = RGBColor(*(round(part * 255) for part in house.ink)) if look.inked else RGBColor(0, 0, 0)
    space(style, wanted)


def space(style: ParagraphStyle, wanted: WordStyle) -> None:
    form = style.paragraph_format
    form.line_spacing_rule, form.line_spacing = WD_LINE_SPACING.EXACTLY, Pt(wanted.look.leading)
    form.space_before, form.space_after = Pt(wanted.before), Pt(wanted.after)
    form.keep_with_next, form.keep_together, form.widow_control = wanted.keep_next, wanted.keep_lines, True
    form.left_indent, form.first_line_indent = Pt(wanted.left), Pt(-wanted.hanging)


def set_fonts(style: ParagraphStyle, name: str) -> None:
    fonts = style.element.get_or_add_rPr().get_or_add_rFonts()
    for attribute, family in (("ascii", name), ("hAnsi", name), ("cs", ARABIC), ("eastAsia", EAST_ASIAN)):
        fonts.set(qn(f"w:{attribute}"), family)


def set_language(style: ParagraphStyle, language: str) -> None:
    element = OxmlElement("w:lang")
    element.set(qn("w:val"), language)
    style.element.get_or_add_rPr().append(element)


def tab_stops(style: ParagraphStyle, *stops: tuple[float, bool]) -> None:
    """Tab stops at offsets from the margin; a stop to the right where ``True``."""
    for place, right in stops:
        style.paragraph_format.tab_stops.add_tab_stop(
            Pt(place), WD_TAB_ALIGNMENT.RIGHT if right else WD_TAB_ALIGNMENT.LEFT
        )
