"""Faces as reportlab embeds them: subsets of the glyphs in use, whole outlines, maps back to the text."""

from __future__ import annotations

import re
import shutil
import subprocess
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont

from catalogue.documents.model import Document, Opening, Paper, value, wording
from catalogue.documents.renderers.pdf import faces
from catalogue.documents.renderers.pdf.codes import COMMON, FIRST_FACES, ITSELF, OTHERS, common_codes
from catalogue.documents.renderers.pdf.fonts import font_of, to_unicode, truetype
from catalogue.documents.renderers.pdf.pages import render_pdf

TITLE = "庭の余白"


def headed(title: str, composer: str = "", language: str = "en-GB") -> bytes:
    opening = Opening(value(title, language=language), wording(composer))
    return render_pdf(Document("works-list-by-year", "t", "a", "en-GB", Paper.A4, (opening,)))


def embedded(pdf: pikepdf.Pdf) -> dict[str, list[pikepdf.Object]]:
    """The fonts of a file by the faces that they are subsets of."""
    found: dict[str, list[pikepdf.Object]] = {}
    for thing in pdf.objects:
        if isinstance(thing, pikepdf.Dictionary) and "/BaseFont" in thing:
            found.setdefault(str(thing.BaseFont).partition("+")[2], []).append(thing)
    return found


def program(font: pikepdf.Object) -> TTFont:
    return TTFont(BytesIO(font.FontDescriptor.FontFile2.read_bytes()))


def test_every_carried_face_has_a_postscript_name_of_its_own() -> None:
    names = {path.stem: str(TTFont(path)["name"].getName(6, 3, 1)) for path in faces.FOLDER.glob("*.ttf")}

    assert {stem for stem, name in names.items() if name != stem} == set()


def test_a_face_is_embedded_with_only_the_glyphs_in_use() -> None:
    with pikepdf.open(BytesIO(headed("Weir"))) as pdf:
        (font,) = embedded(pdf)["NotoSerif-Regular"]
        # .notdef, and the letters of "Weir" and of the folio "1 of 1"
        assert program(font)["maxp"].numGlyphs == 1 + len(set("Weir1 of"))


def test_a_letter_brings_what_it_is_put_together_from() -> None:
    face = faces.carried_face("NotoSerif-Regular")
    letter = face.font.get_nominal_glyph(ord("ệ"))

    made, places = truetype(face, [letter])

    glyphs = TTFont(BytesIO(made))["glyf"]
    name = glyphs.glyphOrder[places[letter]]
    assert glyphs[name].isComposite()
    assert all(glyphs[part.glyphName].numberOfContours for part in glyphs[name].components)


def test_a_text_of_many_signs_is_spread_over_several_subsets() -> None:
    signs = "".join(
        map(chr, [*range(0x100, 0x180), *range(0x391, 0x3A2), *range(0x410, 0x450), *range(0x1EA0, 0x1EF9)])
    )
    with pikepdf.open(BytesIO(headed(signs))) as pdf:
        fonts = embedded(pdf)["NotoSerif-Regular"]
        said = "".join(
            bytes.fromhex(text).decode("utf-16-be")
            for font in fonts
            for text in re.findall(r"<[0-9A-F]{2}> <([0-9A-F]{4})>", font.ToUnicode.read_bytes().decode())
        )

    assert len(fonts) == 3  # the common codes of the folio, and two parts for the title
    assert set(signs) - set(said) == set()


def test_japanese_is_embedded_as_a_subset_with_the_outlines_of_its_face() -> None:
    face = faces.face_for("庭", "serif", "roman", "ja")
    whole = TTFont(face_file())
    with pikepdf.open(BytesIO(headed(TITLE, language="ja"))) as pdf:
        (font,) = embedded(pdf)["NotoSerifJP-Regular"]
        part = program(font)
        read = font.ToUnicode.read_bytes().decode()

    assert face.name == "NotoSerifJP-Regular"
    assert part["maxp"].numGlyphs == 1 + len(TITLE)
    assert all(sign.encode("utf-16-be").hex().upper() in read for sign in TITLE)
    for place, sign in enumerate(TITLE, 1):
        code = next(int(code, 16) for code, text in re.findall(r"<(..)> <(.{4})>", read) if chr(int(text, 16)) == sign)
        drawn = part["cmap"].tables[0].cmap[code]
        box, area = shape(part, drawn)
        true_box, true_area = shape(whole, whole.getBestCmap()[ord(sign)])
        assert max(abs(one - other) for one, other in zip(box, true_box, strict=True)) <= 1, place
        assert abs(area / true_area - 1) < 0.01
        assert part["hmtx"][drawn][0] == whole["hmtx"][whole.getBestCmap()[ord(sign)]][0]


def face_file() -> Path:
    (path,) = [path for path in faces.package_fonts("pylopdf_fonts_jp", "serif") if "Serif" in path.stem]
    return path


def shape(font: TTFont, glyph: str) -> tuple[tuple[float, ...], float]:
    """The box of a glyph, and how much of it is black."""
    glyphs = font.getGlyphSet()
    bounds, area = BoundsPen(glyphs), AreaPen(glyphs)
    glyphs[glyph].draw(bounds)
    glyphs[glyph].draw(area)
    return bounds.bounds, abs(area.value)


@pytest.mark.skipif(shutil.which("pdftotext") is None, reason="pdftotext is not installed")
def test_another_reader_finds_a_japanese_title(tmp_path: Path) -> None:
    path = tmp_path / "list.pdf"
    path.write_bytes(headed(TITLE, "Mitsuki Hoshigaoka", "ja"))

    read = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True).stdout

    assert TITLE in read.splitlines()


def test_a_face_is_one_font_however_often_it_is_asked_for() -> None:
    face = faces.carried_face("NotoSans-Italic")

    assert font_of(face) is font_of(face)


def test_the_map_to_text_has_blocks_of_a_hundred_at_most() -> None:
    written = to_unicode({code: chr(0x400 + code) for code in range(1, 251)})

    # Adobe Technical Note 5014 (CMap files), from memory: at most a hundred entries in a block
    assert re.findall(r"(\d+) beginbfchar", written) == ["100", "100", "50"]


def test_a_word_of_common_signs_has_the_same_codes_in_every_document() -> None:
    shown = []
    for before in ("", "Łódź – “ffi”"):
        with pikepdf.open(BytesIO(headed("Weir", before))) as pdf:
            shown += re.findall(rb"\(Weir\S*\) TJ|\[\(.*W.*eir\)\] TJ", pdf.pages[0].Contents.read_bytes())

    assert len(shown) == 2
    assert shown[0] == shown[1]


def test_each_common_character_has_one_code_in_every_first_face() -> None:
    assert len(COMMON) == len(ITSELF) + len(OTHERS) == len(set(COMMON.values()))
    for name in FIRST_FACES:
        codes = common_codes(faces.carried_face(name))
        missing = set(COMMON.values()) - {text for _glyph, text in codes}
        assert {text for text in missing if len(text) == 1} == set()  # two faces have no ligatures
        assert len(set(codes.values())) == len(codes)


def test_a_blank_that_is_not_broken_is_read_back_as_itself() -> None:
    with pikepdf.open(BytesIO(headed("9\N{NO-BREAK SPACE}March 2026"))) as pdf:
        (font,) = embedded(pdf)["NotoSerif-Regular"]
        read = font.ToUnicode.read_bytes().decode()

    assert "<A0> <00A0>" in read
    assert "<20> <0020>" in read
