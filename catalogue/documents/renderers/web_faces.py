"""Typefaces of East Asia for pages: those of the font packages, in slices of which a browser fetches what it shows.

The commonest signs of a language, as its national character set orders them (level 1 of JIS X 0208, of GB 2312 and of
Big5, the Hangul of KS X 1001), stand together; all others are cut by their place in Unicode. A rule of CSS names each
slice with the signs that it draws (CSS Fonts Module Level 4, ``unicode-range``).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from itertools import groupby
from pathlib import Path
from typing import Any

import uharfbuzz as hb

from catalogue.documents.renderers.pdf.faces import PACKAGES, face_of, package_fonts

FAMILIES = ("serif", "sans")
COMMONEST = {
    "ja": ("euc_jp", 0xB0, 0xCF),
    "zh": ("gb2312", 0xB0, 0xD7),
    "zh-hant": ("big5", 0xA4, 0xC6),
    "ko": ("euc_kr", 0xB0, 0xC8),
}
"""The encoding of a national character set, and the first bytes of its commonest signs."""
FIRST_SIGN = 0x2E80
"""The radicals of Unicode; what comes before has its place in the carried faces."""
COMMON_TOGETHER = 128
BLOCK = 256


@dataclass(frozen=True, slots=True)
class Slice:
    """Some signs of one face by their code points, and the signs for which a browser is to ask for it."""

    language: str
    family: str
    name: str
    signs: tuple[int, ...]
    asked: Sequence[int]
    path: Path

    @property
    def address(self) -> str:
        return f"{self.language}/{self.family}/{self.name}.otf"


@lru_cache(1)
def slices() -> dict[str, Slice]:
    """Every slice of the installed faces, by its address; of two that are to draw a sign a browser takes the later."""
    found = [
        one
        for language, package in PACKAGES.items()
        for family in FAMILIES
        for path in package_fonts(package, family)[:1]
        for one in slices_of(path, language, family)
    ]
    return {one.address: one for one in found}


def slices_of(path: Path, language: str, family: str) -> Iterator[Slice]:
    signs = sorted(sign for sign in face_of(path).coverage if sign >= FIRST_SIGN)
    common = [sign for sign in signs if is_common(sign, language)]
    rest = sorted(set(signs) - set(common))
    for block, part in groupby(rest, key=lambda sign: sign // BLOCK):
        asked = range(block * BLOCK, (block + 1) * BLOCK)
        yield Slice(language, family, f"{block:x}", tuple(part), asked, path)
    for start in range(0, len(common), COMMON_TOGETHER):
        together = tuple(common[start : start + COMMON_TOGETHER])
        yield Slice(language, family, f"common-{start // COMMON_TOGETHER}", together, together, path)


def is_common(sign: int, language: str) -> bool:
    """Whether a language's character set has the sign among its commonest.

    >>> is_common(ord("水"), "ja"), is_common(ord("鬱"), "ja"), is_common(ord("が"), "ja")
    (True, False, False)
    """
    encoding, first, last = COMMONEST[language]
    written = chr(sign).encode(encoding, errors="ignore")
    return len(written) == 2 and first <= written[0] <= last


@lru_cache(1)
def release() -> str:
    """A name that changes with the faces, so that a browser may keep them for ever."""
    paths = sorted({one.path for one in slices().values()})
    return sha256(repr([(path.name, path.stat().st_size) for path in paths]).encode()).hexdigest()[:12]


@lru_cache(1)
def sheet() -> str:
    """The style sheet that names every slice, as beside the folders of the languages."""
    return "".join(map(rule, slices().values()))


def rule(one: Slice) -> str:
    family = f"Ledger {one.family.capitalize()} {one.language}"
    return (
        f'@font-face{{font-family:"{family}";src:url("{one.address}");'
        f"unicode-range:{unicode_range(one.asked)};font-display:swap}}\n"
    )


def unicode_range(signs: Sequence[int]) -> str:
    """Code points in rising order as CSS names them.

    >>> unicode_range((0x4E00, 0x4E01, 0x4E03))
    'U+4E00-4E01,U+4E03'
    """
    stretches: list[list[int]] = []
    for sign in signs:
        if stretches and sign == stretches[-1][-1] + 1:
            stretches[-1].append(sign)
        else:
            stretches.append([sign])
    return ",".join(f"U+{one[0]:X}" + (f"-{one[-1]:X}" if len(one) > 1 else "") for one in stretches)


@lru_cache(None)
def font_file(address: str) -> bytes:
    """The font of a slice (OpenType), made when it is first asked for."""
    one = slices()[address]
    wanted: Any = hb.SubsetInput()
    wanted.sets(hb.SubsetInputSets.UNICODE).update(one.signs)
    wanted.sets(hb.SubsetInputSets.LAYOUT_FEATURE_TAG).clear()
    wanted.flags = hb.SubsetFlags.NO_HINTING | hb.SubsetFlags.DESUBROUTINIZE
    return bytes(hb.subset(face_of(one.path).face, wanted).blob.data)
