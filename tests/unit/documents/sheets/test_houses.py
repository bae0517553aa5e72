"""The house styles: faces and inks change, measures do not."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from io import BytesIO
from typing import Any

import docx
import pytest
from pikepdf import Pdf

from catalogue.documents.model import Paper
from catalogue.documents.registry import pages_of, render
from catalogue.documents.sheets.chosen import SHEETS, sheet_of
from catalogue.documents.sheets.geometry import Look
from catalogue.documents.sheets.houses import HOUSES
from catalogue.terms import HouseStyle
from tests.reference.documents.house import works_by


def looks(part: Any) -> list[Look]:
    if isinstance(part, Look):
        return [part]
    inner = part.values() if isinstance(part, dict) else ()
    if is_dataclass(part):
        inner = [getattr(part, one.name) for one in fields(part)]
    return [look for one in inner for look in looks(one)]


def luminance(colour: tuple[float, float, float]) -> float:
    """Relative luminance (WCAG 2.2)."""
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in colour]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@pytest.mark.parametrize("style", HouseStyle)
def test_ink_of_a_house_stands_out_from_the_paper(style: HouseStyle) -> None:
    assert 1.05 / (luminance(HOUSES[style].ink) + 0.05) >= 9


@pytest.mark.parametrize("kind", SHEETS)
def test_clear_papers_have_no_serifs(kind: str) -> None:
    assert {look.family for look in looks(sheet_of(kind, Paper.A4, HouseStyle.CLEAR))} == {"sans"}
    assert "serif" in {look.family for look in looks(sheet_of(kind, Paper.A4, HouseStyle.CLASSIC))}


@pytest.mark.parametrize("kind", SHEETS)
def test_leading_and_columns_are_the_same_in_every_house(kind: str) -> None:
    sheets = [sheet_of(kind, Paper.A4, style) for style in HouseStyle]

    assert len({sheet.margins for sheet in sheets}) == 1
    assert len({tuple(look.leading for look in looks(sheet)) for sheet in sheets}) == 1


def faces_in(pdf: bytes) -> set[str]:
    with Pdf.open(BytesIO(pdf)) as opened:
        return {
            str(font.BaseFont).partition("+")[2].partition("-")[0]
            for page in opened.pages
            for font in page.Resources.Font.values()
        }


def test_paper_and_word_processor_wear_the_same_faces() -> None:
    clear = replace(works_by("category"), house=HouseStyle.CLEAR)
    styles = docx.Document(BytesIO(render(clear, "docx"))).styles

    assert {"NotoSans"} <= faces_in(render(clear, "pdf"))
    assert styles["LL Entry Title"].font.name == "Noto Sans"
    assert str(styles["Heading 1"].font.color.rgb) == "0B4A5A"
    assert b"house-clear" in render(clear, "html")
    assert pages_of(clear) == pages_of(works_by("category"))
