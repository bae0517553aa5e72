"""How papers look."""

from __future__ import annotations

from enum import StrEnum


class HouseStyle(StrEnum):
    """How a composer's documents look: serifs and one ink, serifs in black alone, or sans serifs and another ink."""

    CLASSIC = "classic"
    BLACK = "black"
    CLEAR = "clear"


class FaceFamily(StrEnum):
    """The two families of faces that documents are set in."""

    SERIF = "serif"
    SANS = "sans"


class PaperMargins(StrEnum):
    """What is left free at the sides of a document: as usual, less, or more where it is bound."""

    USUAL = "usual"
    NARROW = "narrow"
    BOUND = "bound"
