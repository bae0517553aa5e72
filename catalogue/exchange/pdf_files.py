"""What a PDF says of itself: pages, their sizes, fonts that are not in it, blank and turned pages, bookmarks.

ISO 32000-1: page boxes and rotation 7.7.3.3 and 14.11.2, fonts 9.6 to 9.9, outline 12.3.3. The memory that one stream
may unpack to is bounded for the whole process; a page counts as blank where nothing on it is drawn, and one that packs
its content in an unusual way is never called blank.
"""

from __future__ import annotations

import re
import zlib
from base64 import a85decode
from collections import Counter
from collections.abc import Iterator
from time import monotonic
from typing import Any, BinaryIO

import pikepdf
from pikepdf.settings import set_qpdf_limits

from catalogue.exchange.archives import MEGABYTE
from catalogue.rules.refused import Refused
from catalogue.rules.technical.files import PageSize, PdfFacts

MOST_UNPACKED = 64 * MEGABYTE
MOST_PAGES = 20_000
LOOKED_AT = 2_000
MOST_SECONDS = 5.0
MOST_BOOKMARKS, MOST_FONTS, DEEPEST = 50, 500, 4
ENOUGH = 65_536
"""Bytes of a page's content after which it is not blank."""
POINT = 25.4 / 72  # millimetres
DRAWS = re.compile(rb"(?<![^\s\]>)])(?:f\*?|F|S|s|B\*?|b\*?|Do|Tj|TJ|'|\"|sh|BI)(?![^\s\[<(/])")
BROKEN = re.compile(r"damaged|reconstruct|recover|endstream|unexpected EOF", re.IGNORECASE)
"""What is warned of where the library puts together what is left of a broken file, not of what is merely unusual."""
PREFIX = re.compile(r"^[A-Z]{6}\+")

set_qpdf_limits(
    flate_max_memory=MOST_UNPACKED,
    run_length_max_memory=MOST_UNPACKED,
    png_max_memory=MOST_UNPACKED,
    tiff_max_memory=MOST_UNPACKED,
    dct_max_memory=MOST_UNPACKED,
)


class PdfError(Refused):
    """A PDF that cannot be opened, or is out of bounds; ``reason`` is one sentence."""


def read_pdf(file: BinaryIO, *, most_seconds: float = MOST_SECONDS) -> PdfFacts:
    """Return what a PDF says of itself. Raises PdfError."""
    file.seek(0)
    try:
        with pikepdf.open(file) as pdf:
            return facts_of_pdf(pdf, monotonic() + most_seconds)
    except pikepdf.PasswordError:
        return PdfFacts(is_locked=True)
    except PdfError:
        raise
    except Exception as fault:
        raise PdfError(
            "This PDF is damaged and cannot be opened; write it again from the program it comes from."
        ) from fault


def facts_of_pdf(pdf: pikepdf.Pdf, until: float) -> PdfFacts:
    count = len(pdf.pages)
    if not 1 <= count <= MOST_PAGES:
        raise PdfError(f"This PDF has {count} pages; from 1 to {MOST_PAGES} are taken.")
    sizes: Counter[tuple[int, int]] = Counter()
    blank, turned, fonts = [], [], Fonts()
    for number, page in enumerate(pdf.pages, start=1):
        if monotonic() > until:
            raise PdfError("This PDF takes too long to read; write it again from the program it comes from.")
        if number > LOOKED_AT:
            break
        turn = turn_of(page)
        sizes[size_of(page, turn)] += 1
        turned += [number] if turn else []
        blank += [number] if is_blank(page) else []
        fonts.take(page.obj.get("/Resources") or page.resources, 0)
    return PdfFacts(
        pages=count,
        sizes=tuple(PageSize(*size, pages) for size, pages in sizes.most_common()),
        fonts=len(fonts.held) + len(fonts.loose),
        loose_fonts=tuple(sorted(fonts.loose)),
        blank=tuple(blank),
        turned=tuple(turned),
        bookmarks=tuple(bookmarks(pdf)),
        seen=min(count, LOOKED_AT),
        is_damaged=any(BROKEN.search(str(one)) for one in pdf.get_warnings()),
    )


# ---- a page


def turn_of(page: pikepdf.Page) -> int:
    try:
        return int(page.obj.get("/Rotate", 0)) % 360
    except (TypeError, ValueError):
        return 0


def size_of(page: pikepdf.Page, turn: int) -> tuple[int, int]:
    """Return width and height as they are looked at, to the millimetre: of the trim box, else of what is shown."""
    try:
        left, low, right, high = (float(one) for one in page.trimbox)
        scale = POINT * float(page.obj.get("/UserUnit", 1))
    except (TypeError, ValueError):
        return 0, 0
    width, height = round(abs(right - left) * scale), round(abs(high - low) * scale)
    return (height, width) if turn in (90, 270) else (width, height)


def is_blank(page: pikepdf.Page) -> bool:
    """Whether nothing is drawn on a page and nothing stands on it."""
    if page.obj.get("/Annots"):
        return False
    content = page.obj.get("/Contents")
    streams = list(content)[:100] if isinstance(content, pikepdf.Array) else [content]
    return all(draws_nothing(one) for one in streams if one is not None)


def draws_nothing(stream: Any) -> bool:
    if not isinstance(stream, pikepdf.Stream):
        return True
    content = plain_content(stream)
    return content is not None and len(content) < ENOUGH and DRAWS.search(content) is None


def plain_content(stream: pikepdf.Stream) -> bytes | None:
    """Return the beginning of a content; none where it is packed in another way than usual."""
    filters = stream.get("/Filter")
    named = [str(one) for one in filters] if isinstance(filters, pikepdf.Array) else [str(filters)] if filters else []
    if named not in ([], ["/FlateDecode"], ["/ASCII85Decode", "/FlateDecode"]):
        return None
    raw = stream.read_raw_bytes()
    if not named:
        return raw[:ENOUGH]
    try:
        packed = a85decode(raw.partition(b"~>")[0]) if len(named) > 1 else raw
        return zlib.decompressobj().decompress(packed, ENOUGH)
    except (zlib.error, ValueError):
        return None


# ---- fonts and bookmarks


class Fonts:
    """The fonts that pages name, by whether the file holds them."""

    def __init__(self) -> None:
        self.held: set[str] = set()
        self.loose: set[str] = set()
        self.seen: set[tuple[int, int]] = set()

    def take(self, resources: Any, depth: int) -> None:
        """Look through resources and the forms in them."""
        if not isinstance(resources, pikepdf.Dictionary) or depth > DEEPEST or self.is_known(resources):
            return
        for font in values_of(resources.get("/Font")):
            if len(self.held) + len(self.loose) < MOST_FONTS and not self.is_known(font):
                self.take_font(font)
        for form in values_of(resources.get("/XObject")):
            if isinstance(form, pikepdf.Stream) and form.get("/Subtype") == "/Form" and not self.is_known(form):
                self.take(form.get("/Resources"), depth + 1)

    def is_known(self, one: Any) -> bool:
        if not one.is_indirect:
            return False
        known = one.objgen in self.seen
        self.seen.add(one.objgen)
        return known

    def take_font(self, font: Any) -> None:
        if not isinstance(font, pikepdf.Dictionary):
            return
        name = PREFIX.sub("", str(font.get("/BaseFont", "/without a name")).removeprefix("/"))[:100]
        (self.held if is_held(font) else self.loose).add("".join(one for one in name if one.isprintable()))


def is_held(font: Any) -> bool:
    """Whether a font's outlines are in the file; those of a Type 3 font always are."""
    if font.get("/Subtype") == "/Type3":
        return True
    below = font.get("/DescendantFonts")
    one = below[0] if isinstance(below, pikepdf.Array) and len(below) else font
    described = one.get("/FontDescriptor") if isinstance(one, pikepdf.Dictionary) else None
    keys = ("/FontFile", "/FontFile2", "/FontFile3")
    return isinstance(described, pikepdf.Dictionary) and any(key in described for key in keys)


def values_of(found: Any) -> list[Any]:
    return [found[key] for key in list(found.keys())[:MOST_FONTS]] if isinstance(found, pikepdf.Dictionary) else []


def bookmarks(pdf: pikepdf.Pdf) -> Iterator[str]:
    """Give the titles of the outline's first level, no more than a bounded number of them."""
    outline = pdf.Root.get("/Outlines")
    item = outline.get("/First") if isinstance(outline, pikepdf.Dictionary) else None
    for _number in range(MOST_BOOKMARKS):
        if not isinstance(item, pikepdf.Dictionary):
            return
        title = "".join(one for one in str(item.get("/Title", ""))[:200] if one.isprintable())
        if title.strip():
            yield title.strip()
        item = item.get("/Next")
