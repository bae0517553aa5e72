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

FIXED = {"number": 14, "date": 50, "iswc": 66, "duration": 42, "live": 44, "programme": 40}
SHARES = {"hall": 92, "event": 106, "performers": 112, "work": 106}
ORDER = ("number", "date", "hall", "event", "performers", "work", "iswc", "duration", "live", "programme")
GUTTER, AFTER_FIGURES = 7.0, 5.0


def columns(width: float) -> dict[str, ColumnSheet]:
    """The columns one after another; those of names share what the others leave.

    What follows the figures that end at the right stands further off.
    """
    left = width - sum(FIXED.values()) - GUTTER * (len(ORDER) - 1) - AFTER_FIGURES
    found: dict[str, ColumnSheet] = {}
    x = 0.0
    for key in ORDER:
        wide = FIXED[key] if key in FIXED else left * SHARES[key] / sum(SHARES.values())
        found[key] = ColumnSheet(x, x + wide, right=key == "duration")
        x += wide + GUTTER + (AFTER_FIGURES if key == "duration" else 0)
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
