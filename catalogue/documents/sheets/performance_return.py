"""The performance return on the page: a wide form, lengthwise."""

from __future__ import annotations

from catalogue.documents.sheets.geometry import (
    ColumnSheet,
    Look,
    Margins,
    NoteSheet,
    OpeningSheet,
    PairsSheet,
    RuledTableSheet,
    Sheet,
    U,
)
from catalogue.documents.sheets.paper import MM

WIDTHS = {
    "number": 14, "date": 50, "hall": 92, "event": 106, "performers": 112, "work": 106, "iswc": 66, "duration": 42,
    "live": 44, "programme": 46,
}  # fmt: skip


def columns(width: float) -> dict[str, ColumnSheet]:
    """The columns one after another, the rest of the width shared between them."""
    gutter = (width - sum(WIDTHS.values())) / (len(WIDTHS) - 1)
    found: dict[str, ColumnSheet] = {}
    x = 0.0
    for key, wide in WIDTHS.items():
        found[key] = ColumnSheet(x, x + wide, right=key == "duration")
        x += wide + gutter
    return found


def sheet(width: float) -> Sheet:
    return Sheet(
        turned=True,
        margins=Margins(left=18 * MM, right=18 * MM, first=66, later=62, last=58, foot=13 * MM, running_x=0),
        opening=OpeningSheet(x=0, title_lead=0, aside=Look("serif", 8.5, italic=True)),
        pairs=PairsSheet(columns=((0, 72, 250), (256, 320, 500), (520, 578, width)), lead=2 * U),
        ruled_table=RuledTableSheet(
            columns=columns(width),
            head=Look("sans", 6.8, 8.6),
            head_lead=2.4 * U,
            row=9.2 + 9.4,
            baseline=6.6,
            cell=Look("sans", 7.4, 9.2),
            family_column="hall",
        ),
        note=NoteSheet(look=Look("serif", 8.25, 11.25), lead=1.6 * U),
    )


A4 = sheet(297 * MM - 36 * MM)
LETTER = sheet(792 - 36 * MM)
