"""The typefaces of a word-processor file: embedded as far as it needs them, and named with what may stand for them.

A font table (Office Open XML, ECMA-376 part 1, section 17.8) says of each face which others are like it and whether it
has serifs. The carried faces come along as parts that can be changed and printed, which their licence allows: the signs
of the document and all Latin letters, so that somebody may go on writing.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from typing import Any
from uuid import UUID

import uharfbuzz as hb
from docx.document import Document as WordDocument
from docx.opc.constants import RELATIONSHIP_TYPE
from docx.opc.packuri import PackURI
from docx.opc.part import Part
from docx.oxml import OxmlElement
from docx.oxml.ns import nsmap, qn
from lxml import etree

from catalogue.documents.renderers.pdf.faces import carried_face

FAMILIES = {"serif": "Noto Serif", "sans": "Noto Sans"}
ARABIC = "Noto Naskh Arabic"
HEBREW = "Noto Serif Hebrew"
EAST_ASIAN = "Noto Serif JP"
SIGNS = "LedgerSigns"
SIGNS_FACE = "LedgerSigns-Regular"
WRITTEN_ON = frozenset((*range(0x20, 0x7F), *range(0xA0, 0x250), *range(0x1E00, 0x1F00), *range(0x2010, 0x2040)))
"""Basic Latin, Latin-1, Latin Extended-A and -B and Additional, General Punctuation (Unicode Standard, blocks).

A word processor that has several papers open may draw all of them in the faces of the first, so that what one of them
lacks is lost to the others: every Latin letter comes with each.
"""
OBFUSCATED = "application/vnd.openxmlformats-officedocument.obfuscatedFont"
HIDDEN = 32
"""How many bytes at the beginning of an embedded font are hidden under its key (section 17.8.1)."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A face, those that may stand for it, its class (roman: with serifs, swiss: without), and its files by style.

    ``letters`` is the bidirectional class of those without which it is not needed, or ``signs`` for those of music.
    """

    name: str
    instead: str
    kind: str
    panose: str
    files: tuple[tuple[str, str], ...] = ()
    letters: str = ""


ASKED = (
    Asked(
        FAMILIES["serif"],
        "Cambria, Georgia, Times New Roman",
        "roman",
        "02020600060500020200",
        (("Regular", "NotoSerif-Regular"), ("Bold", "NotoSerif-Bold"), ("Italic", "NotoSerif-Italic")),
    ),
    Asked(
        FAMILIES["sans"],
        "Segoe UI, Arial, Helvetica",
        "swiss",
        "020B0502040504020204",
        (("Regular", "NotoSans-Regular"), ("Bold", "NotoSans-SemiBold"), ("Italic", "NotoSans-Italic")),
    ),
    Asked(
        ARABIC,
        "Traditional Arabic, Times New Roman",
        "roman",
        "02020603050405020304",
        (("Regular", "NotoNaskhArabic-Regular"),),
        "AL",
    ),
    Asked(
        HEBREW,
        "David, Times New Roman",
        "roman",
        "02020603050405020304",
        (("Regular", "NotoSerifHebrew-Regular"),),
        "R",
    ),
    Asked(
        SIGNS,
        "Cambria Math, Segoe UI Symbol",
        "auto",
        "00000000000000000000",
        (("Regular", SIGNS_FACE),),
        "signs",
    ),
    Asked(EAST_ASIAN, "Yu Mincho, MS Mincho, Hiragino Mincho ProN", "roman", "02020400000000000000"),
)


def embed_fonts(word: WordDocument) -> None:
    """Put the table of the faces that are asked for in the place of the template's, and the faces beside it."""
    signs = frozenset(ord(sign) for text in texts_of(word) for sign in text)
    kinds = {unicodedata.bidirectional(chr(sign)) for sign in signs} | {""}
    if signs & carried_face(SIGNS_FACE).coverage:
        kinds.add("signs")
    table = word.part.part_related_by(RELATIONSHIP_TYPE.FONT_TABLE)
    fonts = etree.Element(qn("w:fonts"), nsmap={"w": nsmap["w"], "r": nsmap["r"]})
    for asked in ASKED:
        font = etree.SubElement(fonts, qn("w:font"), {qn("w:name"): asked.name})
        for tag, told in described(asked):
            etree.SubElement(font, qn(f"w:{tag}"), {qn("w:val"): told})
        for style, name in asked.files if asked.letters in kinds else ():
            embed(font, table, style, part_of(name, signs | WRITTEN_ON))
    table._blob = etree.tostring(fonts, xml_declaration=True, encoding="UTF-8", standalone=True)
    zoom = word.settings.element.find(qn("w:zoom"))
    for name in ("saveSubsetFonts", "embedTrueTypeFonts"):
        zoom.addnext(OxmlElement(f"w:{name}"))


def texts_of(word: WordDocument) -> Iterator[str]:
    """What stands on its pages, above and below them."""
    around = {RELATIONSHIP_TYPE.HEADER, RELATIONSHIP_TYPE.FOOTER}
    parts = (one.target_part for one in word.part.rels.values() if one.reltype in around)
    for element in (word.element, *(part.element for part in parts)):
        yield from (text.text or "" for text in element.iter(qn("w:t")))


def described(asked: Asked) -> Iterator[tuple[str, str]]:
    yield "altName", asked.instead
    yield "panose1", asked.panose
    yield "family", asked.kind
    yield "pitch", "variable"


def embed(font: etree._Element, table: Part, style: str, program: bytes) -> None:
    """Add a face to the file and say so in the table."""
    key = UUID(bytes=sha256(program).digest()[:16])
    part = Part(PackURI(f"/word/fonts/{key}.odttf"), OBFUSCATED, hidden(program, key), table.package)
    said = {
        qn("r:id"): table.relate_to(part, RELATIONSHIP_TYPE.FONT),
        qn("w:fontKey"): f"{{{key}}}".upper(),
        qn("w:subsetted"): "1",
    }
    etree.SubElement(font, qn(f"w:embed{style}"), said)


@lru_cache(32)
def part_of(name: str, signs: frozenset[int]) -> bytes:
    """The font program of some signs, as far as the face has them."""
    wanted: Any = hb.SubsetInput()
    wanted.sets(hb.SubsetInputSets.UNICODE).update(signs)
    wanted.flags = hb.SubsetFlags.NO_HINTING
    return bytes(hb.subset(carried_face(name).face, wanted).blob.data)


def hidden(program: bytes, key: UUID) -> bytes:
    """The font with its beginning under the bytes of the key, the last of these first."""
    mask = key.bytes[::-1] * (HIDDEN // 16)
    return bytes(sign ^ over for sign, over in zip(program, mask, strict=False)) + program[HIDDEN:]


def complex_face(text: str) -> str:
    """The face of a text that reads from right to left: Hebrew where its first strong character is.

    >>> complex_face("מפתח"), complex_face("بستان")
    ('Noto Serif Hebrew', 'Noto Naskh Arabic')
    """
    return HEBREW if first_strong(map(unicodedata.bidirectional, text)) == "R" else ARABIC


def first_strong(kinds: Iterable[str]) -> str:
    return next((kind for kind in kinds if kind in ("R", "AL")), "")
