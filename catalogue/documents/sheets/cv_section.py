"""The CV section on the page, and the press sheet beside it."""

from __future__ import annotations

from dataclasses import replace

from catalogue.documents.sheets.geometry import (
    INKED_HEAD,
    PROSE,
    SUBTITLE,
    NoteSheet,
    OpeningSheet,
    PairsSheet,
    SectionSheet,
    Sheet,
    U,
)

CV_SECTION = Sheet(
    opening=OpeningSheet(subtitle=SUBTITLE, subtitle_lead=1.4 * U),
    section=SectionSheet(head=INKED_HEAD, lead=2.3 * U, first_lead=2.2 * U, after=1.4 * U, continued_after=1.4 * U),
)

PRESS_SHEET = replace(
    CV_SECTION,
    pairs=PairsSheet(columns=((44, 122, 467.7),)),
    prose=NoteSheet(x=44, short=20, look=PROSE, lead=U, indent=U),
    note=NoteSheet(x=44, short=20, look=PROSE, lead=1.6 * U),
)
