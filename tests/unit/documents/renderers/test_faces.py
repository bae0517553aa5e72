"""Typefaces: the carried ones are whole, an optional package adds its scripts, without it Latin letters stand in."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.t2CharStringPen import T2CharStringPen

from catalogue.documents.contents.titles import full_title, short_title
from catalogue.documents.model import Document, Opening, Paper, Text
from catalogue.documents.renderers.pdf import faces
from catalogue.documents.renderers.pdf.pages import render_pdf
from catalogue.documents.renderers.pdf.setting import set_line
from catalogue.documents.sheets.geometry import ENTRY_TITLE
from catalogue.facts import TitleFacts

ALMANAC = TitleFacts("Mizu no koyomi", original="水の暦", original_language="ja", translated="Water Almanac")


def forget() -> None:
    for remembered in (faces.optional_faces, faces.chain, faces.face_for, faces.missing):
        remembered.cache_clear()


@pytest.fixture
def japanese_package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A font package with one compact (CFF) face of three ideographs, drawn as boxes."""
    package = tmp_path / "pylopdf_fonts_jp"
    package.mkdir()
    (package / "__init__.py").touch()
    build_face(package / "Boxes-Regular.otf")
    monkeypatch.syspath_prepend(tmp_path)
    forget()
    yield
    forget()


def build_face(path: Path) -> None:
    names = [".notdef", "water", "no", "calendar"]
    builder = FontBuilder(1000, isTTF=False)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({0x6C34: "water", 0x306E: "no", 0x66A6: "calendar"})
    pen = T2CharStringPen(1000, None)
    pen.moveTo((100, 0))
    for corner in ((900, 0), (900, 800), (100, 800)):
        pen.lineTo(corner)
    pen.closePath()
    box = pen.getCharString()
    builder.setupCFF("Boxes-Regular", {}, dict.fromkeys(names, box), {})
    builder.setupHorizontalMetrics(dict.fromkeys(names, (1000, 100)))
    builder.setupHorizontalHeader(ascent=880, descent=-120)
    builder.setupNameTable({"familyName": "Boxes", "styleName": "Regular", "psName": "Boxes-Regular"})
    builder.setupOS2()
    builder.setupPost()
    builder.save(path)


def read(text: Text) -> str:
    return "".join(piece.text for piece in set_line(text, ENTRY_TITLE, "en-GB").pieces)


def test_every_carried_face_has_its_licence_beside_it() -> None:
    names = {name for chain in faces.CHAINS.values() for name in chain}

    assert {path.stem for path in faces.FOLDER.glob("*.ttf")} == names
    for name in names:
        family = name.partition("-")[0]
        assert (faces.FOLDER / f"OFL-{family}.txt").is_file()


@pytest.mark.parametrize(
    "text",
    [
        "Đặng Thu Vịnh",
        "Η θάλασσα μέσα",
        "Снежна ограда",
        "غرفة تطلّ على الزيتون",
        "מפתח מתחת לאבן",
        "B♭ → F♯ ♮",
        "′″×−–",
    ],
)
@pytest.mark.parametrize("family", ["serif", "sans"])
def test_the_scripts_that_are_promised_are_carried(text: str, family: str) -> None:
    for sign in text.replace(" ", ""):
        face = faces.face_for(sign, family, "roman", "en-GB")
        assert ord(sign) in face.coverage, sign


def test_without_a_face_for_its_script_a_title_is_told_in_latin_letters() -> None:
    assert read(full_title(ALMANAC)) == "Mizu no koyomi (Water Almanac)"
    assert read(short_title(ALMANAC)) == "Mizu no koyomi"


def test_a_title_in_a_carried_script_is_told_in_it() -> None:
    assert read(short_title(TitleFacts("Dva berega", original="Два берега", translated="Two Banks"))) == "Два берега"


@pytest.mark.usefixtures("japanese_package")
def test_an_optional_package_adds_its_script() -> None:
    assert read(full_title(ALMANAC)) == "水の暦 Mizu no koyomi (Water Almanac)"


@pytest.mark.usefixtures("japanese_package")
def test_a_compact_face_is_embedded_as_a_subset() -> None:
    document = Document("k", "t", "a", "en-GB", Paper.A4, (Opening(full_title(ALMANAC)),))

    with pikepdf.open(BytesIO(render_pdf(document))) as pdf:
        fonts = {str(font.BaseFont): font for font in pdf.pages[0].Resources.Font.values()}
        boxes = fonts["/LEDGER+Boxes-Regular"]
        descriptor = boxes.DescendantFonts[0].FontDescriptor
        assert str(boxes.DescendantFonts[0].Subtype) == "/CIDFontType0"
        assert str(descriptor.FontFile3.Subtype) == "/OpenType"
        assert "6C34" in boxes.ToUnicode.read_bytes().decode()
