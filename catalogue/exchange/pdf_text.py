"""The words of a PDF file: every page's text, and every other text that the file carries with it.

Glyphs become letters by the font's own table (ToUnicode), else by its encoding and the names of its glyphs; forms that
a page draws are read with it. ISO 32000-1, clauses 9.10 and 14.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pikepdf

DEEPEST = 8
LINE_OPERATORS = ("Td", "TD", "T*", "Tm", "BT", "'", '"')
GAP = -180  # thousandths of an em by which two glyphs lie apart that are two words
BFCHAR = re.compile(rb"<([0-9A-Fa-f\s]+)>\s*<([0-9A-Fa-f\s]*)>")
BFRANGE = re.compile(rb"<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]+)>\s*(<[0-9A-Fa-f\s]*>|\[[^\]]*\])")
SECTION = re.compile(rb"begin(bfchar|bfrange)(.*?)end\1", re.DOTALL)


class Letters:
    """How the codes of one font become letters."""

    def __init__(self, font: Any) -> None:
        self.wide = str(font.get("/Subtype", "")) == "/Type0"
        stream = font.get("/ToUnicode")
        self.table = cmap_of(stream.read_bytes()) if isinstance(stream, pikepdf.Stream) else {}
        self.differences = differences_of(font) if not self.wide else {}

    def read(self, data: bytes) -> str:
        size = 2 if self.wide else 1
        codes = [int.from_bytes(data[at : at + size], "big") for at in range(0, len(data), size)]
        return "".join(self.letter(code) for code in codes)

    def letter(self, code: int) -> str:
        if code in self.table:
            return self.table[code]
        if self.wide:
            return ""
        return self.differences.get(code) or bytes([code]).decode("cp1252", errors="replace")


def cmap_of(data: bytes) -> dict[int, str]:
    """Return the letters of a ToUnicode table by code."""
    found: dict[int, str] = {}
    for kind, body in SECTION.findall(data):
        if kind == b"bfchar":
            for code, letters in BFCHAR.findall(body):
                found[int(b"".join(code.split()), 16)] = unicode_of(letters)
            continue
        for first, last, target in BFRANGE.findall(body):
            start, end = int(first, 16), min(int(last, 16), int(first, 16) + 65535)
            if target.startswith(b"["):
                found |= {start + at: unicode_of(one) for at, one in enumerate(re.findall(rb"<([^>]*)>", target))}
                continue
            base = unicode_of(target.strip(b"<>"))
            if base:
                found |= {
                    code: base[:-1] + chr(min(ord(base[-1]) + code - start, 0x10FFFF)) for code in range(start, end + 1)
                }
    return found


def unicode_of(digits: bytes) -> str:
    text = b"".join(digits.split()).decode("ascii", errors="ignore")
    return bytes.fromhex(text if len(text) % 2 == 0 else text + "0").decode("utf-16-be", errors="ignore")


def differences_of(font: Any) -> dict[int, str]:
    """Return the letters of a font's own encoding, by the usual names of glyphs."""
    encoding = font.get("/Encoding")
    if not isinstance(encoding, pikepdf.Dictionary) or "/Differences" not in encoding:
        return {}
    found, code = {}, 0
    for one in encoding["/Differences"]:
        if isinstance(one, int) or not isinstance(one, pikepdf.Object):
            code = int(one)
            continue
        found[code] = letter_named(str(one).lstrip("/"))
        code += 1
    return {code: letter for code, letter in found.items() if letter}


def letter_named(name: str) -> str:
    if len(name) == 1:
        return name
    match = re.fullmatch(r"uni([0-9A-F]{4})|u([0-9A-F]{4,6})", name)
    if match:
        return chr(int(match[1] or match[2], 16))
    marks = {"acute": "\u0301", "grave": "\u0300", "dieresis": "\u0308", "circumflex": "\u0302", "caron": "\u030c",
             "tilde": "\u0303", "cedilla": "\u0327", "ring": "\u030a", "slash": "\u0338"}  # fmt: skip
    accented = re.fullmatch(r"([A-Za-z])(" + "|".join(marks) + ")", name)
    if accented:
        return accented[1] + marks[accented[2]]
    return {"space": " ", "hyphen": "-", "period": ".", "comma": ",", "at": "@", "germandbls": "ß", "oslash": "ø",
            "quoteright": "’"}.get(name, "")  # fmt: skip


# ---- pages


def page_text(page: pikepdf.Page) -> str:
    """Return the words of a page in the order in which they are drawn."""
    return "".join(drawn(page.obj, page.resources, 0))


def drawn(content: Any, resources: Any, depth: int) -> Iterator[str]:
    fonts: dict[str, Letters] = {}
    current: Letters | None = None
    for instruction in pikepdf.parse_content_stream(content):
        name, operands = str(instruction.operator), instruction.operands
        if name == "Tf":
            current = font_named(str(operands[0]), resources, fonts)
        elif name in LINE_OPERATORS[:5]:
            yield " "
        elif name in ("Tj", "'", '"') and current:
            yield ("" if name == "Tj" else " ") + current.read(bytes(operands[-1]))
        elif name == "TJ" and current:
            yield from shown(operands[0], current)
        elif name == "Do" and depth < DEEPEST:
            yield from form(str(operands[0]), resources, depth)


def shown(parts: Any, letters: Letters) -> Iterator[str]:
    for part in parts:
        if isinstance(part, pikepdf.String):
            yield letters.read(bytes(part))
        elif float(part) < GAP:
            yield " "


def font_named(name: str, resources: Any, known: dict[str, Letters]) -> Letters | None:
    if name not in known:
        fonts = resources.get("/Font") if resources is not None else None
        font = fonts.get(name) if fonts is not None else None
        if font is None:
            return None
        known[name] = Letters(font)
    return known[name]


def form(name: str, resources: Any, depth: int) -> Iterator[str]:
    objects = resources.get("/XObject") if resources is not None else None
    found = objects.get(name) if objects is not None else None
    if found is not None and str(found.get("/Subtype", "")) == "/Form":
        yield " "
        yield from drawn(found, found.get("/Resources", resources), depth + 1)


# ---- everything else


def carried_texts(pdf: pikepdf.Pdf) -> Iterator[tuple[str, str]]:
    """Yield (place, text) for what a PDF carries beside its pages: properties, XMP, marks, notes, titles of files."""
    for key, value in pdf.docinfo.items():
        yield f"properties, {key.lstrip('/')}", str(value)
    for number, one in enumerate(pdf.objects, start=1):
        if isinstance(one, pikepdf.Stream) and str(one.get("/Type", "")) == "/Metadata":
            yield "XMP metadata", without_tags(one.read_bytes())
        if isinstance(one, pikepdf.Dictionary | pikepdf.Stream):
            for key, text in strings_in(one, 0):
                yield f"object {number}, {key}", text


def strings_in(one: Any, depth: int) -> Iterator[tuple[str, str]]:
    """Yield the texts of a dictionary that are not objects of their own."""
    for key, value in one.items():
        if isinstance(value, pikepdf.String):
            yield key.lstrip("/"), str(value)
        elif isinstance(value, pikepdf.Array):
            yield from ((key.lstrip("/"), str(part)) for part in value if isinstance(part, pikepdf.String))
        elif isinstance(value, pikepdf.Dictionary) and not value.is_indirect and depth < DEEPEST:
            yield from strings_in(value, depth + 1)


def without_tags(data: bytes) -> str:
    return (
        re.sub(r"<[^>]*>", " ", data.decode("utf-8", errors="replace")) + " " + data.decode("utf-8", errors="replace")
    )


def attachments(pdf: pikepdf.Pdf) -> Iterator[tuple[str, bytes]]:
    """Yield the name and content of every file inside a PDF."""
    for name, spec in pdf.attachments.items():
        yield spec.filename or name, spec.get_file().read_bytes()
