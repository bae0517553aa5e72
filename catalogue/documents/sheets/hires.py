"""The papers of a hire on the page: forms, black only, rows high enough for a pencil."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.sheets.geometry import (
    KIND,
    PROSE,
    ColumnSheet,
    Look,
    Margins,
    NoteSheet,
    OpeningSheet,
    PairsSheet,
    RuledTableSheet,
    SectionSheet,
    Sheet,
    SignaturesSheet,
    U,
)

W = 467.7
ROW, BASELINE = 19.0, 6.2
WRAPPED = Look("sans", 8, 9.5)

FORM = Sheet(
    margins=Margins(first=62, later=62, last=62, running_x=0),
    opening=OpeningSheet(x=0, subtitle=KIND),
    pairs=PairsSheet(columns=((0, 62, 262), (276, 324, W)), lead=1.8 * U),
    section=SectionSheet(x=0, head=Look("serif", 10.5), lead=1.8 * U, after=1.15 * U, whole=0.3),
    note=NoteSheet(look=Look("serif", 8.25, 11.25), lead=1.2 * U),
    prose=NoteSheet(x=0, look=PROSE, lead=1.6 * U),
    signed=NoteSheet(x=0, look=PROSE, lead=3 * U),
    signatures=SignaturesSheet(lead=3.2 * U),
)


def with_columns(column: str, **columns: ColumnSheet) -> Sheet:
    table = RuledTableSheet(columns=columns, row=ROW, baseline=BASELINE, family_baseline=4.8, family_column=column)
    return replace(FORM, ruled_table=table)


DELIVERY_NOTE = with_columns(
    "what",
    what=ColumnSheet(0, 252),
    set=ColumnSheet(258, 312),
    copies=ColumnSheet(312, 340, right=True),
    numbers=ColumnSheet(368, 424),
    received=ColumnSheet(430, W),
)
CHECK = with_columns(
    "part",
    number=ColumnSheet(0, 22),
    part=ColumnSheet(22, 176),
    copies=ColumnSheet(176, 196, right=True),
    out=ColumnSheet(212, 304),
    remarks=ColumnSheet(310, 420, look=WRAPPED),
    charge=ColumnSheet(424, W, right=True),
)
LETTER = with_columns(
    "part",
    number=ColumnSheet(0, 22),
    part=ColumnSheet(22, 190),
    copies=ColumnSheet(190, 226, right=True),
    remarks=ColumnSheet(240, 410, look=WRAPPED),
    charge=ColumnSheet(416, W, right=True),
)
STATEMENT = with_columns(
    "what",
    what=ColumnSheet(0, 200, look=WRAPPED),
    reckoned=ColumnSheet(206, 390, look=WRAPPED),
    number=ColumnSheet(0, 46),
    hirer=ColumnSheet(50, 142, look=WRAPPED),
    work=ColumnSheet(148, 276, look=WRAPPED),
    out=ColumnSheet(282, 334, look=WRAPPED),
    back=ColumnSheet(338, 400, look=WRAPPED),
    amount=ColumnSheet(400, W, right=True),
)
"""One hire has its first two columns, several have those after them; both end in amounts."""
