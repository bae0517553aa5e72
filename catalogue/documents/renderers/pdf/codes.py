"""The codes of glyphs in the fonts that a file has, those of common characters the same in every file.

A font of a file has 256 codes. In the first part of each first face they are given once for all (:data:`COMMON`), so
that a word which needs no others is spelled once and shown in any document. All other glyphs have codes in further
parts, in the order in which a document needs them (``fonts``).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from catalogue.documents.renderers.pdf.faces import CHAINS, Face
from catalogue.documents.renderers.pdf.paths import number
from catalogue.documents.renderers.pdf.shaping import Glyph, shape

FIRST_FACES = tuple(sorted({names[0] for names in CHAINS.values()}))
"""The faces of Latin texts."""
ITSELF = (*range(0x20, 0x7F), *range(0xA0, 0xAD), *range(0xAE, 0x100))
"""The characters whose code is their own number: those of ISO 8859-1 that are seen."""
OTHERS = (
    *("–", "—", "‘", "’", "“", "”", "„", "…", "′", "″", "fi", "fl", "ff", "ffi", "ffl"),
    *"œŒŸŠšŽžŁłĄąĆćĘęŃńŚśŹźŻżČčĎďĚěŇňŘřŤťŮůŐőŰűĞğİıŞşĂă",
)
"""What has the codes that are left: signs, ligatures, letters of languages in Latin script."""
LEFT = (*range(0x01, 0x20), 0x7F, *range(0x80, 0xA0), 0xAD)
COMMON = {**{code: chr(code) for code in ITSELF}, **dict(zip(LEFT, OTHERS, strict=False))}
ESCAPED = tuple(f"\\{code:03o}" if chr(code) in "\\()\r\n" else chr(code) for code in range(256))
"""Each code as it stands in a string (ISO 32000-1, section 7.3.4.2): as it is, but for what a reader would take for an
end of the string or of a line."""


class Spelling(NamedTuple):
    """Glyphs as a string of codes that are the same in every document, moved within it: what stands between the first
    bracket and the last; and the codes that are used. Both are empty where some glyph has no such code."""

    shown: str = ""
    codes: bytes = b""


@lru_cache(None)
def common_codes(face: Face) -> dict[tuple[int, str], int]:
    """The code of each glyph with what it stands for; none in other faces than the first ones."""
    if face.name not in FIRST_FACES:
        return {}
    found = {code: (shape(text, face, False), text) for code, text in COMMON.items()}
    return {(glyphs[0].id, text): code for code, (glyphs, text) in found.items() if len(glyphs) == 1 and glyphs[0].id}


@lru_cache(None)
def common_glyphs(face: Face) -> dict[int, int]:
    """The glyph of each code."""
    return {code: glyph for (glyph, _text), code in common_codes(face).items()}


def common_name_of(face: Face) -> str:
    """The name of a first face in every document; empty of another, which has the name of its place."""
    return f"F{FIRST_FACES.index(face.name) + 1}" if face.name in FIRST_FACES else ""


@lru_cache(400)
def common_name(face: Face, size: float) -> str:
    """How the common codes of a face are chosen in a size (ISO 32000-1, section 9.3.1)."""
    return f"/{common_name_of(face)}+0 {number(size)} Tf"


def spelled(glyphs: Sequence[Glyph], face: Face) -> Spelling:
    codes = common_codes(face)
    told = [codes.get((glyph.id, glyph.source)) for glyph in glyphs]
    if None in told or any(glyph.x or glyph.y for glyph in glyphs):
        return Spelling()
    known = bytes(filter(None, told))
    shown = "".join([moved(glyph, face, ESCAPED[code]) for glyph, code in zip(glyphs, known, strict=True)])
    inner = shown[1:].replace(")(", "")
    return Spelling(inner.removesuffix(")") if inner.endswith(")") else f"{inner}(", known)


def moved(glyph: Glyph, face: Face, shown: str) -> str:
    """A glyph's code as TJ is told it: moved by the glyph's own offset, then to where the next one begins.

    The font has moved on by the glyph's width.
    """
    before = f"{number(-glyph.x)} " if glyph.x else ""
    after = face.width(glyph.id) - glyph.advance + glyph.x
    return f"{before}({shown})" + (f"{number(after)} " if after else "")
