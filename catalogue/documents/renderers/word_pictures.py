"""Pictures in a word-processor file, each with what it shows in words (the alternative text)."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from docx.shared import Pt
from docx.text.paragraph import Paragraph as WordParagraph

from catalogue.documents.renderers.bitmaps import sketch_png
from catalogue.documents.renderers.characters import printable
from catalogue.drawings.player_strip import Strip
from catalogue.drawings.redrawn import strip_sketch

FINE = 2.5
"""Units of a picture to one of a strip: with three pixels to a unit, over 700 to the inch in a list."""


def add_picture(paragraph: WordParagraph, png: bytes, wide: float, alternative: str) -> None:
    """Put a picture into the line, ``wide`` points."""
    shown = paragraph.add_run().add_picture(BytesIO(png), width=Pt(wide))
    shown._inline.docPr.set("descr", printable(alternative))
    for side in ("distT", "distB", "distL", "distR"):
        shown._inline.set(side, "0")


def add_strip(paragraph: WordParagraph, strip: Strip, scale: float, *, alternative: str = "") -> None:
    """Put a player strip into the line, ``scale`` points to its unit."""
    add_picture(paragraph, strip_png(strip), strip.width * scale, alternative or strip.title)


@lru_cache(512)
def strip_png(strip: Strip) -> bytes:
    return sketch_png(strip_sketch(strip, FINE))
