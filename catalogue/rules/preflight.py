"""A PDF of a score or a part held against what a presenter asks of material: paper, staves, binding, names, bookmarks.

Sheet sizes are those of ISO 216 and JIS P 0138, and the sheets in inches that orchestras ask for (common practice).
A size is met within three millimetres, since printers' PDFs are rounded.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from fnmatch import fnmatchcase

from catalogue.rules.search import fold
from catalogue.rules.technical.files import PdfFacts

SHEETS = {
    "a3": (297, 420),
    "a4": (210, 297),
    "a5": (148, 210),
    "b4": (250, 353),
    "b5": (176, 250),
    "jis b4": (257, 364),
    "jis b5": (182, 257),
    "letter": (216, 279),
    "us letter": (216, 279),
    "legal": (216, 356),
    "tabloid": (279, 432),
}
MEASURED = re.compile(
    r"(\d{1,4}(?:\.\d+)?)\s*(?:[x×*]|by)\s*(\d{1,4}(?:\.\d+)?)\s*(mm|cm|in|inch|inches|″|\")?", re.IGNORECASE
)
UNITS = {"mm": 1.0, "cm": 10.0}
INCH = 25.4
ALLOWED = 3
MOST_TOLD = 6


class PaperError(ValueError):
    """A sheet that cannot be read; ``reason`` says what to write."""

    def __init__(self, text: str, start: int, end: int) -> None:
        self.text, self.start, self.end = text, start, end
        self.reason = f"“{text[start:end]}” is no size of paper; write such as A3, 10 × 13 in or 254 × 330 mm."
        super().__init__(self.reason)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A size of paper in millimetres, the short side first, with what it was called."""

    name: str
    short: int
    long: int


@dataclass(frozen=True, slots=True)
class Asked:
    """What a presenter asks: any of these sheets; the height of staves in millimetres; a pattern that names follow."""

    papers: tuple[Sheet, ...] = ()
    stave_least: Decimal | None = None
    stave_most: Decimal | None = None
    binding: str = ""
    file_names: str = ""
    bookmarks: bool = False


@dataclass(frozen=True, slots=True)
class Offered:
    """What is sent: a file by its name, what was found in it, what is said of its edition."""

    file_name: str
    pdf: PdfFacts
    stave_height: Decimal | None = None
    binding: str = ""


def read_papers(text: str) -> tuple[Sheet, ...]:
    """Read sizes of paper with commas between them. Raises PaperError.

    >>> [(one.short, one.long) for one in read_papers("A3, 10 × 13 in, 254x330 mm")]
    [(297, 420), (254, 330), (254, 330)]
    """
    found = []
    for match in re.finditer(r"[^,;]+", text):
        piece = match[0].strip()
        if piece:
            start = match.start() + match[0].index(piece)
            found.append(read_sheet(piece, text, start))
    return tuple(found)


def read_sheet(piece: str, text: str, start: int) -> Sheet:
    named = SHEETS.get(fold(piece))
    if named:
        return Sheet(piece, *named)
    measured = MEASURED.fullmatch(piece)
    if measured is None:
        raise PaperError(text, start, start + len(piece))
    unit = (measured[3] or "").lower()
    scale = UNITS.get(unit, INCH if unit or float(measured[1]) < 30 else 1.0)
    short, long = sorted(round(float(side) * scale) for side in (measured[1], measured[2]))
    return Sheet(piece, short, long)


def against(asked: Asked, offered: Offered) -> Iterator[str]:
    """Give what of a file does not answer what is asked, a sentence each."""
    if offered.pdf.is_locked:
        yield "The file is locked; a library cannot print it."
        return
    if offered.pdf.is_damaged:
        yield "The file is damaged; not every printer takes it."
    yield from wrong_paper(asked, offered.pdf)
    yield from wrong_pages(offered.pdf)
    if asked.bookmarks and not offered.pdf.bookmarks:
        yield "The file has no bookmarks."
    if asked.file_names and not fnmatchcase(offered.file_name.casefold(), asked.file_names.casefold()):
        yield f"The name of the file does not follow {asked.file_names}."
    yield from wrong_staves(asked, offered.stave_height)
    if asked.binding and offered.binding and fold(asked.binding) not in fold(offered.binding):
        yield f"Bound as {offered.binding}; {asked.binding} is asked for."


def untold(asked: Asked, offered: Offered) -> Iterator[str]:
    """Give what cannot be told of a file, since its edition does not say it, a sentence each."""
    limits = ((asked.stave_least, "at least"), (asked.stave_most, "at most"))
    wanted = " and ".join(f"{words} {limit.normalize():f} mm" for limit, words in limits if limit is not None)
    if wanted and offered.stave_height is None:
        yield f"How high the staves are is not said with an edition; {wanted} is asked for."
    if asked.binding and not offered.binding:
        yield f"How it is bound is not said with an edition; {asked.binding} is asked for."


def wrong_paper(asked: Asked, pdf: PdfFacts) -> Iterator[str]:
    if not asked.papers:
        return
    names = " or ".join(one.name for one in asked.papers)
    for size in pdf.sizes:
        sides = sorted((size.width, size.height))
        if not any(
            abs(sides[0] - one.short) <= ALLOWED and abs(sides[1] - one.long) <= ALLOWED for one in asked.papers
        ):
            pages = "1 page is" if size.pages == 1 else f"{size.pages} pages are"
            yield f"{pages} {size.width} × {size.height} mm; {names} is asked for."


def wrong_pages(pdf: PdfFacts) -> Iterator[str]:
    """Fonts that are not in the file, pages that are turned."""
    if pdf.loose_fonts:
        yield f"Fonts are not embedded: {', '.join(pdf.loose_fonts[:MOST_TOLD])}."
    if pdf.turned:
        yield f"Pages are turned: {', '.join(str(page) for page in pdf.turned[:MOST_TOLD])}."


def wrong_staves(asked: Asked, height: Decimal | None) -> Iterator[str]:
    if height is None:
        return
    if asked.stave_least is not None and height < asked.stave_least:
        yield f"Staves are {height.normalize():f} mm high; at least {asked.stave_least.normalize():f} mm is asked for."
    if asked.stave_most is not None and height > asked.stave_most:
        yield f"Staves are {height.normalize():f} mm high; at most {asked.stave_most.normalize():f} mm is asked for."
