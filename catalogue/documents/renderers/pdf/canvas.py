"""A page being drawn: operators of ISO 32000-1, places counted from the top left corner.

Everything on a page is either content, marked for the structure tree, or an artifact (rules, running heads, folios).
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby

from catalogue.documents.renderers.pdf.faces import Face
from catalogue.documents.renderers.pdf.setting import Glyph, Piece, SetLine
from catalogue.documents.sheets.geometry import INK
from catalogue.drawings.player_strip import (
    BAR_THICK,
    DISC,
    LINE_THICK,
    RING,
    RING_THICK,
    SMALL,
    TRIANGLE_HIGH,
    TRIANGLE_WIDE,
    Point,
    Strip,
)

ARC = 0.5523
"""How far the handles of a Bézier quarter circle lie from its ends, in radii."""


@dataclass(eq=False, slots=True)
class Element:
    """A node of the structure tree; ``kids`` are nodes, or (page, mark) pairs of content."""

    role: str
    language: str = ""
    alternative: str = ""
    scope: str = ""
    kids: list[Element | tuple[int, int]] = field(default_factory=list)

    def add(self, role: str, *, language: str = "", alternative: str = "", scope: str = "") -> Element:
        child = Element(role, language, alternative, scope)
        self.kids.append(child)
        return child


@dataclass(eq=False, slots=True)
class Used:
    """What a document uses of a face: its glyphs and what each stands for."""

    name: str
    face: Face
    sources: dict[int, str] = field(default_factory=dict)

    def stands_for(self, glyphs: tuple[Glyph, ...]) -> bool:
        """Note the glyphs; whether each can be read back as its source, which two sources of one glyph forbid."""
        for glyph in glyphs:
            self.sources.setdefault(glyph.id, glyph.source)
        return all(self.sources[glyph.id] == glyph.source for glyph in glyphs)


class Fonts:
    """The faces of one document, by the order in which they are first needed."""

    def __init__(self) -> None:
        self.used: dict[str, Used] = {}

    def use(self, face: Face) -> Used:
        return self.used.setdefault(face.name, Used(f"F{len(self.used) + 1}", face))


def n(number: float) -> str:
    """A length as an operator takes it, to a hundredth of a point."""
    written = f"{number:.2f}".rstrip("0").rstrip(".")
    return "0" if written == "-0" else written


class Canvas:
    """One page. ``number`` counts from 0."""

    def __init__(self, number: int, height: float, fonts: Fonts) -> None:
        self.number = number
        self.height = height
        self.fonts = fonts
        self.code: list[str] = []
        self.marks = 0
        self.inked = False
        self.element: Element | None = None

    @contextmanager
    def content(self, element: Element) -> Iterator[None]:
        """What is drawn inside belongs to the element."""
        self.element = element
        self.open_mark(element)
        yield
        self.close_mark(element)
        self.element = None

    def open_mark(self, element: Element) -> None:
        self.code.append(f"/{element.role} <</MCID {self.marks}>> BDC")
        element.kids.append((self.number, self.marks))
        self.marks += 1

    def close_mark(self, element: Element) -> None:
        """End the stretch of content; one in which nothing was drawn never was."""
        if not self.code[-1].endswith(f"<</MCID {self.marks - 1}>> BDC"):
            self.code.append("EMC")
            return
        self.code.pop()
        element.kids.pop()
        self.marks -= 1

    @contextmanager
    def artifact(self) -> Iterator[None]:
        """What is drawn inside is furniture of the page."""
        self.code.append("/Artifact BMC")
        yield
        self.code.append("EMC")

    def text(self, x: float, y: float, line: SetLine) -> None:
        """Set a line from ``x`` on, its baseline at ``y``; a stretch in another language is a span of its own."""
        pieces = (*line.pieces, line.turned) if line.turned else line.pieces
        for language, stretch in groupby(pieces, key=lambda piece: piece.language):
            with self.span(language):
                for piece in stretch:
                    self.piece(x, y, piece)
                    x += piece.width

    @contextmanager
    def span(self, language: str) -> Iterator[None]:
        """Inside an element, a child that says its language; artifacts have no language."""
        element = self.element
        if element is None or not language:
            yield
            return
        self.close_mark(element)
        child = element.add("Span", language=language)
        self.open_mark(child)
        yield
        self.close_mark(child)
        self.open_mark(element)

    def text_to(self, x: float, y: float, line: SetLine) -> None:
        """Set a line that ends at ``x``."""
        self.text(x - line.width, y, line)

    def piece(self, x: float, y: float, piece: Piece) -> None:
        if not piece.glyphs:
            return
        used = self.fonts.use(piece.face)
        told = used.stands_for(piece.glyphs)
        if not told:
            text = ("\ufeff" + piece.text).encode("utf-16-be").hex().upper()
            self.code.append(f"/Span <</ActualText <{text}>>> BDC")
        self.ink(inked=piece.inked)
        place = f"1 0 0 1 {n(x)} {n(self.height - y)} Tm"
        self.code.append(f"BT /{used.name} {n(piece.size)} Tf {place} {shown(piece)} ET")
        if not told:
            self.code.append("EMC")

    def ink(self, *, inked: bool) -> None:
        if inked != self.inked:
            self.code.append(" ".join(f"{part:.3f}" for part in INK) + " rg" if inked else "0 g")
            self.inked = inked

    def rule(self, x: float, end: float, y: float, thick: float) -> None:
        place = n(self.height - y)
        self.code.append(f"{n(thick)} w {n(x)} {place} m {n(end)} {place} l S")

    def box(self, x: float, y: float, side: float, thick: float) -> None:
        """A square with its upper left corner at the place."""
        self.code.append(f"{n(thick)} w {n(x)} {n(self.height - y - side)} {n(side)} {n(side)} re S")

    def strip(self, x: float, y: float, strip: Strip, scale: float) -> None:
        """Draw a player strip, its upper left corner at the place."""
        self.ink(inked=False)
        for line in strip.lines:
            self.rule(x + line.x * scale, x + line.end * scale, y + line.y * scale, LINE_THICK * scale)
        for radius, discs in ((DISC, strip.discs), (SMALL, strip.small)):
            self.discs([Point(x + disc.x * scale, y + disc.y * scale) for disc in discs], radius * scale)
        for ring in strip.rings:
            self.code.append(f"{n(RING_THICK * scale)} w")
            self.circle(x + ring.x * scale, y + ring.y * scale, RING * scale)
            self.code.append("S")
        for bar in strip.bars:
            self.rule(x + bar.x * scale, x + bar.end * scale, y + bar.y * scale, BAR_THICK * scale)
        for left in strip.triangles:
            self.triangle(x, y, left, scale)

    def discs(self, centres: list[Point], radius: float) -> None:
        """Strokes without length under round caps: the shortest way to draw a disc."""
        if not centres:
            return
        places = [f"{n(one.x)} {n(self.height - one.y)}" for one in centres]
        strokes = " ".join(f"{place} m {place} l" for place in places)
        self.code.append(f"q 1 J {n(2 * radius)} w {strokes} S Q")

    def circle(self, x: float, y: float, radius: float) -> None:
        """The path of a circle, four Bézier quarters."""
        y, handle = self.height - y, radius * ARC
        self.code.append(
            f"{n(x + radius)} {n(y)} m "
            f"{n(x + radius)} {n(y + handle)} {n(x + handle)} {n(y + radius)} {n(x)} {n(y + radius)} c "
            f"{n(x - handle)} {n(y + radius)} {n(x - radius)} {n(y + handle)} {n(x - radius)} {n(y)} c "
            f"{n(x - radius)} {n(y - handle)} {n(x - handle)} {n(y - radius)} {n(x)} {n(y - radius)} c "
            f"{n(x + handle)} {n(y - radius)} {n(x + radius)} {n(y - handle)} {n(x + radius)} {n(y)} c"
        )

    def triangle(self, x: float, y: float, left: Point, scale: float) -> None:
        left_x, middle, half = x + left.x * scale, self.height - y - left.y * scale, TRIANGLE_HIGH * scale / 2
        tip = left_x + TRIANGLE_WIDE * scale
        self.code.append(
            f"{n(left_x)} {n(middle + half)} m {n(tip)} {n(middle)} l {n(left_x)} {n(middle - half)} l h f"
        )


@lru_cache(40000)
def shown(piece: Piece) -> str:
    """The operators that show the glyphs: kerning inside one array, the rise of a mark around it."""
    parts: list[str] = []
    run: list[str] = []
    rise = 0.0
    for glyph in piece.glyphs:
        if glyph.y != rise:
            parts += flushed(run)
            rise = glyph.y
            parts.append(f"{n(rise * piece.size / 1000)} Ts")
        back = piece.face.width(glyph.id) - glyph.advance
        run += [*adjusted(-glyph.x), f"<{glyph.id:04X}>", *adjusted(back + glyph.x)]
    parts += flushed(run)
    return " ".join([*parts, "0 Ts"] if rise else parts)


def adjusted(thousandths: float) -> list[str]:
    """A step back inside an array of strings; a fraction too small to see is no step."""
    return [n(thousandths)] if abs(thousandths) >= 0.01 else []


def flushed(run: list[str]) -> list[str]:
    if not run:
        return []
    array = "[" + " ".join(run).replace("> <", "") + "] TJ"
    run.clear()
    return [array]
