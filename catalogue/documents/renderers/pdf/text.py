"""The one door from text to the page: lines that are already glyphs, written as codes of an embedded font.

Titles and names come here shaped and measured (``setting``). No markup language is between, so that nothing somebody
types is read as one. The operators are those of ISO 32000-1, section 9.4.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from operator import attrgetter, itemgetter
from typing import NamedTuple

from reportlab.pdfgen.canvas import Canvas

from catalogue.documents.renderers.pdf.fonts import FIRST, GlyphFont, font_of
from catalogue.documents.renderers.pdf.setting import WIDTH, Glyph, Piece

ESCAPED = tuple(chr(code) if 32 <= code < 127 and chr(code) not in r"\()" else f"\\{code:03o}" for code in range(256))
"""Each code of a font as it stands in a string (ISO 32000-1, section 7.3.4.2)."""


LOOK = attrgetter("font", "rise")
SPELT = attrgetter("spelt")
SUBSET_AND_RISE = itemgetter(0, 1)

Coded = tuple[int, str]
"""The subset of a font that a glyph is in, and its code there as it stands in a string."""


@dataclass(slots=True)
class Stroke:
    """Glyphs of one font and one height: what TJ is told of them, beginning and ending with a string or a number."""

    font: str
    rise: float
    shown: str


@dataclass(slots=True)
class Written:
    """A piece as it is written in one document; ``spelt`` where a reader gets its text back from its glyphs.

    ``font`` is that of all its strokes where they are one at the height of the line, else empty.
    """

    strokes: tuple[Stroke, ...]
    spelt: bool
    text: str
    width: float
    font: str = ""


class Pen:
    """What sets glyphs on the pages of one document. Words return: how each is written is found once."""

    def __init__(self, drawing: Canvas) -> None:
        self.drawing = drawing
        self.known: dict[Piece, Written] = {}
        self.codes: dict[str, dict[str, Coded]] = {}

    def draw_text(self, x: float, y: float, pieces: Iterable[Piece]) -> None:
        """Set pieces side by side from ``x`` on, their baseline at ``y`` from the foot of the page.

        A piece that its glyphs do not spell out for a reader has its text beside it (ISO 32000-1, section 14.9.4).
        """
        known = self.known
        told = [known.get(piece) or self.learn(piece) for piece in pieces]
        if all(map(SPELT, told)):
            self.drawing.addLiteral(f"BT 1 0 0 1 {number(x)} {number(y)} Tm {operators(told)} ET")
            return
        for spelt, group in groupby(told, key=SPELT):
            stretch = list(group)
            shown = f"BT 1 0 0 1 {number(x)} {number(y)} Tm {operators(stretch)} ET"
            if not spelt:
                text = "".join(one.text for one in stretch).encode("utf-16-be").hex().upper()
                shown = f"/Span <</ActualText <FEFF{text}>>> BDC\n{shown}\nEMC"
            self.drawing.addLiteral(shown)
            x += sum(map(WIDTH, stretch))

    def learn(self, piece: Piece) -> Written:
        font = font_of(piece.face)
        spelt = font.stands_for(self.drawing._doc, piece.glyphs)
        strokes = tuple(self.strokes(piece, font))
        level = len(strokes) == 1 and not strokes[0].rise
        found = Written(strokes, spelt, piece.text, piece.width, strokes[0].font if level else "")
        self.known[piece] = found
        return found

    def strokes(self, piece: Piece, font: GlyphFont) -> Iterable[Stroke]:
        """The glyphs of a piece, those together that share a subset of the font and a height."""
        signs, moves = placed(piece)
        known = self.codes.setdefault(font.fontName, {})
        if not known.keys() >= set(signs):
            self.code(signs, font)
        told = [
            (known[sign][0], move.rise, f"{move.before}({known[sign][1]}){move.after}")
            for sign, move in zip(signs, moves, strict=True)
        ]
        for (subset, rise), group in groupby(told, key=SUBSET_AND_RISE):
            name = f"{font.getSubsetInternalName(subset, self.drawing._doc)} {number(piece.size)} Tf"
            yield Stroke(name, rise, "".join([shown for _subset, _rise, shown in group]).replace(")(", ""))

    def code(self, signs: str, font: GlyphFont) -> None:
        """Have the font give codes to glyphs."""
        parts = font.splitString(signs, self.drawing._doc)
        coded = [(subset, ESCAPED[code]) for subset, part in parts for code in part]
        self.codes[font.fontName].update(zip(signs, coded, strict=True))


class Move(NamedTuple):
    """How a glyph is moved from where the font puts it, as TJ is told before and after it, and how far it is raised."""

    before: str
    after: str
    rise: float


@lru_cache(40000)
def placed(piece: Piece) -> tuple[str, tuple[Move, ...]]:
    """The private characters of a piece's glyphs, and how each is moved."""
    return "".join([chr(FIRST + glyph.id) for glyph in piece.glyphs]), tuple(move(one, piece) for one in piece.glyphs)


def move(glyph: Glyph, piece: Piece) -> Move:
    """Moved by its own offset, then to where the next one begins, where the font has moved on by the glyph's width."""
    before = f"{number(-glyph.x)} " if glyph.x else ""
    after = piece.face.width(glyph.id) - glyph.advance + glyph.x
    return Move(before, f"{number(after)} " if after else "", glyph.y * piece.size / 1000)


def operators(stretch: Sequence[Written]) -> str:
    """The operators that show pieces side by side; the baseline is left where it was.

    Signs of strings are escaped in strings, so that ``)(`` ends one of them where another follows.
    """
    said, risen = [], 0.0
    for font, rise, shown in runs_of(stretch):
        raised = f"{number(rise)} Ts " if rise != risen else ""
        said.append(f"{raised}{font} [{''.join(shown).replace(')(', '')}] TJ")
        risen = rise
    return " ".join([*said, "0 Ts"] if risen else said)


def runs_of(stretch: Sequence[Written]) -> Iterator[tuple[str, float, list[str]]]:
    """The strokes of pieces, those of one font and height together: of most lines all."""
    fonts = {written.font for written in stretch}
    if len(fonts) == 1 and "" not in fonts:
        yield fonts.pop(), 0.0, [written.strokes[0].shown for written in stretch]
        return
    for (font, rise), group in groupby((one for written in stretch for one in written.strokes), key=LOOK):
        yield font, rise, [one.shown for one in group]


@lru_cache(40000)
def number(value: float) -> str:
    """A number as it is written, to a thousandth.

    >>> number(50), number(-12.34567), number(0.0001)
    ('50', '-12.346', '0')
    """
    return f"{round(value, 3) + 0.0:.9g}"
