"""A logo as it stands on paper: no larger than its place at the head of the first page, its shape kept."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from PIL import Image

from catalogue.documents.model import Logo
from catalogue.documents.sheets.geometry import Sheet

WIDE, HIGH = 140.0, 36.0
"""The place of a logo, in points."""
ABOVE, AIR = 22.0, 14.0
"""Free above it, and between it and the first line."""


PIXELS = (900, 300)
"""As many pixels as a fine print has in that place."""


@lru_cache(32)
def small_logo(content: bytes, alternative: str) -> Logo:
    """A picture (PNG, JPEG or WebP) as PNG, with no more pixels than its place on paper needs."""
    with Image.open(BytesIO(content)) as picture:
        made = picture.convert("RGBA")
    made.thumbnail(PIXELS, Image.Resampling.LANCZOS)
    written = BytesIO()
    made.save(written, "PNG")
    return Logo(written.getvalue(), made.width, made.height, alternative)


def logo_size(logo: Logo, sheet: Sheet) -> tuple[float, float]:
    """How wide and how high the logo is drawn on a sheet, in points; nothing where its head has no room."""
    high = min(HIGH, sheet.margins.first - ABOVE - AIR)
    if high < 12 or sheet.book or sheet.halved:
        return 0.0, 0.0
    scale = min(WIDE / logo.width, high / logo.height)
    return logo.width * scale, logo.height * scale
