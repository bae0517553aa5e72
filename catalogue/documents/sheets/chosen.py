"""Which sheet a kind of document is set on; a kind without one of its own takes the plain sheet."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from catalogue.documents.model import Adjustments, Document, Paper
from catalogue.documents.sheets import cue_sheet, hires, performance_return, rider
from catalogue.documents.sheets.cv_section import CV_SECTION, PRESS_SHEET
from catalogue.documents.sheets.front_matter import front_matter_sheet
from catalogue.documents.sheets.geometry import Sheet
from catalogue.documents.sheets.houses import UNADJUSTED, dressed
from catalogue.documents.sheets.paper import SIZES, Size
from catalogue.documents.sheets.parts_checklist import A4, LETTER
from catalogue.documents.sheets.performance_history import PERFORMANCE_HISTORY
from catalogue.documents.sheets.programme_entry import PROGRAMME_ENTRY
from catalogue.documents.sheets.submissions import COVER_SHEET, SCORE_COVER, TEXT_SHEET
from catalogue.documents.sheets.works_list import BY_CATEGORY, BY_YEAR
from catalogue.terms import HouseStyle

SHEETS = {
    "works-list-by-category": BY_CATEGORY,
    "works-list-by-year": BY_YEAR,
    "works-list-by-forces": BY_CATEGORY,
    "works-list-by-duration": BY_CATEGORY,
    "parts-checklist": A4,
    "cv-section": CV_SECTION,
    "press-sheet": PRESS_SHEET,
    "programme-entry": PROGRAMME_ENTRY,
    "performance-history": PERFORMANCE_HISTORY,
    "performance-return": performance_return.A4,
    "delivery-note": hires.DELIVERY_NOTE,
    "arrival-check": hires.CHECK,
    "return-check": hires.CHECK,
    "missing-parts-letter": hires.LETTER,
    "hire-statement": hires.STATEMENT,
    "rider": rider.RIDER,
    "cue-sheet": cue_sheet.A4,
    "cue-sheet-pocket": cue_sheet.POCKET,
    "cover-sheet": COVER_SHEET,
    "text-sheet": TEXT_SHEET,
    "score-cover": SCORE_COVER,
}
ON_LETTER = {
    "parts-checklist": LETTER,
    "cue-sheet": cue_sheet.LETTER,
    "performance-return": performance_return.LETTER,
    "rider": rider.LETTER,
}


@lru_cache(128)
def sheet_of(
    kind: str, paper: Paper, house: HouseStyle = HouseStyle.CLASSIC, adjusted: Adjustments = UNADJUSTED
) -> Sheet:
    """The sheet of a kind, dressed in a house's style and what is adjusted of it."""
    if kind == "front-matter":
        return dressed(front_matter_sheet(paper), house, adjusted)
    if paper is Paper.LETTER and kind in ON_LETTER:
        return dressed(ON_LETTER[kind], house, adjusted)
    return dressed(SHEETS.get(kind, Sheet()), house, adjusted)


def sheet_for(document: Document) -> Sheet:
    """The sheet that a document is set on."""
    return sheet_of(document.kind, document.paper, document.house, replace(document.adjusted, logo=None))


def size_of(kind: str, paper: Paper) -> Size:
    """The page that a kind is set on: the paper, lengthwise, or half a sheet of it."""
    whole = SIZES[paper]
    sheet = sheet_of(kind, paper)
    if sheet.turned:
        return Size(whole.height, whole.width)
    return Size(whole.height / 2, whole.width) if sheet.halved else whole
