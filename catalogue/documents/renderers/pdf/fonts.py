"""Typefaces as reportlab embeds them: its TrueType fonts, whose characters here are the glyphs of a face.

reportlab looks a character up in a font's own map and writes subsets of up to 254 characters. Joined, stacked and
kerned scripts have glyphs that no character leads to, so each glyph of a face has a private character, and the map back
to text (ISO 32000-1, section 9.10.3) says what HarfBuzz set each glyph for, document by document.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from io import BytesIO
from threading import Lock
from typing import Any
from weakref import WeakKeyDictionary

import uharfbuzz as hb
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont as FontFile
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.pdfdoc import PDFDocument, PDFStream, PDFTrueTypeFont
from reportlab.pdfbase.ttfonts import SUBSETN, TTFont, TTFontFace

from catalogue.documents.renderers.pdf.codes import COMMON, FIRST_FACES, common_glyphs, common_name_of
from catalogue.documents.renderers.pdf.faces import Face
from catalogue.documents.renderers.pdf.paths import number
from catalogue.documents.renderers.pdf.shaping import Glyph

FIRST = 0xF0000
"""The private character of glyph 0 (Unicode Standard, supplementary private use area A); a face has at most 65536."""
UNUSED = ("GSUB", "GPOS", "GDEF", "BASE", "VORG", "kern", "vhea", "vmtx", "DSIG")
CURVE_ERROR = 1.0
"""How far, in units of the face, quadratic curves may lie from the cubic ones that they stand for."""

REGISTERING = Lock()


def font_of(face: Face) -> GlyphFont:
    """The face as reportlab's font, known to it by ``fontName``."""
    with REGISTERING:
        return registered(face)


@lru_cache(None)
def registered(face: Face) -> GlyphFont:
    font = GlyphFont(face)
    pdfmetrics.registerFont(font)
    return font


class GlyphFont(TTFont):
    """reportlab's font of one face. What glyphs stand for is kept for each document, as reportlab keeps its subsets.

    The first subset of a first face is that of the common codes (``codes``), of which a document says what it uses;
    from subset ``own`` on reportlab gives codes for the document.
    """

    def __init__(self, face: Face) -> None:
        super().__init__(face.name, BytesIO(truetype(face, ())[0]), asciiReadable=False)
        self.face = GlyphFace(face)
        self.own = int(face.name in FIRST_FACES)
        self.sources: WeakKeyDictionary[PDFDocument, dict[int, str]] = WeakKeyDictionary()

    def begun(self, document: PDFDocument) -> Any:
        """What reportlab keeps of the font for a document, which has the font from now on."""
        found = self.state.get(document)
        if found is None:
            found = self.state[document] = TTFont.State(False, self)
            if self.own:
                found.assignments, found.subsets, found.nextCode = {}, [[]], 256
            found.internalName = common_name_of(self.face.whole) or f"G{len(document.fontMapping) + 1}"
            document.fontMapping[self.fontName] = f"/{found.internalName}"
            document.delayedFonts.append(self)
        return found

    def splitString(self, text: str, doc: PDFDocument, encoding: str = "utf-8") -> list[tuple[int, bytes]]:
        self.begun(doc)
        parts: list[tuple[int, bytes]] = super().splitString(text, doc, encoding)
        return parts

    def use(self, document: PDFDocument, codes: Iterable[int]) -> None:
        """Have these of the common codes, and no others."""
        glyphs, used = common_glyphs(self.face.whole), set(codes)
        self.begun(document).subsets[0] = [FIRST + glyphs[code] if code in used else 0 for code in range(max(used) + 1)]

    def stands_for(self, document: PDFDocument, glyphs: Iterable[Glyph]) -> bool:
        """Note the glyphs; whether each can be read back as its source, which two sources of one glyph forbid."""
        sources = self.sources.setdefault(document, {})
        spelt = True
        for glyph in glyphs:
            spelt &= sources.setdefault(glyph.id, glyph.source) == glyph.source
        return spelt

    def addObjects(self, doc: PDFDocument) -> None:
        """Embed the subsets that are used, each with the map of its codes to what they stand for."""
        sources = self.sources.pop(doc, {})
        for place, subset in enumerate(self.state[doc].subsets):
            codes = {code: sign - FIRST for code, sign in enumerate(subset) if sign in self.face.charToGlyph}
            if codes:
                said = {code: sources[glyph] if place >= self.own else COMMON[code] for code, glyph in codes.items()}
                self.embed(doc, place, tuple(subset), said)
        del self.state[doc]

    def embed(self, document: PDFDocument, place: int, subset: tuple[int, ...], said: dict[int, str]) -> None:
        name = f"{SUBSETN(place).decode()}+{self.face.name.decode()}"
        first = min(said)
        font = PDFTrueTypeFont()
        font.Name, font.BaseFont = self.getSubsetInternalName(place, document)[1:], name
        font.FirstChar, font.LastChar = first, len(subset) - 1
        font.Widths = widths_of(self.face.whole, subset[first:])
        written = PDFStream(content=to_unicode(said))
        font.ToUnicode = document.Reference(written, f"toUnicodeCMap:{name}")
        font.FontDescriptor = self.face.addSubsetObjects(document, name, list(subset))
        document.Reference(font, font.Name)
        document.idToObject["BasicFonts"].dict[font.Name] = font


@lru_cache(200)
def widths_of(face: Face, subset: tuple[int, ...]) -> bytes:
    """The widths of the characters of a subset, as its font has them in the file; nothing where it has none."""
    known = registered(face).face.charWidths
    return f"[{' '.join([number(known.get(sign, 0)) for sign in subset])}]".encode("ascii")


class GlyphFace(TTFontFace):
    """What reportlab knows of a face: measures from an empty subset, the glyphs from the face itself."""

    def __init__(self, face: Face) -> None:
        super().__init__(BytesIO(truetype(face, ())[0]))
        self.name = face.name.encode("ascii")
        self.whole = face
        glyphs = range(face.face.glyph_count)
        self.charToGlyph = {FIRST + glyph: glyph for glyph in glyphs}
        self.charWidths = {FIRST + glyph: face.width(glyph) for glyph in glyphs}

    def makeSubset(self, subset: list[int]) -> bytes:
        return program_of(self.whole, tuple(subset))


@lru_cache(200)
def program_of(face: Face, subset: tuple[int, ...]) -> bytes:
    """The font program of some characters. HarfBuzz takes their glyphs out of the face, reportlab gives codes.

    A paper that is made again, in whatever format of page, has the same ones.
    """
    program, places = truetype(face, [sign - FIRST for sign in subset if sign >= FIRST])
    part = TTFontFace(BytesIO(program))
    part.charToGlyph = {FIRST + glyph: place for glyph, place in places.items()}
    return part.makeSubset(list(subset))


def truetype(face: Face, glyphs: Iterable[int]) -> tuple[bytes, dict[int, int]]:
    """A TrueType font of only these glyphs of a face and what they are put together from, and their new numbers.

    One character comes along, for reportlab reads no font without any.
    """
    wanted: Any = hb.SubsetInput()
    wanted.sets(hb.SubsetInputSets.GLYPH_INDEX).update(glyphs)
    wanted.sets(hb.SubsetInputSets.DROP_TABLE_TAG).update(map(tag_number, UNUSED))
    wanted.sets(hb.SubsetInputSets.UNICODE).add(min(face.coverage))
    wanted.flags = hb.SubsetFlags.NO_HINTING | hb.SubsetFlags.NOTDEF_OUTLINE | hb.SubsetFlags.NO_LAYOUT_CLOSURE
    plan = hb.SubsetPlan(face.face, wanted)
    part = plan.execute()
    program = bytes(part.blob.data)
    return quadratic(program) if "CFF " in part.table_tags else program, dict(plan.old_to_new_glyph_mapping)


def tag_number(tag: str) -> int:
    return int.from_bytes(tag.encode("ascii"), "big")


def quadratic(program: bytes) -> bytes:
    """An OpenType font with cubic outlines (CFF) as one with quadratic outlines, which reportlab can embed."""
    font = FontFile(BytesIO(program), recalcTimestamp=False)
    outlines = {name: outline(glyph) for name, glyph in font.getGlyphSet().items()}
    del font["CFF "]
    builder = FontBuilder(font=font)
    builder.isTTF, font.sfntVersion = True, "\0\1\0\0"
    builder.setupGlyf(outlines)
    builder.setupMaxp()
    builder.setupPost(keepGlyphNames=False)
    written = BytesIO()
    builder.save(written)
    return written.getvalue()


def outline(glyph: Any) -> Any:
    pen = TTGlyphPen(None)
    glyph.draw(Cu2QuPen(pen, CURVE_ERROR, reverse_direction=True))
    return pen.glyph()


def to_unicode(sources: dict[int, str]) -> str:
    """The map from codes back to text; a glyph that only completes a cluster stands for nothing."""
    pairs = [f"<{code:02X}> <{source.encode('utf-16-be').hex().upper()}>" for code, source in sources.items()]
    blocks = [pairs[start : start + 100] for start in range(0, len(pairs), 100)]
    body = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap "
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def "
        "/CMapName /Adobe-Identity-UCS def /CMapType 2 def\n"
        f"1 begincodespacerange <00> <FF> endcodespacerange\n{body}\n"
        "endcmap CMapName currentdict /CMap defineresource pop end end"
    )
