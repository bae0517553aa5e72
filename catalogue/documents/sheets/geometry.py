"""What a sheet is made of: type, columns and spaces as values, in points.

Vertical places are baselines counted from the top of the page; a *lead* is the way from where the last thing ended
to the next baseline. Columns are offsets from the left margin. U, the unit of the leading, is 13.5 points.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from catalogue.documents.sheets.paper import MM

U = 13.5
INK = (0x45 / 255, 0x38 / 255, 0x8A / 255)
"""Copying-pencil violet, the one ink beside black: 9:1 on white, dark in a grey print."""


@dataclass(frozen=True, slots=True, eq=False)
class Look:
    """How a text is set. ``emphasis`` is the size of an emphasised run where it differs.

    A look is equal to itself alone: every line is remembered by its look, and nothing is compared more quickly.
    """

    family: Literal["serif", "sans"]
    size: float
    leading: float = U
    italic: bool = False
    strong: bool = False
    inked: bool = False
    emphasis: float | None = None


COMPOSER = Look("serif", 11)
TITLE = Look("serif", 19, 27)
SUBTITLE = Look("serif", 9.5, italic=True)
KIND = Look("serif", 11)
HEAD = Look("serif", 12.5, emphasis=10.25)
INKED_HEAD = Look("serif", 12.5, inked=True, emphasis=10.25)
ASIDE = Look("serif", 7.75, italic=True)
CONTACT = Look("serif", 7.75)
ENTRY_TITLE = Look("serif", 10.5)
ENTRY_DETAIL = Look("serif", 8.5, 11.25)
YEAR = Look("serif", 8.75, 11.25)
NUMBER = Look("serif", 7.75, 11.25)
PROSE = Look("serif", 9.5)
CV_LINE = Look("serif", 9.25)
LABEL = Look("serif", 8.25, italic=True)
VALUE = Look("serif", 8.5)
FAMILY = Look("serif", 8.75, italic=True)
TABLE_HEAD = Look("sans", 7, 9)
CELL = Look("sans", 8, emphasis=7.5)
TOTAL = Look("sans", 8, strong=True)
BOX_NUMBER = Look("sans", 5.2)
NOTE = Look("serif", 7.75, 10.125)
RUNNING = Look("serif", 8.25, italic=True)
FOLIO = Look("serif", 7.75)
FOOT_NOTE = Look("sans", 7)
SIGNED = Look("sans", 7)
ASKED = Look("sans", 7, italic=True)


@dataclass(frozen=True, slots=True)
class Margins:
    """Left and right; first baselines of page one and of later pages; last baseline and folio above the foot."""

    left: float = 25 * MM
    right: float = 20 * MM
    first: float = 76
    later: float = 76
    last: float = 62
    foot: float = 15 * MM
    running: float = 15 * MM
    running_x: float = 44


@dataclass(frozen=True, slots=True)
class OpeningSheet:
    """Letterhead, composer, title and kind; leads from one to the next."""

    x: float = 44
    composer: Look = COMPOSER
    life: Look = ASIDE
    life_lead: float = U
    title: Look = TITLE
    title_lead: float = 2 * U
    subtitle: Look = SUBTITLE
    subtitle_lead: float = 1.5 * U
    aside: Look = CONTACT
    letterhead_lead: float = 2.5 * U


@dataclass(frozen=True, slots=True)
class SectionSheet:
    """``lead`` above a head, ``first_lead`` right after the opening, ``after`` to what stands under it.

    ``begins``: a head begins a page. ``whole``: what is not longer than this share of a page stands on one,
    and stays with what is signed under it. ``aside_below``: what stands beside a head stands so far under it instead.
    ``word_lead``: above a head in a word-processor file, where a table leaves its own gap.
    """

    x: float = 44
    head: Look = HEAD
    aside: Look = ASIDE
    lead: float = 2.2 * U
    first_lead: float = 2 * U
    after: float = 1.35 * U
    continued_after: float = 1.5 * U
    begins: bool = False
    whole: float = 0
    aside_below: float = 0
    rule: float = 0.4
    rule_above: float = 1.4 * U
    rule_lead: float = 13.2
    word_lead: float = 17


@dataclass(frozen=True, slots=True)
class EntrySheet:
    """An entry of a list: margin, title, details, duration and strip."""

    title_x: float = 44
    detail_x: float = 57.5
    title: Look = ENTRY_TITLE
    year: Look = YEAR
    number: Look = NUMBER
    detail: Look = ENTRY_DETAIL
    lead: float = 19.925
    detail_lead: float = 12.25
    detail_short: float = 65.5
    strip_scale: float = 0.75
    strip_drop: float = 4.2
    strip_aside: float = 30
    strip_narrow: float = 46
    strip_air: float = 6


@dataclass(frozen=True, slots=True)
class LinesSheet:
    """Lines under a year, turned over a little to the right."""

    label_x: float = 0
    text_x: float = 44
    turn_x: float = 57.5
    look: Look = CV_LINE
    lead: float = 1.2 * U
    first_lead: float = 1.2 * U


@dataclass(frozen=True, slots=True)
class ColumnSheet:
    """A column from ``x`` to ``end``; right-aligned at ``end`` where ``right``. Further lines start at ``turn``.

    ``look`` is its own where it differs from that of the table.
    """

    x: float
    end: float
    right: bool = False
    turn: float = 0
    look: Look | None = None


@dataclass(frozen=True, slots=True)
class ListTableSheet:
    """A table without rules between its rows, the label of a group standing before its first row.

    ``bare``: without heads, under a rule ``rule_above`` the first row. ``rule_x``: where the rule under the heads
    begins. ``label_end``: where a label is turned over.
    """

    columns: dict[str, ColumnSheet] = field(default_factory=dict)
    head: Look = ASIDE
    head_lead: float = 2 * U
    head_rule: float = 4.2
    rule_x: float = 0
    first_lead: float = 1.35 * U
    label: Look = Look("serif", 8.5, 11.25)
    title: Look = Look("serif", 9, 11.25)
    cell: Look = Look("serif", 8, 11.25)
    row_lead: float = 13.5
    group_lead: float = 15.75
    whole: int = 4
    bare: bool = False
    rule_above: float = 0
    label_end: float = 0


@dataclass(frozen=True, slots=True)
class RuledTableSheet:
    """A form: a rule under every row, families on rows of their own, over ``family_column``, boxes to tick.

    ``halved`` are the columns of tables in a section that has half of the width.
    """

    columns: dict[str, ColumnSheet] = field(default_factory=dict)
    halved: dict[str, ColumnSheet] = field(default_factory=dict)
    head: Look = TABLE_HEAD
    head_lead: float = 1.6 * U
    head_rule: float = 4.5
    row: float = 1.5 * U
    baseline: float = 6.6
    family: Look = FAMILY
    family_baseline: float = 5.2
    family_column: str = "part"
    cell: Look = CELL
    total: Look = TOTAL
    box: float = 8.2
    box_line: float = 0.6
    box_number: Look = BOX_NUMBER
    box_pitch: float = 13
    boxes_in_line: int = 7
    blank: float = 34
    needs: int = 3
    whole: int = 5

    @property
    def air(self) -> float:
        """What a row has above and below its lines together."""
        return self.row - self.head.leading

    def keeps(self, place: int, count: int, *, ends: bool) -> bool:
        """Whether a row of a family of so many stays with the next: few all together, of many the first; the last of
        the table (``ends``) with its total."""
        together = count if count < self.whole else self.needs
        return place < together - 1 or (ends and place >= count - self.whole)


@dataclass(frozen=True, slots=True)
class PairsSheet:
    """Facts in columns side by side: the offsets of label and value of each group.

    ``stacked``: in a narrow column of that width, the value under its label, beside what follows, under a rule.
    ``apart``: one after another, so far apart, each going on to the next page where it has to; ``alone`` is where label
    and value of a group that is the only one stand, over the whole width.
    """

    columns: tuple[tuple[float, float, float], ...] = ((0, 78, 240),)
    label: Look = LABEL
    value: Look = VALUE
    lead: float = 1.6 * U
    stacked: float = 0
    rule_above: float = 0
    apart: float = 0
    alone: tuple[float, float, float] | None = None

    @property
    def between(self) -> float:
        """How far one fact begins below the last line of the one before it, listed over the whole width."""
        return self.apart or self.value.leading * 1.25


@dataclass(frozen=True, slots=True)
class NoteSheet:
    """How a note is set: where it begins, how much shorter its lines are, what stands above it; in points."""

    x: float = 0
    short: float = 0
    look: Look = NOTE
    lead: float = 2.2 * U
    rule_above: float = 0
    indent: float = 0
    right: bool = False
    word_air: tuple[float, float] = (U, 0)


@dataclass(frozen=True, slots=True)
class KeySheet:
    """A key with a head over a rule and one drawing in a row, what it means beside it, a figure at the right."""

    head: Look = HEAD
    head_lead: float = 2.6 * U
    head_rule: float = 4.2
    note_lead: float = 2 * U
    first_lead: float = 2.4 * U
    name: Look = PROSE
    detail: Look = Look("serif", 7.75, 10.75)
    drawing: float = 105
    rise: float = 18
    x: float = 130
    short: float = 80
    detail_lead: float = 11.5
    row: float = 58
    bare_row: float = 24


@dataclass(frozen=True, slots=True)
class LegendSheet:
    x: float = 57.5
    look: Look = ENTRY_DETAIL
    lead: float = 16.25
    row: float = 16.25
    rise: float = 6.4
    after_drawing: float = 4
    between: float = 20
    key: KeySheet = field(default_factory=lambda: KeySheet())


@dataclass(frozen=True, slots=True)
class FigureSheet:
    """A timeline: its caption, then the drawing, so many points to a unit of it; a sketch: the drawing, its caption.

    ``share`` of the text is what a sketch takes, where it is not as much of it as the figure says; ``half_share`` is
    what it takes of half of the width, ``smaller`` how much of its share it takes elsewhere.
    """

    caption: Look = Look("sans", 7)
    name: Look = Look("serif", 9, italic=True)
    figure: Look = Look("sans", 6.2)
    lead: float = 2.4 * U
    after: float = 4
    scale: float = 0.62
    curve: float = 0.7
    line: float = 0.7
    tick: float = 0.5
    sketch_scale: float = 0.74
    sketch_lead: float = 0.8 * U
    caption_below: float = 10
    strip_x: float = 0
    strip_scale: float = 1.5
    share: float = 0
    half_share: float = 0.86
    smaller: float = 1.0


@dataclass(frozen=True, slots=True)
class SignaturesSheet:
    attested: Look = SIGNED
    asked: Look = ASKED
    gutter: float = 24
    lead: float = 3.6 * U
    row: float = 3.4 * U
    below: float = 9.5


@dataclass(frozen=True, slots=True)
class LeafSheet:
    """A page that an opening has to itself: baselines from the top of the page, leads from one to the next.

    ``foot`` is where the last line at the foot stands, from the foot of the page; ``strip`` how far above it the player
    strip begins, ``strip_scale`` how large a unit of it may be.
    """

    x: float
    composer: Look
    title: Look
    subtitle: Look
    text: Look
    small: Look
    first: float
    title_lead: float
    subtitle_lead: float
    life_lead: float = 0
    parts: float = 0
    facts_lead: float = 0
    foot: float = 0
    strip: float = 0
    strip_scale: float = 0
    number_x: float = 0


@dataclass(frozen=True, slots=True)
class BookSheet:
    """Pages that are bound: left and right mirrored, numbered in small Roman figures from the title page on."""

    cover: LeafSheet
    title_page: LeafSheet
    folio: Look
    running: Look


@dataclass(frozen=True, slots=True)
class Sheet:
    """The geometry of one kind of document, on its paper, on half a sheet (``halved``) or lengthwise (``turned``).

    ``gutter`` parts two sections that stand side by side.
    """

    halved: bool = False
    turned: bool = False
    margins: Margins = Margins()
    opening: OpeningSheet = OpeningSheet()
    section: SectionSheet = SectionSheet()
    entry: EntrySheet = EntrySheet()
    lines: LinesSheet = LinesSheet()
    list_table: ListTableSheet | None = None
    ruled_table: RuledTableSheet = RuledTableSheet()
    pairs: PairsSheet = PairsSheet()
    prose: NoteSheet = NoteSheet(x=44, look=PROSE, lead=U)
    note: NoteSheet = NoteSheet()
    signed: NoteSheet = NoteSheet(x=44, look=Look("serif", 9.5, italic=True), lead=U, right=True)
    credit: NoteSheet = NoteSheet(x=44, look=Look("serif", 9, 13.5, italic=True), lead=2 * U)
    life: NoteSheet = NoteSheet(x=44, look=Look("serif", 9, 13.5), lead=2 * U, indent=U)
    closing: NoteSheet = NoteSheet(x=44, look=Look("serif", 8, 11.25), lead=26.5, rule_above=11)
    legend: LegendSheet = LegendSheet()
    figure: FigureSheet = FigureSheet()
    signatures: SignaturesSheet = SignaturesSheet()
    book: BookSheet | None = None
    gutter: float = 26
    foot_note: Look = FOLIO
    folio: Look = FOLIO
    running: Look = RUNNING
