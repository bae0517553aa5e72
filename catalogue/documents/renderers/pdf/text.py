"""The one door from text to the page: lines that are already glyphs, written as codes of an embedded font.

Titles and names come here shaped and measured (``setting``). No markup language is between, so that nothing somebody
types is read as one. The operators are those of ISO 32000-1, section 9.4.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from operator import attrgetter, itemgetter
from typing import NamedTuple

from reportlab.pdfgen.canvas import Canvas

from catalogue.documents.renderers.pdf.codes import ESCAPED, common_name, moved
from catalogue.documents.renderers.pdf.faces import Face
from catalogue.documents.renderers.pdf.fonts import FIRST, GlyphFont, font_of
from catalogue.documents.renderers.pdf.paths import number
from catalogue.documents.renderers.pdf.setting import WIDTH, Piece, SetLine

ITSELF = {ord(sign): sign for sign in "()-.0123456789 "}
"""What stands around the glyphs in what TJ is told."""


FACE_AND_SIZE = attrgetter("face", "size")
FONT = attrgetter("font")
LOOK = attrgetter("font", "rise")
NAME = attrgetter("name")
SHOWN = attrgetter("shown")
SPELT = attrgetter("spelt")
SUBSET_AND_RISE = itemgetter(0, 1)


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
    """What sets glyphs on the pages of one document. Words return: how each is written is found once.

    ``met`` are the pieces that are written as in every document.
    """

    def __init__(self, drawing: Canvas, say: Callable[[str], None]) -> None:
        self.drawing = drawing
        self.say = say
        self.met: set[Piece] = set()
        self.known: dict[Piece, Written] = {}
        self.hands: dict[Face, Hand] = {}

    def draw_line(self, x: float, y: float, line: SetLine, begun: str) -> None:
        """Set a line that is told alike in every document, its baseline at ``y`` from the foot of the page."""
        self.met.update(line.pieces)
        if line.turned:
            self.met.add(line.turned)
        self.say(f"{begun} 1 0 0 1 {number(x)} {number(y)} Tm {line.told} ET")

    def draw_text(self, x: float, y: float, pieces: Sequence[Piece]) -> None:
        """Set pieces side by side from ``x`` on, their baseline at ``y`` from the foot of the page.

        A piece that its glyphs do not spell out for a reader has its text beside it (ISO 32000-1, section 14.9.4).
        """
        if all(map(SHOWN, pieces)):
            self.met.update(pieces)
            self.say(f"BT 1 0 0 1 {number(x)} {number(y)} Tm {told_everywhere(pieces)} ET")
            return
        for spelt, group in groupby(self.written(pieces), key=SPELT):
            stretch = list(group)
            shown = f"BT 1 0 0 1 {number(x)} {number(y)} Tm {operators(runs_of(stretch))} ET"
            if not spelt:
                text = "".join(one.text for one in stretch).encode("utf-16-be").hex().upper()
                shown = f"/Span <</ActualText <FEFF{text}>>> BDC\n{shown}\nEMC"
            self.say(shown)
            x += sum(map(WIDTH, stretch))

    def finish(self) -> None:
        """Tell the fonts which of their common codes are used, in the order of their names: pieces have none."""
        used: dict[Face, set[int]] = {}
        for piece in self.met:
            used.setdefault(piece.face, set()).update(piece.codes)
        for face in sorted(used, key=NAME):
            font_of(face).use(self.drawing._doc, used[face])

    def written(self, pieces: Iterable[Piece]) -> Iterator[Written]:
        """How each piece is written; a blank in the same part of the font as the word before it."""
        is_common = True
        for piece in pieces:
            is_common = bool(piece.shown) and (is_common or not piece.blank)
            if is_common:
                self.met.add(piece)
                yield written_everywhere(piece)
            else:
                yield self.known.get(piece) or self.learn(piece)

    def learn(self, piece: Piece) -> Written:
        hand = self.hands.get(piece.face)
        if hand is None:
            hand = self.hands[piece.face] = Hand(font_of(piece.face), self.drawing)
        found = self.known[piece] = hand.written(piece)
        return found


@lru_cache(4000)
def written_everywhere(piece: Piece) -> Written:
    font = common_name(piece.face, piece.size)
    return Written((Stroke(font, 0.0, f"({piece.shown})"),), True, piece.text, piece.width, font)


class Hand:
    """What one face is written with in one document: which code its glyphs have, and what they are known to stand for.

    ``shown`` leads from the private character of a glyph to its code as it stands in a string, ``subsets`` to the part
    of the font that has it: of most faces the first that is given codes by the document.
    """

    def __init__(self, font: GlyphFont, drawing: Canvas) -> None:
        self.font = font
        self.document = drawing._doc
        self.told: set[tuple[int, str]] = set()
        self.shown: dict[int, str] = dict(ITSELF)
        self.subsets: dict[int, int] = {}
        self.is_whole = True
        self.names: dict[tuple[int, float], str] = {}

    def written(self, piece: Piece) -> Written:
        template = template_of(piece)
        spelt = template.sources <= self.told
        if not spelt:
            spelt = self.font.stands_for(self.document, piece.glyphs)
            self.told.update(template.sources if spelt else ())
        if not self.subsets.keys() >= template.needed:
            self.code(template.signs)
        if self.is_whole and template.is_level:
            font = self.name(self.font.own, piece.size)
            shown = template.shown.translate(self.shown)
            return Written((Stroke(font, 0.0, shown),), spelt, piece.text, piece.width, font)
        strokes = tuple(self.strokes(piece, template.signs))
        level = len(strokes) == 1 and not strokes[0].rise
        return Written(strokes, spelt, piece.text, piece.width, strokes[0].font if level else "")

    def strokes(self, piece: Piece, signs: str) -> Iterator[Stroke]:
        """The glyphs of a piece, those together that share a subset of the font and a height."""
        told = [
            (self.subsets[ord(sign)], glyph.y * piece.size / 1000, moved(glyph, piece.face, self.shown[ord(sign)]))
            for sign, glyph in zip(signs, piece.glyphs, strict=True)
        ]
        for (subset, rise), group in groupby(told, key=SUBSET_AND_RISE):
            shown = "".join([shown for _subset, _rise, shown in group]).replace(")(", "")
            yield Stroke(self.name(subset, piece.size), rise, shown)

    def code(self, signs: str) -> None:
        """Have the font give codes to glyphs."""
        parts = self.font.splitString(signs, self.document)
        coded = [(subset, ESCAPED[code]) for subset, part in parts for code in part]
        for sign, (subset, shown) in zip(signs, coded, strict=True):
            self.subsets[ord(sign)], self.shown[ord(sign)] = subset, shown
            self.is_whole = self.is_whole and subset == self.font.own

    def name(self, subset: int, size: float) -> str:
        found = self.names.get((subset, size))
        if found is None:
            found = f"{self.font.getSubsetInternalName(subset, self.document)} {number(size)} Tf"
            self.names[subset, size] = found
        return found


class Template(NamedTuple):
    """What is the same of a piece in every document.

    ``signs`` are the private characters of its glyphs, ``needed`` their numbers, ``sources`` what each glyph stands
    for, ``shown`` what TJ is told with these characters in the place of codes, ``is_level`` whether none is raised.
    """

    signs: str
    needed: frozenset[int]
    sources: frozenset[tuple[int, str]]
    shown: str
    is_level: bool


@lru_cache(40000)
def template_of(piece: Piece) -> Template:
    signs = "".join([chr(FIRST + glyph.id) for glyph in piece.glyphs])
    shown = "".join([moved(glyph, piece.face, sign) for glyph, sign in zip(piece.glyphs, signs, strict=True)])
    return Template(
        signs,
        frozenset(map(ord, signs)),
        frozenset((glyph.id, glyph.source) for glyph in piece.glyphs),
        shown.replace(")(", ""),
        not any(glyph.y for glyph in piece.glyphs),
    )


def told_by_itself(line: SetLine) -> str:
    """How a line is written in every document where all of it is in common codes and in the document's language.

    Found once for each line; empty where documents differ in it.
    """
    if line.told is None:
        pieces = (*line.pieces, line.turned) if line.turned else line.pieces
        fonts = set(map(FONT, pieces))
        if len(fonts) == 1:
            font = fonts.pop()
            line.told = operators([(font, 0.0, f"({''.join(map(SHOWN, pieces))})")]) if font else ""
        else:
            line.told = "" if "" in fonts or not fonts else told_everywhere(pieces)
    return line.told


def told_everywhere(pieces: Sequence[Piece]) -> str:
    """How pieces in common codes are written."""
    return operators(
        (common_name(face, size), 0.0, f"({''.join(map(SHOWN, group))})")
        for (face, size), group in groupby(pieces, key=FACE_AND_SIZE)
    )


def operators(strokes: Iterable[tuple[str, float, str]]) -> str:
    """The operators that show strokes side by side: font, height, glyphs; the baseline is left where it was."""
    said, risen = [], 0.0
    for font, rise, shown in strokes:
        raised = f"{number(rise)} Ts " if rise != risen else ""
        said.append(f"{raised}{font} [{shown}] TJ")
        risen = rise
    return " ".join([*said, "0 Ts"] if risen else said)


def runs_of(stretch: Sequence[Written]) -> Iterator[tuple[str, float, str]]:
    """The strokes of pieces, those of one font and height together: of most lines all.

    Signs of strings are escaped in strings, so that ``)(`` ends one of them where another follows.
    """
    fonts = {written.font for written in stretch}
    if len(fonts) == 1 and "" not in fonts:
        yield fonts.pop(), 0.0, "".join([written.strokes[0].shown for written in stretch]).replace(")(", "")
        return
    for (font, rise), group in groupby((one for written in stretch for one in written.strokes), key=LOOK):
        yield font, rise, "".join([one.shown for one in group]).replace(")(", "")
