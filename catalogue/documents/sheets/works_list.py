"""The works list on the page: by category with strips, by year in two lines an entry."""

from __future__ import annotations

from catalogue.documents.sheets.geometry import (
    ENTRY_DETAIL,
    INKED_HEAD,
    ColumnSheet,
    ListTableSheet,
    Look,
    Margins,
    NoteSheet,
    SectionSheet,
    Sheet,
)

SEE_ALSO = Look("serif", 8.5, 11.25, italic=True)

BY_CATEGORY = Sheet(
    section=SectionSheet(head=INKED_HEAD, lead=30.05),
    credit=NoteSheet(x=44, short=8, look=SEE_ALSO, lead=18),
    note=NoteSheet(x=57.5, short=8, look=ENTRY_DETAIL, lead=13.25),
)

BY_YEAR = Sheet(
    margins=Margins(first=82),
    list_table=ListTableSheet(
        columns={
            "title": ColumnSheet(44, 310, turn=57.5),
            "duration": ColumnSheet(310, 341.7, right=True),
            "first": ColumnSheet(355.7, 467.7),
        }
    ),
)
