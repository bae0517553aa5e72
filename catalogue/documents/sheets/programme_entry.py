"""The programme entry on the page: facts in a narrow column, the note in a wide one."""

from __future__ import annotations

from catalogue.documents.sheets.geometry import LinesSheet, Look, NoteSheet, OpeningSheet, PairsSheet, Sheet, U

TEXT_X = 108

PROGRAMME_ENTRY = Sheet(
    opening=OpeningSheet(
        x=TEXT_X,
        composer=Look("serif", 12.5),
        life=Look("serif", 9, italic=True),
        life_lead=14,
        title=Look("serif", 24, 30),
        title_lead=30,
        subtitle=Look("serif", 11),
        subtitle_lead=23,
    ),
    lines=LinesSheet(
        label_x=TEXT_X,
        text_x=TEXT_X + 24,
        turn_x=TEXT_X + 37.5,
        look=Look("serif", 10),
        lead=U,
        first_lead=2 * U,
    ),
    pairs=PairsSheet(
        label=Look("serif", 8.25, 11.25, italic=True),
        value=Look("serif", 8.25, 11.25),
        stacked=92,
        lead=2.8 * U,
        rule_above=1.2 * U,
    ),
    prose=NoteSheet(x=TEXT_X, short=6, look=Look("serif", 10, 15), lead=15, indent=U),
    signed=NoteSheet(x=TEXT_X, short=6, look=Look("serif", 9.5, italic=True), lead=18, right=True),
    credit=NoteSheet(x=TEXT_X, short=6, look=Look("serif", 9, 13.5, italic=True), lead=30),
    life=NoteSheet(x=TEXT_X, short=6, look=Look("serif", 9, 13.5), lead=34, indent=U),
)
