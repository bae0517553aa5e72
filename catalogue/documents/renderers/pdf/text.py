"""The one door from text to what reportlab draws: lines that are already glyphs.

Titles and names come here shaped and measured (``setting``) and leave as codes of an embedded font. No markup language
is between, so that nothing somebody types is read as one.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import groupby

from reportlab.lib.rl_accel import fp_str
from reportlab.pdfbase.ttfonts import ShapeData, ShapedStr
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.textobject import PDFTextObject

from catalogue.documents.renderers.pdf.fonts import FIRST, font_of
from catalogue.documents.renderers.pdf.setting import Piece

Shown = tuple[str, tuple[ShapeData, ...]]
"""Private characters, and where each stands; no places where each follows the one before by its own width."""


def draw_text(drawing: Canvas, x: float, y: float, pieces: Iterable[Piece]) -> None:
    """Set pieces side by side from ``x`` on, their baseline at ``y`` from the foot of the page.

    A piece that its glyphs do not spell out for a reader has its text beside it (ISO 32000-1, section 14.9.4).
    """
    for spelt, stretch in stretches(drawing, pieces):
        if not spelt:
            written = "".join(piece.text for piece in stretch).encode("utf-16-be").hex().upper()
            drawing.addLiteral(f"/Span <</ActualText <FEFF{written}>>> BDC")
        text = GlyphText(drawing, x, y)
        for (font, size), run in groupby(stretch, key=look):
            text.setFont(font, size)
            for plain, words in groupby(run, key=is_plain):
                text.textOut(joined(words, plain=plain))
        drawing.drawText(text)
        if not spelt:
            drawing.addLiteral("EMC")
        x += sum(piece.width for piece in stretch)


def stretches(drawing: Canvas, pieces: Iterable[Piece]) -> Iterator[tuple[bool, list[Piece]]]:
    """The pieces that have glyphs, those together that their glyphs spell out, and those that they do not."""
    told = [(font_of(one.face).stands_for(drawing._doc, one.glyphs), one) for one in pieces if one.glyphs]
    for spelt, group in groupby(told, key=lambda one: one[0]):
        yield spelt, [piece for _spelt, piece in group]


def look(piece: Piece) -> tuple[str, float]:
    return piece.face.name, piece.size


def is_plain(piece: Piece) -> bool:
    """Whether every glyph follows the one before it by its own width."""
    return not shown(piece)[1]


def joined(pieces: Iterable[Piece], *, plain: bool) -> str:
    """Pieces of one look as reportlab takes them."""
    found = [shown(piece) for piece in pieces]
    signs = "".join(characters for characters, _places in found)
    return signs if plain else ShapedStr(signs, [place for _characters, places in found for place in places])


@lru_cache(40000)
def shown(piece: Piece) -> Shown:
    signs = "".join(chr(FIRST + glyph.id) for glyph in piece.glyphs)
    widths = [piece.face.width(glyph.id) for glyph in piece.glyphs]
    if all(one.x == one.y == 0 and one.advance == width for one, width in zip(piece.glyphs, widths, strict=True)):
        return signs, ()
    places = zip(piece.glyphs, widths, strict=True)
    return signs, tuple(ShapeData(0, one.advance, 0, one.x, one.y, width) for one, width in places)


class GlyphText(PDFTextObject):
    """reportlab's text object, which forgets a rise that follows another at once; here it does not."""

    _rise: float

    def setRise(self, rise: float) -> None:
        if self._code and self._code[-1].endswith(" Ts"):
            self._code.pop()
        self._y += self._rise - rise
        self._rise = rise
        self._code.append(f"{fp_str(rise)} Ts")
