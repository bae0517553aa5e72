"""The parts checklist on the page: a form to write on, black only, rows high enough for a pencil."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.sheets.geometry import (
    FOOT_NOTE,
    KIND,
    ColumnSheet,
    Margins,
    OpeningSheet,
    PairsSheet,
    RuledTableSheet,
    Sheet,
    U,
)
from catalogue.documents.sheets.paper import MM

A4 = Sheet(
    margins=Margins(left=20 * MM, right=18 * MM, first=60, later=62, last=58, foot=13 * MM, running_x=0),
    opening=OpeningSheet(x=0, subtitle=KIND, subtitle_lead=1.4 * U),
    ruled_table=RuledTableSheet(
        columns={
            "number": ColumnSheet(0, 22),
            "part": ColumnSheet(22, 168),
            "copies": ColumnSheet(168, 186, right=True),
            "out": ColumnSheet(200, 298),
            "back": ColumnSheet(298, 396),
            "remarks": ColumnSheet(396, 487.6),
        }
    ),
    pairs=PairsSheet(columns=((0, 78, 240), (252, 310, 487.6))),
    foot_note=FOOT_NOTE,
)

LETTER = replace(A4, ruled_table=replace(A4.ruled_table, row=19, baseline=6.2, family_baseline=4.8))
