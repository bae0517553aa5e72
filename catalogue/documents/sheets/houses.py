"""The house styles: how one sheet is dressed for a composer, the same on paper, in a word processor and on a page.

Forms that somebody fills in stay as they are, but for their faces. Both inks have a contrast of at least 9:1 on white
and print dark in grey.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, Literal, TypeVar

from catalogue.documents.model import Adjustments
from catalogue.documents.sheets.geometry import INK, Look, Margins, Sheet
from catalogue.documents.sheets.paper import MM
from catalogue.rules.inks import Colour, colour
from catalogue.terms import HouseStyle, PaperMargins

S = TypeVar("S")

BLACK: Colour = (0, 0, 0)
SEA: Colour = (0x0B / 255, 0x4A / 255, 0x5A / 255)
"""Deep sea blue: 9.7:1 on white."""


@dataclass(frozen=True, slots=True)
class House:
    """The face of titles and prose, the ink of heads, and how much larger or smaller text is set."""

    text: Literal["serif", "sans"]
    ink: Colour
    scale: float = 1
    strong_heads: bool = False


HOUSES = {
    HouseStyle.CLASSIC: House("serif", INK),
    HouseStyle.BLACK: House("serif", BLACK),
    HouseStyle.CLEAR: House("sans", SEA, scale=0.94, strong_heads=True),
}


SIDES = {PaperMargins.NARROW: (-5 * MM, -5 * MM), PaperMargins.BOUND: (5 * MM, -5 * MM)}
"""How much wider the margins at the left and at the right are than usual; where pages are bound, text is as wide."""
UNADJUSTED = Adjustments()


def house_of(style: HouseStyle, adjusted: Adjustments = UNADJUSTED) -> House:
    """The house style with what the composer has chosen instead."""
    house = HOUSES[style]
    text = adjusted.face.value if adjusted.face else house.text
    scale = next(one.scale for one in HOUSES.values() if one.text == text)
    return replace(house, text=text, scale=scale, ink=colour(adjusted.ink) if adjusted.ink else house.ink)


def dressed(sheet: Sheet, style: HouseStyle, adjusted: Adjustments = UNADJUSTED) -> Sheet:
    """The sheet in the faces of a house; its columns and spaces are the same in all of them."""
    house = house_of(style, adjusted)
    worn = wear(sheet, house)
    if not (sheet.book or sheet.halved or sheet.turned):
        worn = replace(worn, margins=beside(worn.margins, adjusted.margins))
    if not house.strong_heads:
        return worn
    return replace(
        worn,
        opening=replace(worn.opening, title=replace(worn.opening.title, strong=True)),
        section=replace(worn.section, head=replace(worn.section.head, strong=True)),
    )


def sides_of(wanted: PaperMargins) -> tuple[float, float]:
    """The margins at the left and at the right, in points."""
    margins = beside(Margins(), wanted)
    return margins.left, margins.right


def beside(margins: Margins, wanted: PaperMargins) -> Margins:
    left, right = SIDES.get(wanted, (0.0, 0.0))
    return replace(margins, left=margins.left + left, right=margins.right + right)


def wear(part: S, house: House) -> S:
    """Dress every look in a part of a sheet."""
    if isinstance(part, Look):
        return dressed_look(part, house)  # type: ignore[return-value]
    if isinstance(part, dict):
        return {key: wear(one, house) for key, one in part.items()}  # type: ignore[return-value]
    if not is_dataclass(part) or isinstance(part, type):
        return part
    changed: dict[str, Any] = {one.name: wear(getattr(part, one.name), house) for one in fields(part)}
    return replace(part, **changed)


def dressed_look(look: Look, house: House) -> Look:
    if look.family == house.text or look.family == "sans":
        return look
    emphasis = look.emphasis * house.scale if look.emphasis else None
    return replace(look, family=house.text, size=look.size * house.scale, emphasis=emphasis)
