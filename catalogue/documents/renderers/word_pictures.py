"""Pictures in a word-processor file, each with what it shows in words (the alternative text)."""

from __future__ import annotations

from functools import lru_cache
from io import BytesIO

from docx.oxml import parse_xml
from docx.oxml.ns import nsdecls
from docx.oxml.shape import CT_Inline
from docx.shared import Pt
from docx.text.paragraph import Paragraph as WordParagraph

from catalogue.documents.renderers.bitmaps import sketch_png
from catalogue.documents.renderers.characters import printable
from catalogue.drawings.player_strip import Strip
from catalogue.drawings.redrawn import strip_sketch

ANCHOR = (
    '<wp:anchor {spaces} distT="0" distB="0" distL="{air}" distR="0" simplePos="0" relativeHeight="1" behindDoc="0" '
    'locked="0" layoutInCell="1" allowOverlap="0"><wp:simplePos x="0" y="0"/>'
    '<wp:positionH relativeFrom="margin"><wp:align>right</wp:align></wp:positionH>'
    '<wp:positionV relativeFrom="paragraph"><wp:posOffset>{below}</wp:posOffset></wp:positionV></wp:anchor>'
)
"""A picture beside text (ECMA-376, part 1, section 20.4.2.3)."""
FINE = 2.5
"""Units of a picture to one of a strip: with three pixels to a unit, over 700 to the inch in a list."""


def add_picture(paragraph: WordParagraph, png: bytes, wide: float, alternative: str) -> CT_Inline:
    """Put a picture into the line, ``wide`` points."""
    shown: CT_Inline = paragraph.add_run().add_picture(BytesIO(png), width=Pt(wide))._inline
    shown.docPr.set("descr", printable(alternative))
    for side in ("distT", "distB", "distL", "distR"):
        shown.set(side, "0")
    return shown


def hang_strip(paragraph: WordParagraph, strip: Strip, scale: float, *, below: float, air: float) -> None:
    """Hang a player strip at the right edge, so many points below a paragraph's top; text keeps ``air`` to it."""
    inline = add_picture(paragraph, strip_png(strip), strip.width * scale, strip.title)
    anchor = parse_xml(ANCHOR.format(below=Pt(below), air=Pt(air), spaces=nsdecls("wp")))
    for place, child in enumerate(list(inline)):
        anchor.append(child)
        if not place:
            anchor.append(parse_xml(f'<wp:wrapSquare {nsdecls("wp")} wrapText="left"/>'))
    inline.getparent().replace(inline, anchor)


def add_strip(paragraph: WordParagraph, strip: Strip, scale: float, *, alternative: str = "") -> None:
    """Put a player strip into the line, ``scale`` points to its unit."""
    add_picture(paragraph, strip_png(strip), strip.width * scale, alternative or strip.title)


@lru_cache(512)
def strip_png(strip: Strip) -> bytes:
    return sketch_png(strip_sketch(strip, FINE))
