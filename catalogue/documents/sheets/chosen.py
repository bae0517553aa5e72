"""Which sheet a kind of document is set on; a kind without one of its own takes the plain sheet."""

from __future__ import annotations

from catalogue.documents.model import Paper
from catalogue.documents.sheets.cv_section import CV_SECTION
from catalogue.documents.sheets.geometry import Sheet
from catalogue.documents.sheets.parts_checklist import A4, LETTER
from catalogue.documents.sheets.works_list import BY_CATEGORY, BY_YEAR

SHEETS = {
    "works-list-by-category": BY_CATEGORY,
    "works-list-by-year": BY_YEAR,
    "parts-checklist": A4,
    "cv-section": CV_SECTION,
}
ON_LETTER = {"parts-checklist": LETTER}


def sheet_of(kind: str, paper: Paper) -> Sheet:
    if paper is Paper.LETTER and kind in ON_LETTER:
        return ON_LETTER[kind]
    return SHEETS.get(kind, Sheet())
