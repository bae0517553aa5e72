"""Sizes of paper in points, 72 to the inch."""

from __future__ import annotations

from dataclasses import dataclass

from catalogue.documents.model import Paper

MM = 72 / 25.4


@dataclass(frozen=True, slots=True)
class Size:
    width: float
    height: float


INCH = 72

SIZES = {
    Paper.A4: Size(210 * MM, 297 * MM),
    Paper.LETTER: Size(8.5 * INCH, 11 * INCH),
    Paper.A3: Size(297 * MM, 420 * MM),
    Paper.B4: Size(250 * MM, 353 * MM),
    Paper.TABLOID: Size(11 * INCH, 17 * INCH),
    Paper.NINE_BY_TWELVE: Size(9 * INCH, 12 * INCH),
    Paper.TEN_BY_THIRTEEN: Size(10 * INCH, 13 * INCH),
}
"""ISO 216 and the sizes of American music printing (common practice); all upright."""
