"""The front matter of a score, measured at A3 and reduced for smaller papers.

Margins of scores: an Australian orchestra asks for 25 at the sides, 35 above, 30 below on A3, and less in proportion
on smaller papers; the inner margin is wider here, for the binding (common practice).
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from typing import Any, TypeVar

from catalogue.documents.model import Paper
from catalogue.documents.sheets.geometry import (
    BookSheet,
    ColumnSheet,
    FigureSheet,
    KeySheet,
    LeafSheet,
    LegendSheet,
    ListTableSheet,
    Look,
    Margins,
    NoteSheet,
    PairsSheet,
    SectionSheet,
    Sheet,
)
from catalogue.documents.sheets.paper import MM, SIZES

S = TypeVar("S")

REDUCED = {
    Paper.A3: 1.0,
    Paper.TABLOID: 1.0,
    Paper.B4: 0.84,
    Paper.TEN_BY_THIRTEEN: 0.79,
    Paper.NINE_BY_TWELVE: 0.73,
    Paper.A4: 0.707,
    Paper.LETTER: 0.707,
}
"""How much smaller than at A3 everything is."""
INNER, OUTER, SINK, BOTTOM = 30 * MM, 25 * MM, 42 * MM, 30 * MM
NARROW_OUTER = {Paper.TABLOID: 24 * MM, Paper.LETTER: 24 * MM}
TEXT_X, MEASURE = 120.0, 500.0
TEXT = Look("serif", 13.25, 19, emphasis=12.25)
SMALL = Look("serif", 11, 15.2)
LABEL = Look("serif", 11, 19, italic=True)
ASIDE = Look("serif", 12.25, 19, italic=True)
PROSE = Look("serif", 14, 20.5)


@lru_cache(8)
def front_matter_sheet(paper: Paper) -> Sheet:
    """The sheet for a paper."""
    return scaled(at_a3(paper), REDUCED[paper])


def at_a3(paper: Paper) -> Sheet:
    """The sheet as if the paper were as high as A3; lines of prose are as long on every paper."""
    size, reduced = SIZES[paper], REDUCED[paper]
    outer = NARROW_OUTER.get(paper, OUTER)
    width = size.width / reduced - INNER - outer
    short = max(0.0, width - TEXT_X - MEASURE)
    prose = NoteSheet(x=TEXT_X, short=short, look=PROSE, lead=PROSE.leading, indent=20)
    return Sheet(
        margins=Margins(INNER, outer, first=SINK, later=SINK, last=BOTTOM + 19, foot=18 * MM),
        section=SectionSheet(
            x=0, head=Look("serif", 23, 28, emphasis=14), aside=ASIDE, lead=58, first_lead=58, after=44,
            continued_after=44, begins=True, aside_below=28,
        ),
        list_table=list_table(width),
        pairs=PairsSheet(
            columns=((0, TEXT_X, TEXT_X + MEASURE),), label=LABEL, value=TEXT, lead=30, apart=29.5
        ),
        prose=prose,
        note=NoteSheet(x=TEXT_X, short=short, look=SMALL, lead=30),
        signed=NoteSheet(x=TEXT_X, short=short, look=Look("serif", 13.25, 19, italic=True), lead=26, right=True),
        credit=NoteSheet(x=TEXT_X, short=short, look=Look("serif", 13.25, 19, italic=True), lead=40),
        closing=NoteSheet(x=TEXT_X, short=short, look=SMALL, lead=30),
        legend=LegendSheet(key=key_sheet(width, size.height / reduced)),
        figure=FigureSheet(
            caption=SMALL, sketch_scale=1.0, sketch_lead=22, caption_below=18, strip_x=TEXT_X, strip_scale=2.2
        ),
        book=BookSheet(COVER, TITLE_PAGE, folio=SMALL, running=Look("serif", 11, 15.2, italic=True)),
        running=Look("serif", 11, 15.2, italic=True),
        folio=SMALL,
        foot_note=SMALL,
    )  # fmt: skip


def list_table(width: float) -> ListTableSheet:
    """Chairs in one column or in two side by side; movements; words and their translation."""
    middle = (TEXT_X + width) / 2
    columns = {
        "numeral": ColumnSheet(TEXT_X, TEXT_X + 30),
        "movement": ColumnSheet(TEXT_X + 30, TEXT_X + 290, turn=TEXT_X + 44),
        "lasts": ColumnSheet(TEXT_X + 300, TEXT_X + 400, right=True),
        "chair": ColumnSheet(TEXT_X, TEXT_X + 145, turn=TEXT_X + 14),
        "also": ColumnSheet(TEXT_X + 150, width, turn=TEXT_X + 164, look=ASIDE),
        "left-chair": ColumnSheet(TEXT_X, TEXT_X + 84, turn=TEXT_X + 14),
        "left-also": ColumnSheet(TEXT_X + 88, middle - 10, turn=TEXT_X + 102, look=ASIDE),
        "right-chair": ColumnSheet(middle, middle + 84, turn=middle + 14),
        "right-also": ColumnSheet(middle + 88, width, turn=middle + 102, look=ASIDE),
        "words": ColumnSheet(0, width / 2 - 14, turn=16),
        "translation": ColumnSheet(width / 2 + 14, width, turn=width / 2 + 30, look=ASIDE),
    }
    return ListTableSheet(
        columns=columns, label=LABEL, title=TEXT, cell=TEXT, row_lead=19, first_lead=28, group_lead=29, whole=9,
        bare=True, rule_above=24, head_lead=40, head_rule=5, head=ASIDE, label_end=TEXT_X - 10,
    )  # fmt: skip


def key_sheet(width: float, height: float) -> KeySheet:
    """The key; on paper that is less high for its width its rows stand closer."""
    close = min(1.0, height / SIZES[Paper.A3].height)
    return KeySheet(
        head=Look("serif", 17.5, 22), head_lead=50 * close, head_rule=7, note_lead=30, first_lead=58 * close, name=TEXT,
        detail=Look("serif", 11, 15.2), drawing=148, rise=34, x=185, short=min(130, width / 4), detail_lead=16,
        row=83 * close, bare_row=34,
    )  # fmt: skip


COVER = LeafSheet(
    x=80,
    composer=Look("serif", 25, 32),
    title=Look("serif", 66, 74, inked=True),
    subtitle=Look("serif", 19, 26),
    text=TEXT,
    small=Look("serif", 16, 22),
    first=300,
    title_lead=84,
    subtitle_lead=48,
    foot=119,
    strip=132,
    strip_scale=7,
)
TITLE_PAGE = LeafSheet(
    x=TEXT_X,
    composer=Look("serif", 22, 28),
    title=Look("serif", 46, 54),
    subtitle=Look("serif", 17, 24),
    text=TEXT,
    small=SMALL,
    first=250,
    title_lead=65,
    subtitle_lead=40,
    life_lead=31,
    parts=500,
    facts_lead=57,
    foot=159,
    number_x=34,
)


def scaled(part: S, factor: float) -> S:
    """Every length and size in a part of a sheet multiplied; numbers of things stay."""
    if isinstance(part, dict):
        return {key: scaled(one, factor) for key, one in part.items()}  # type: ignore[return-value]
    if isinstance(part, tuple):
        return tuple(scaled(one, factor) for one in part)  # type: ignore[return-value]
    if isinstance(part, bool) or not (isinstance(part, float | int) or is_dataclass(part)):
        return part
    if isinstance(part, float | int):
        return part * factor  # type: ignore[return-value]
    changed: dict[str, Any] = {
        one.name: scaled(getattr(part, one.name), factor) for one in fields(part) if one.type != "int"
    }
    return replace(part, **changed)  # type: ignore[type-var]
