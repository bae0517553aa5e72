"""The programme entry on the page: facts in a narrow column, the note in a wide one."""

from __future__ import annotations

from catalogue.documents.sheets.geometry import (
    ColumnSheet,
    LinesSheet,
    ListTableSheet,
    Look,
    NoteSheet,
    OpeningSheet,
    PairsSheet,
    SectionSheet,
    Sheet,
    U,
)

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
    section=SectionSheet(x=TEXT_X, lead=3 * U, first_lead=3 * U, after=1.6 * U, begins=True, aside_below=U),
    list_table=ListTableSheet(
        columns={
            "words": ColumnSheet(TEXT_X, TEXT_X + 170, turn=TEXT_X + 10),
            "translation": ColumnSheet(TEXT_X + 184, 467.7, turn=TEXT_X + 194),
        },
        head_lead=1.4 * U,
        rule_x=TEXT_X,
        title=Look("serif", 9, 12.5),
        cell=Look("serif", 9, 12.5),
        row_lead=12.5,
        group_lead=19,
        whole=8,
    ),
    note=NoteSheet(x=TEXT_X, lead=1.4 * U),
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
