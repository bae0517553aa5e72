"""Pages that an opening has to itself: the cover of a score and its title page."""

from __future__ import annotations

from catalogue.documents.model import Leaf, Line, Opening, Text, joined, wording
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both, column, right_line
from catalogue.documents.renderers.pdf.setting import SetLine
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.front_matter import scaled
from catalogue.documents.sheets.geometry import BookSheet, LeafSheet, Look
from catalogue.drawings.player_strip import LINE_Y, Strip

LEAST = 0.62
"""How much smaller a title may be set so that it stays on one line."""
FEW = 4
"""On how many lines a title may stand before it is set smaller."""


def leaf_item(opening: Opening, book: BookSheet, ground: Ground, parent: Element) -> Item:
    """An opening on a right-hand page of its own."""
    is_cover = opening.leaf is Leaf.COVER
    sheet = book.cover if is_cover else book.title_page
    page = Page(sheet, ground, parent)
    page.under(opening.composer, sheet.composer, sheet.first, "P")
    page.y = page.y or sheet.first  # where nobody is named the title stands no higher
    page.under(opening.title, sheet.title, page.y + sheet.title_lead, "P" if is_cover else "H1")
    page.under(opening.subtitle, sheet.subtitle, page.y + sheet.subtitle_lead, "P")
    page.under(opening.life, sheet.text, page.y + sheet.life_lead, "P")
    if is_cover:
        page.across(opening.foot)
        page.strip(opening.forces)
    else:
        page.at_foot(opening.foot)
        if page.has_room(opening):
            page.numbered(opening.parts)
        page.facts(opening.facts)
    drawing = both(*page.drawings)
    return Item(lambda canvas, _y, fresh: drawing(canvas, 0, fresh), lead=0, begins=True, leaf=True)


class Page:
    """A leaf being laid out; ``y`` is the last baseline so far, ``limit`` where the imprint begins, from the top."""

    def __init__(self, sheet: LeafSheet, ground: Ground, parent: Element) -> None:
        self.sheet = sheet
        self.ground = ground
        self.parent = parent
        self.x = ground.left + sheet.x
        self.y = 0.0
        self.limit = ground.size.height - sheet.foot
        self.drawings: list[Draw] = []

    @property
    def measure(self) -> float:
        return self.ground.width - self.sheet.x

    def put(self, lines: tuple[SetLine, ...], x: float, y: float, leading: float, role: str) -> None:
        told = column(lines, x, leading, self.parent.add(role))
        self.drawings.append(lambda canvas, top, fresh: told(canvas, top + y, fresh))

    def under(self, text: Text, look: Look, y: float, role: str) -> None:
        """Set a text with its first baseline at ``y``; without a text nothing moves."""
        look = self.fitting(text, look)
        lines = self.ground.lines(text, look, self.measure)
        if lines:
            self.put(lines, self.x, y, look.leading, role)
            self.y = y + (len(lines) - 1) * look.leading

    def fitting(self, text: Text, look: Look) -> Look:
        """A look so small that the text stands on one line, if it need not be much smaller, else on a few lines."""
        width = self.ground.line(text, look).width
        share = min(1.0, self.measure / width) if width else 1.0
        if LEAST <= share < 1:
            return scaled(look, share * 0.998)
        sizes = (scaled(look, one) for one in (1.0, 0.8, LEAST, 0.45))
        return next(
            (one for one in sizes if len(self.ground.lines(text, one, self.measure)) <= FEW), scaled(look, 0.45)
        )

    def numbered(self, parts: tuple[Line, ...]) -> None:
        """List the movements, their numerals in a column of their own."""
        look, indent = self.sheet.text, self.sheet.number_x
        y = max(self.sheet.parts, self.y + self.sheet.facts_lead) if parts else self.y
        for part in parts:
            lines = self.ground.lines(part.text, look, self.measure - indent)
            self.put((self.ground.line(wording(part.label), look),), self.x, y, look.leading, "P")
            self.put(lines, self.x + indent, y, look.leading, "P")
            self.y = y + (len(lines) - 1) * look.leading
            y = self.y + look.leading

    def has_room(self, opening: Opening) -> bool:
        """Whether the movements fit between what stands above them and the imprint; the next page lists them too."""
        look = self.sheet.text
        lines = [self.ground.lines(part.text, look, self.measure - self.sheet.number_x) for part in opening.parts]
        high = (sum(map(len, lines)) + len(opening.facts)) * look.leading + 2 * self.sheet.facts_lead
        return max(self.sheet.parts - self.sheet.facts_lead, self.y) + high <= self.limit

    def facts(self, facts: tuple[Text, ...]) -> None:
        y = max(self.sheet.parts, self.y + self.sheet.facts_lead)
        for fact in facts:
            self.under(fact, self.sheet.text, y, "P")
            y = self.y + self.sheet.text.leading

    def at_foot(self, foot: tuple[Text, ...]) -> None:
        """Set lines so that the last one stands on its place at the foot of the page."""
        look = self.sheet.small
        lines = [line for text in foot for line in self.ground.lines(text, look, self.measure)]
        if lines:
            y = self.ground.size.height - self.sheet.foot - (len(lines) - 1) * look.leading
            self.limit = y - look.leading
            self.put(tuple(lines), self.x, y, look.leading, "P")

    def across(self, foot: tuple[Text, ...]) -> None:
        """Set what stands at the foot of a cover: the first at the left, what follows at the right."""
        look, y = self.sheet.small, self.ground.size.height - self.sheet.foot
        if foot and foot[0]:
            self.put((self.ground.line(foot[0], look),), self.x, y, look.leading, "P")
        right = joined(foot[1:], ", ")
        if right:
            line = right_line(
                self.ground.first_line(right, look, self.measure * 0.75), self.ground, self.parent.add("P")
            )
            self.drawings.append(lambda canvas, top, fresh: line(canvas, top + y, fresh))

    def strip(self, forces: Strip | None) -> None:
        """Draw the forces as wide as the page allows."""
        if forces is None:
            return
        scale = min(self.sheet.strip_scale, self.measure / forces.width)
        top = self.ground.size.height - self.sheet.foot - self.sheet.strip - LINE_Y * scale
        element = self.parent.add("Figure", alternative=forces.title)

        def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
            with canvas.content(element):
                canvas.strip(self.x, y + top, forces, scale)

        self.drawings.append(draw)
