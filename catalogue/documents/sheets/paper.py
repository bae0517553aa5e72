"""Sizes of paper in points, 72 to the inch."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.documents.model import Paper

MM = 72 / 25.4


@dataclass(frozen=True, slots=True)
class Size:
    width: float
    height: float


SIZES = {Paper.A4: Size(210 * MM, 297 * MM), Paper.LETTER: Size(612, 792)}
