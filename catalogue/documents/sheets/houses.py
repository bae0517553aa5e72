"""The house styles: how one sheet is dressed for a composer, the same on paper, in a word processor and on a page.

Forms that somebody fills in stay as they are, but for their faces. Both inks have a contrast of at least 9:1 on white
and print dark in grey.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, Literal, TypeVar

from catalogue.documents.sheets.geometry import INK, Look, Sheet
from catalogue.terms import HouseStyle

Colour = tuple[float, float, float]
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


def dressed(sheet: Sheet, style: HouseStyle) -> Sheet:
    """The sheet in the faces of a house; its columns and spaces are the same in all of them."""
    house = HOUSES[style]
    worn = wear(sheet, house)
    if not house.strong_heads:
        return worn
    return replace(
        worn,
        opening=replace(worn.opening, title=replace(worn.opening.title, strong=True)),
        section=replace(worn.section, head=replace(worn.section.head, strong=True)),
    )


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
