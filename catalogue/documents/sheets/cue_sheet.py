"""The cue sheet on the page: large cue numbers for dim light; and in the pocket, on half a sheet, larger still."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.sheets.geometry import (
    FOOT_NOTE,
    KIND,
    ColumnSheet,
    Look,
    Margins,
    NoteSheet,
    OpeningSheet,
    RuledTableSheet,
    Sheet,
    U,
)
from catalogue.documents.sheets.paper import MM

CUE = Look("sans", 11, strong=True)
TEXT = Look("sans", 9.25, emphasis=8)
SMALL = Look("sans", 8)

A4 = Sheet(
    margins=Margins(left=22 * MM, right=18 * MM, first=62, later=62, last=58, foot=13 * MM, running_x=0),
    opening=OpeningSheet(x=0, subtitle=KIND, subtitle_lead=1.4 * U, aside=Look("serif", 8.25, italic=True)),
    ruled_table=RuledTableSheet(
        columns={
            "number": ColumnSheet(0, 30, look=CUE),
            "bar": ColumnSheet(24, 58, right=True),
            "time": ColumnSheet(62, 104, right=True),
            "action": ColumnSheet(122, 354),
            "media": ColumnSheet(358, 428, look=SMALL),
            "length": ColumnSheet(424, 452, right=True, look=SMALL),
            "acts": ColumnSheet(454, 481.9, right=True),
        },
        head=Look("sans", 7, 11),
        row=21,
        cell=TEXT,
        family_column="action",
    ),
    note=NoteSheet(lead=1.6 * U),
    foot_note=FOOT_NOTE,
)
MOVED_OUT = {
    "action": ColumnSheet(122, 362),
    "media": ColumnSheet(366, 440, look=SMALL),
    "length": ColumnSheet(438, 466, right=True, look=SMALL),
    "acts": ColumnSheet(470, 498.6, right=True),
}
LETTER = replace(A4, ruled_table=replace(A4.ruled_table, columns={**A4.ruled_table.columns, **MOVED_OUT}))

POCKET = Sheet(
    halved=True,
    margins=Margins(left=13 * MM, right=11 * MM, first=48, later=50, last=46, foot=9 * MM, running=9 * MM, running_x=0),
    opening=OpeningSheet(
        x=0, title=Look("serif", 15, 20), title_lead=22, subtitle=KIND, subtitle_lead=16,
        aside=Look("serif", 7.75, italic=True),
    ),
    ruled_table=RuledTableSheet(
        columns={
            "number": ColumnSheet(0, 34, look=Look("sans", 15, strong=True)),
            "bar": ColumnSheet(28, 76, right=True, look=Look("sans", 12.5)),
            "time": ColumnSheet(74, 122, right=True, look=Look("sans", 12.5, emphasis=9)),
            "action": ColumnSheet(134, 300),
            "acts": ColumnSheet(302, 351, right=True),
        },
        head=Look("sans", 7, 14),
        row=29,
        baseline=9,
        cell=Look("sans", 11, emphasis=9),
        family_column="action",
        family_baseline=8,
        family=Look("serif", 10.5, italic=True),
    ),
    note=NoteSheet(look=Look("serif", 7.5, 9.5), lead=18),
    foot_note=FOOT_NOTE,
)  # fmt: skip
