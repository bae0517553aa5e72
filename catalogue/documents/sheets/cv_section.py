"""The CV section on the page."""

from __future__ import annotations

from catalogue.documents.sheets.geometry import INKED_HEAD, SUBTITLE, OpeningSheet, SectionSheet, Sheet, U

CV_SECTION = Sheet(
    opening=OpeningSheet(subtitle=SUBTITLE, subtitle_lead=1.4 * U),
    section=SectionSheet(head=INKED_HEAD, lead=2.3 * U, first_lead=2.2 * U, after=1.4 * U, continued_after=1.4 * U),
)
