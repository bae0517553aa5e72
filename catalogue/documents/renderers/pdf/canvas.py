"""The pages of a document being drawn with reportlab, places counted from the top left corner.

Everything on a page is either content, marked for the structure tree, or an artifact (rules, running heads, folios).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from io import BytesIO
from itertools import groupby
from operator import attrgetter

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas as Drawing

from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.pdf.faces import carried_face
from catalogue.documents.renderers.pdf.fonts import font_of
from catalogue.documents.renderers.pdf.paths import circle, number, place, polygon, rectangle
from catalogue.documents.renderers.pdf.setting import WIDTH, Piece, SetLine
from catalogue.documents.renderers.pdf.strips import strip_path
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.renderers.pdf.text import Pen, told_by_itself
from catalogue.documents.sheets.geometry import INK
from catalogue.documents.sheets.paper import Size
from catalogue.drawings.player_strip import Strip
from catalogue.drawings.sketch import Outline

WHITE = "1 1 1 rg "
"""Fills shapes with the white of the paper, so that nothing behind them shows through."""
FAINT = "0.7 0.7 0.7 RG "
DASHES = {False: "", True: "[2.6 2] 0 d "}
ELSEWHERE = b"%\n"
"""What stands in the drawn file for the content of a page."""
STEPS = {"M": "m", "L": "l", "C": "c", "Z": "h"}
LANGUAGE_AND_INK = attrgetter("language", "inked")
GLYPHS = attrgetter("glyphs")
ABOVE_HEAD = 20
"""How far above the baseline of a head a reader is taken that asks for its section."""


class Canvas:
    """The pages, one after another; ``number`` is that of the page in hand, from 0.

    On left-hand pages everything stands ``mirrored`` points further to the right.
    """

    def __init__(self, size: Size, colour: tuple[float, float, float] = INK, *, mirrored: float = 0) -> None:
        self.inks = {False: " 0 0 0 rg", True: f" {' '.join([f'{one:.6g}' for one in colour])} rg"}
        self.mirrored = mirrored
        self.height = size.height
        self.number = 0
        self.marks = 0
        self.bookmarks = 0
        self.inked = False
        self.element: Element | None = None
        self.opening: Element | None = None
        self.media = f"[ 0 0 {place(size.width, size.height)} ]".encode()
        self.written = BytesIO()
        self.contents: list[bytes] = []
        self.drawing = Drawing(
            self.written,
            pagesize=(round(size.width, 3), round(size.height, 3)),
            pageCompression=0,
            invariant=1,
            initialFontName=font_of(carried_face("NotoSerif-Regular")).fontName,
        )
        self.drawing.setPageCallBack(self.encoded)
        self.said: list[str] = []
        self.say = self.said.append
        self.pen = Pen(self.drawing, self.say)

    def properties(self, language: str) -> None:
        self.drawing.setCatalogEntry("Lang", language)
        self.drawing.setViewerPreference("DisplayDocTitle", "true")

    def turn(self) -> None:
        """End the page; what is drawn next is on another."""
        self.hand_over()
        self.drawing.showPage()
        self.number += 1
        self.marks = 0
        self.inked = False
        if self.mirrored and self.number % 2:
            self.drawing.translate(self.mirrored, 0)

    def hand_over(self) -> None:
        """Have reportlab keep what has been said so far, before it says something itself."""
        self.drawing.addLiteral("\n".join(self.said))
        self.said.clear()

    def encoded(self, _number: int) -> None:
        """Keep what a page has been drawn with as bytes, in ``contents``: reportlab has nothing to encode and write."""
        page = self.drawing._doc.Pages.pages[-1]
        self.contents.append(page.stream.encode("latin-1"))
        page.stream = ELSEWHERE
        page.MediaBox = self.media

    def finish(self) -> bytes:
        """The file with every page that was ended."""
        for page, content in zip(self.drawing._doc.Pages.pages, self.contents, strict=True):
            page.stream = content
        return self.frame()

    def frame(self) -> bytes:
        """The file with every page that was ended, but for the ``contents`` of these."""
        self.pen.finish()
        self.drawing.save()
        return self.written.getvalue()

    def label(self, number: int, prefix: str, *, start: int = 0) -> None:
        """Call a page by a word, or by a small Roman figure, where a reader shows its number."""
        self.drawing.addPageLabel(number, "ROMAN_LOWER" if start else None, start or None, prefix or None)

    def bookmark(self, title: str, y: float) -> None:
        """An entry of the outline: a section begins at ``y``."""
        key = f"section {self.bookmarks}"
        self.bookmarks += 1
        self.drawing.bookmarkHorizontalAbsolute(key, round(self.height - y + ABOVE_HEAD, 2))
        self.drawing.addOutlineEntry(printable(title), key)

    # ---- what belongs to what

    def content(self, element: Element) -> Canvas:
        """What is drawn inside belongs to the element."""
        self.element = self.opening = element
        return self

    def __enter__(self) -> None:
        """Nothing is written before something is drawn."""

    def __exit__(self, *_failure: object) -> None:
        self.close_mark()
        self.element = None

    @contextmanager
    def artifact(self) -> Iterator[None]:
        """What is drawn inside is furniture of the page."""
        self.say("/Artifact BMC")
        yield
        self.say("EMC")

    @contextmanager
    def span(self, language: str, element: Element) -> Iterator[None]:
        """Inside an element, a child that says its language; artifacts have no language."""
        self.close_mark()
        self.opening = element.add("Span", language=language)
        yield
        self.close_mark()
        self.opening = element

    def begin(self) -> None:
        """Before anything is drawn: mark to what it belongs."""
        if self.opening is not None:
            self.say(self.mark(self.opening))

    def mark(self, element: Element) -> str:
        """What begins a stretch of content of an element."""
        element.kids.append((self.number, self.marks))
        said = f"/{element.role} <</MCID {self.marks}>> BDC"
        self.marks += 1
        self.opening = None
        return said

    def close_mark(self) -> None:
        """End a stretch of content; one in which nothing was drawn never was."""
        if self.opening is None:
            self.say("EMC")
        self.opening = None

    # ---- text

    def column(self, element: Element, x: float, y: float, leading: float, lines: Sequence[SetLine]) -> None:
        """Set lines under one another, the baseline of the first at ``y``, as content of the element."""
        if len(lines) == 1 and (line := lines[0]).pieces and line.pieces[0].inked == self.inked:
            told = told_by_itself(line) if line.told is None else line.told
            if told:
                self.one(element, x, y, line)
                return
        self.element = self.opening = element
        for line in lines:
            self.text(x, y, line)
            y += leading
        self.close_mark()
        self.element = None

    def one(self, element: Element, x: float, y: float, line: SetLine) -> None:
        """As :meth:`column`, one line that is told alike in every document, in the ink that is in hand."""
        element.kids.append((self.number, self.marks))
        met = self.pen.met
        met.update(line.pieces)
        if line.turned:
            met.add(line.turned)
        place = f"1 0 0 1 {number(x)} {number(self.height - y)} Tm"
        self.say(f"/{element.role} <</MCID {self.marks}>> BDC BT {place} {line.told} ET\nEMC")
        self.marks += 1
        self.element = self.opening = None

    def text(self, x: float, y: float, line: SetLine) -> None:
        """Set a line from ``x`` on, its baseline at ``y``; a stretch in another language is a span of its own."""
        told = told_by_itself(line) if line.told is None else line.told
        if not told:
            self.stretches(x, y, (*line.pieces, line.turned) if line.turned else line.pieces)
            return
        before = "" if self.opening is None else self.mark(self.opening)
        if line.pieces[0].inked != self.inked:
            before += self.inking(inked=not self.inked)
        self.pen.draw_line(x, self.height - y, line, f"{before} BT")

    def stretches(self, x: float, y: float, pieces: Sequence[Piece]) -> None:
        for (language, inked), stretch in stretches(pieces):
            run = list(filter(GLYPHS, stretch))
            if language and self.element is not None:
                with self.span(language, self.element):
                    self.run(x, y, run, inked=inked)
            else:
                self.run(x, y, run, inked=inked)
            x += sum(map(WIDTH, run))

    def run(self, x: float, y: float, pieces: list[Piece], *, inked: bool) -> None:
        if pieces:
            self.begin()
            self.ink(inked=inked)
            self.pen.draw_text(x, self.height - y, pieces)

    def text_to(self, x: float, y: float, line: SetLine) -> None:
        """Set a line that ends at ``x``."""
        self.text(x - line.width, y, line)

    def ink(self, *, inked: bool) -> None:
        if inked != self.inked:
            self.say(self.inking(inked=inked))

    def inking(self, *, inked: bool) -> str:
        """What chooses the ink that fills, from here on the page."""
        self.inked = inked
        return self.inks[inked]

    # ---- lines and marks

    def rule(self, x: float, end: float, y: float, thick: float) -> None:
        self.begin()
        self.lines([(x, end, y)], thick)

    def lines(self, lines: Iterable[tuple[float, float, float]], thick: float) -> None:
        """Level strokes of one thickness, each from a place to another at its height."""
        path = [f"{x:.2f} {self.height - y:.3f} m {end:.2f} {self.height - y:.3f} l" for x, end, y in lines]
        if path:
            self.say(f"{thick:.3f} w {' '.join(path)} S")

    def outline(
        self,
        points: Sequence[tuple[float, float]],
        thick: float,
        *,
        closed: bool = False,
        filled: bool = False,
        dashed: bool = False,
        faint: bool = False,
    ) -> None:
        """Strokes from point to point, back to the first where they close, solid where they are filled."""
        path = polygon([(x, self.height - y) for x, y in points], closed=closed)
        style = f"{number(thick)} w {DASHES[dashed]}{FAINT if faint else ''}"
        self.drawn(f"{style}{WHITE if closed and not filled else ''}{path} {'B*' if closed else 'S'}")

    def drawn(self, said: str) -> None:
        """Draw what the operators say in black, or as they say themselves, which counts for them alone."""
        self.begin()
        self.ink(inked=False)
        self.say(f"q {said} Q")

    def shape(self, outline: Outline, left: float, top: float, scale: float) -> None:
        """Fill an outline, its units from the upper left corner at the place; what turns the other way stays open."""
        said = []
        for letter, places in outline.steps:
            pairs = zip(places[::2], places[1::2], strict=True)
            said += [place(left + x * scale, self.height - top - y * scale) for x, y in pairs]
            said.append(STEPS[letter])
        self.drawn(f"{' '.join(said)} f")

    def circle(self, x: float, y: float, radius: float, thick: float, *, dashed: bool = False) -> None:
        path = circle(x, self.height - y, radius)
        self.drawn(f"{number(thick)} w {DASHES[dashed]}{path} S" if dashed else f"{number(thick)} w {WHITE}{path} B*")

    def clear(self, x: float, y: float, wide: float, high: float) -> None:
        """Leave a place white, its upper left corner at x and y, so that words on it can be read."""
        self.drawn(f"{WHITE}{rectangle(x, self.height - y - high, wide, high)} f")

    def box(self, x: float, y: float, side: float, thick: float) -> None:
        """A square with its upper left corner at the place."""
        self.begin()
        self.say(f"{number(thick)} w {rectangle(x, self.height - y - side, side, side)} S")

    def picture(self, png: bytes, x: float, y: float, wide: float, high: float) -> None:
        """A picture, its upper left corner at the place; what is clear in it stays clear."""
        self.begin()
        self.hand_over()
        image = ImageReader(BytesIO(png))
        self.drawing.drawImage(image, x, self.height - y - high, wide, high, mask="auto")

    def strip(self, x: float, y: float, strip: Strip, scale: float) -> None:
        """Draw a player strip, its upper left corner at the place."""
        self.begin()
        self.ink(inked=False)
        self.say(f"q 1 0 0 1 {number(x)} {number(self.height - y)} cm {strip_path(strip, scale)} Q")


def stretches(pieces: Sequence[Piece]) -> Iterable[tuple[tuple[str, bool], Iterable[Piece]]]:
    """The pieces of a line by their language and ink: those of most lines are alike."""
    kinds = set(map(LANGUAGE_AND_INK, pieces))
    return [(kinds.pop(), pieces)] if len(kinds) == 1 else groupby(pieces, key=LANGUAGE_AND_INK)
