"""The papers of a submission on the page: its cover sheet, one text alone, the cover of a score."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.sheets.cv_section import PRESS_SHEET
from catalogue.documents.sheets.geometry import Look, Margins, NoteSheet, OpeningSheet, Sheet, U

COVER_SHEET = PRESS_SHEET
TEXT_SHEET = replace(PRESS_SHEET, prose=NoteSheet(x=44, short=20, look=Look("serif", 10.5, 15.5), lead=2 * U, indent=U))
SCORE_COVER = Sheet(
    margins=Margins(first=300),
    opening=OpeningSheet(
        composer=Look("serif", 14),
        life=Look("serif", 10.5),
        life_lead=1.6 * U,
        title=Look("serif", 28, 36),
        title_lead=48,
        subtitle=Look("serif", 12, 16, italic=True),
        subtitle_lead=26,
    ),
)
