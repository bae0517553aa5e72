"""The typefaces that a PDF is set in: which face has a character, how wide its glyphs are.

A text is set in the first face of its chain that has the character. Chinese, Japanese and Korean come from packages of
open fonts; without one such a character prints as an empty box and still copies as itself.
"""

from __future__ import annotations

from functools import cached_property, lru_cache
from importlib.util import find_spec
from pathlib import Path

import uharfbuzz as hb

FOLDER = Path(__file__).parents[2] / "fonts"
EVERYWHERE = ("LedgerSigns-Regular", "NotoNaskhArabic-Regular", "NotoSerifHebrew-Regular")
STRONG_EVERYWHERE = ("LedgerSigns-Regular", "NotoNaskhArabic-Bold", "NotoSerifHebrew-Bold")
LARGER = {"NotoNaskhArabic-Regular": 1.12, "NotoNaskhArabic-Bold": 1.12}
"""Arabic at the size of the text around it looks small (common practice)."""

CHAINS = {
    ("serif", "roman"): ("NotoSerif-Regular", *EVERYWHERE),
    ("serif", "italic"): ("NotoSerif-Italic", *EVERYWHERE),
    ("serif", "strong"): ("NotoSerif-Bold", *STRONG_EVERYWHERE),
    ("sans", "roman"): ("NotoSans-Regular", *EVERYWHERE),
    ("sans", "italic"): ("NotoSans-Italic", *EVERYWHERE),
    ("sans", "strong"): ("NotoSans-SemiBold", *STRONG_EVERYWHERE),
}
PACKAGES = {
    "ja": "pylopdf_fonts_jp",
    "zh": "pylopdf_fonts_zh_cn",
    "zh-hant": "pylopdf_fonts_zh_tw",
    "ko": "pylopdf_fonts_ko",
}


class Face:
    """One face, mapped into memory once. Widths are in thousandths of the size."""

    def __init__(self, path: Path) -> None:
        self.name = path.stem
        self.face = hb.Face(hb.Blob.from_file_path(str(path)))
        self.font = hb.Font(self.face)
        self.scale = LARGER.get(self.name, 1.0)

    @cached_property
    def coverage(self) -> frozenset[int]:
        return frozenset(self.face.unicodes)

    def width(self, glyph: int) -> float:
        return self.thousandths(self.font.get_glyph_h_advance(glyph))

    def thousandths(self, units: float) -> float:
        return units * 1000 / self.face.upem


@lru_cache(None)
def carried_face(name: str) -> Face:
    return Face(FOLDER / f"{name}.ttf")


@lru_cache(None)
def packaged_faces(family: str, language: str) -> tuple[Face, ...]:
    """The faces of the font packages that are installed, the one for this language first."""
    base = language.lower().partition("-")[0]
    wanted = sorted(PACKAGES, key=lambda tag: (not language.lower().startswith(tag), not tag.startswith(base)))
    paths = [path for tag in wanted for path in package_fonts(PACKAGES[tag], family)]
    return tuple(face_of(path) for path in paths)


def package_fonts(package: str, family: str) -> list[Path]:
    """The font files of an installed package, those of the family first."""
    spec = find_spec(package)
    folders = [Path(folder) for folder in spec.submodule_search_locations or ()] if spec else []
    found = [path for folder in folders for path in folder.rglob("*") if path.suffix in (".otf", ".ttf")]
    return sorted(found, key=lambda path: (family not in path.stem.lower(), path.name))


@lru_cache(None)
def face_of(path: Path) -> Face:
    return Face(path)


@lru_cache(None)
def chain(family: str, cut: str, language: str) -> tuple[Face, ...]:
    return (*map(carried_face, CHAINS[(family, cut)]), *packaged_faces(family, language))


@lru_cache(4000)
def missing(text: str, family: str, language: str) -> bool:
    """Whether some letter of the text is in no face of the chain."""
    faces = chain(family, "roman", language)
    return any(sign.isalpha() and not any(ord(sign) in face.coverage for face in faces) for sign in text)


@lru_cache(20000)
def face_for(character: str, family: str, cut: str, language: str) -> Face:
    """The first face of the chain that has the character, else the first of all, which prints its empty box."""
    faces = chain(family, cut, language)
    return next((face for face in faces if ord(character) in face.coverage), faces[0])
