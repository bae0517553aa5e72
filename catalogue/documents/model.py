"""What a document says: a small tree of frozen blocks without looks.

Contents modules build it, renderers set it. A text is a tuple of runs; a run is either the
document's own wording or one value from a record. A value is an isolate (Unicode Standard
Annex 9, section 2.4): the direction of what stands in it never changes the order of what stands
around it, and what is typed into it is never markup.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from catalogue.drawings.player_strip import Strip
from catalogue.drawings.sketch import Drawable
from catalogue.drawings.timeline import Course
from catalogue.terms import FaceFamily, HouseStyle, PaperMargins

APOSTROPHE = re.compile(r"(?<=[^\W\d_])'(?=[^\W\d_])")
"""A straight apostrophe inside a word."""
POSSESSIVE = re.compile(r"(?<=[^\W\d_]s)'(?=\s)")
"""A straight apostrophe after a plural; a quotation has two."""


class Style(StrEnum):
    """What a run is in its sentence; a renderer chooses the face."""

    PLAIN = "plain"
    TITLE = "title"
    EMPHASIS = "emphasis"
    STRONG = "strong"

    __hash__ = str.__hash__  # that of enumerations runs in Python, and every text that is looked up asks for it


class Paper(StrEnum):
    """Sizes of paper by the names of the trade; scores are printed on the larger ones too."""

    A4 = "a4"
    LETTER = "letter"
    A3 = "a3"
    B4 = "b4"
    TABLOID = "tabloid"
    NINE_BY_TWELVE = "9x12"
    TEN_BY_THIRTEEN = "10x13"


OFFICE = (Paper.A4, Paper.LETTER)
"""Papers for everything that is not bound with a score."""


class Run(NamedTuple):
    """A piece of text in one style and one language.

    ``language`` (BCP 47) is empty where it is the document's. ``instead`` is what a page prints where it has no
    typeface for the script: the same in Latin letters, or nothing where that stands beside it.
    """

    text: str
    style: Style = Style.PLAIN
    language: str = ""
    value: bool = False
    instead: str | None = None

    @property
    def right_to_left(self) -> bool:
        """Whether the first strong character reads from right to left (Unicode Standard Annex 9, rule P2)."""
        return next(
            (kind != "L" for kind in map(unicodedata.bidirectional, self.text) if kind in ("L", "R", "AL")), False
        )

    @property
    def slants(self) -> bool:
        """Whether its script has italics: not what reads from right to left, nor the scripts of East Asia."""
        return not self.right_to_left and not any(unicodedata.east_asian_width(sign) == "W" for sign in self.text)


Text = tuple[Run, ...]


def wording(text: str, style: Style = Style.PLAIN) -> Text:
    """The document's own words as a text; no words, no runs."""
    return (Run(text, style),) if text else ()


def value(text: str, style: Style = Style.PLAIN, language: str = "", *, exact: bool = False) -> Text:
    """One value from a record as a text; an empty value is an empty text.

    ``exact`` is for addresses and names of files, in which every sign counts.
    """
    return (Run(text if exact else typeset(text), style, language, value=True),) if text else ()


def typeset(text: str) -> str:
    """The text with the apostrophes that typewriters have not.

    >>> typeset("the inspector's lunch, 10'30"), typeset("Authors' Society"), typeset("the 'Authors' Society'")
    ("the inspector’s lunch, 10'30", 'Authors’ Society', "the 'Authors' Society'")
    """
    if "'" not in text:
        return text
    inside = APOSTROPHE.sub("\N{RIGHT SINGLE QUOTATION MARK}", text)
    return POSSESSIVE.sub("\N{RIGHT SINGLE QUOTATION MARK}", inside) if inside.count("'") == 1 else inside


def joined(texts: tuple[Text, ...], separator: str) -> Text:
    """The texts that say something, with the separator between them.

    >>> plain(joined((wording("Leeds"), (), wording("2026")), ", "))
    'Leeds, 2026'
    """
    runs: list[Run] = []
    for text in texts:
        if text:
            runs += [Run(separator), *text] if runs else text
    return tuple(runs)


def from_the_right(text: Text) -> bool:
    """Whether the whole text reads from right to left: so does each of its runs that has letters."""
    lettered = [run for run in text if any(map(str.isalpha, run.text))]
    return bool(lettered) and all(run.right_to_left for run in lettered)


def plain(text: Text) -> str:
    """The characters of a text in reading order."""
    return "".join(run.text for run in text)


class Leaf(StrEnum):
    """A page that an opening has to itself; each begins on the right."""

    NONE = "none"
    COVER = "cover"
    TITLE_PAGE = "title page"


@dataclass(frozen=True, slots=True)
class Opening:
    """What stands above everything: whose, what, of which kind.

    The ``letterhead`` of a house stands over it line by line. ``life`` stands under the composer's name, ``aside`` is
    the contact opposite the kind, ``above`` what stands over that. On a leaf of its own, ``parts`` are listed and
    ``facts`` told below, and ``foot`` stands at its foot: on a cover over the whole width under the ``forces`` as they
    are drawn, on a title page line by line.
    """

    title: Text
    composer: Text = ()
    subtitle: Text = ()
    aside: Text = ()
    above: Text = ()
    life: Text = ()
    leaf: Leaf = Leaf.NONE
    parts: tuple[Line, ...] = ()
    facts: tuple[Text, ...] = ()
    forces: Strip | None = None
    foot: tuple[Text, ...] = ()
    letterhead: tuple[Text, ...] = ()


class Voice(StrEnum):
    """Who speaks: an author, who signs; a credit or a reference; a life; a note on the sheet; a list that ends."""

    PROSE = "prose"
    SIGNED = "signed"
    CREDIT = "credit"
    LIFE = "life"
    NOTE = "note"
    CLOSING = "closing"


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Running text."""

    text: Text
    voice: Voice = Voice.PROSE


@dataclass(frozen=True, slots=True)
class Entry:
    """A work as a list prints it: its title, what stands beside it, its duration, its forces, its details."""

    title: Text
    year: Text = ()
    number: Text = ()
    edition: Text = ()
    figure: Text = ()
    strip: Strip | None = None
    details: tuple[Text, ...] = ()

    @property
    def margin(self) -> tuple[Text, ...]:
        """What is known of year, number and edition, each on a line of its own."""
        return tuple(text for text in (self.year, self.number, self.edition) if text)


@dataclass(frozen=True, slots=True)
class Line:
    """One line under a label (a year); lines with the same label follow one another."""

    label: str
    text: Text


@dataclass(frozen=True, slots=True)
class Lines:
    """Lines under their labels, one after another."""

    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class Pair:
    """A fact with its label."""

    label: Text
    value: Text


@dataclass(frozen=True, slots=True)
class Pairs:
    """Facts, each with its label, in groups that belong together."""

    groups: tuple[tuple[Pair, ...], ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one place of a table: lines of text, boxes to tick (each with its mark), or a blank to fill in."""

    lines: tuple[Text, ...] = ()
    boxes: tuple[str, ...] = ()
    blank: bool = False


@dataclass(frozen=True, slots=True)
class Column:
    """``key`` is what sheets know a column by; ``head`` what a reader sees.

    ``by_script``: running text, which begins at the right where its script does.
    """

    key: str
    head: Text = ()
    by_script: bool = False


@dataclass(frozen=True, slots=True)
class Group:
    """Rows under one label: a year, a family; an empty label for rows that need none."""

    label: Text
    rows: tuple[tuple[Cell, ...], ...]


@dataclass(frozen=True, slots=True)
class Table:
    """Columns, rows in groups, and a row of totals where there is one."""

    columns: tuple[Column, ...]
    groups: tuple[Group, ...]
    total: tuple[Cell, ...] = ()


@dataclass(frozen=True, slots=True)
class Sign:
    """A drawing with what it means; in a key also an explanation below and a figure opposite."""

    drawing: Strip | Drawable | None
    meaning: Text
    detail: Text = ()
    figure: Text = ()


@dataclass(frozen=True, slots=True)
class Legend:
    """What the drawings of a document mean, side by side; under a ``head`` as a key, one in a row, after a note."""

    signs: tuple[Sign, ...]
    head: Text = ()
    note: Text = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """A timeline, a sketch or a strip, as wide as its ``share`` of the page; what it shows is said in words as well."""

    drawing: Course | Drawable | Strip
    caption: Text
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Signatures:
    """Lines to sign on: what each attests, and what is to be written there."""

    attested: tuple[Text, ...]
    asked: Text


@dataclass(frozen=True, slots=True)
class Section:
    """A head with what stands under it; ``aside`` says what the selection is part of. A key explains the document.

    Where sections begin pages, one that ``runs_on`` follows on the page of the one before. Two ``half`` ones that
    follow one another stand side by side on paper, where both have room on a page.
    """

    head: Text
    blocks: tuple[Block, ...]
    aside: Text = ()
    key: bool = False
    runs_on: bool = False
    half: bool = False


Block = Opening | Section | Paragraph | Entry | Lines | Pairs | Table | Legend | Figure | Signatures


@dataclass(frozen=True, slots=True)
class Logo:
    """A picture at the head of a document, as PNG, and what it shows in words; ``width`` and ``height`` in pixels."""

    png: bytes
    width: int
    height: int
    alternative: str


@dataclass(frozen=True, slots=True)
class Adjustments:
    """What a composer's papers have instead of what their house style has: faces, ink (#rrggbb), margins, a logo."""

    face: FaceFamily | None = None
    ink: str = ""
    margins: PaperMargins = PaperMargins.USUAL
    logo: Logo | None = None


@dataclass(frozen=True, slots=True)
class Document:
    """A whole document: ``kind`` chooses its sheet, ``running`` heads every page from the second on, left and right.

    ``house`` is the style of the composer's papers, ``adjusted`` what they have instead.
    ``data`` is what a spreadsheet is told where that differs from what
    is printed, ``left_out`` what did not fit, ``lacking`` what is usual and not known; both are told to whoever asked,
    not printed.
    """

    kind: str
    title: str
    author: str
    language: str
    paper: Paper
    blocks: tuple[Block, ...]
    running: tuple[Text, Text] = ((), ())
    dated: Text = ()
    house: HouseStyle = HouseStyle.CLASSIC
    adjusted: Adjustments = Adjustments()
    data: Table | None = None
    left_out: Text = ()
    lacking: tuple[str, ...] = ()
