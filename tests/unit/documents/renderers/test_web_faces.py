"""Typefaces of East Asia for pages: slices that together draw every sign, each a font that a browser can read."""

from __future__ import annotations

from io import BytesIO

from fontTools.ttLib import TTFont

from catalogue.documents.renderers import web_faces
from catalogue.documents.renderers.pdf.faces import face_of, package_fonts

SERIF = package_fonts("pylopdf_fonts_jp", "serif")[0]


def in_use(sign: str, family: str) -> web_faces.Slice:
    """What a browser takes of the rules that name a sign: the last."""
    named = [one for one in web_faces.slices().values() if ord(sign) in one.asked]
    return [one for one in named if (one.language, one.family) == ("ja", family)][-1]


def test_slices_draw_every_sign_of_the_face_once() -> None:
    drawn = [sign for one in web_faces.slices_of(SERIF, "ja", "serif") for sign in one.signs]

    assert len(drawn) == len(set(drawn))
    assert set(drawn) == {sign for sign in face_of(SERIF).coverage if sign >= web_faces.FIRST_SIGN}


def test_common_signs_stand_together_and_rare_ones_by_their_place() -> None:
    assert {in_use(sign, "serif").name.partition("-")[0] for sign in "水の暦"} == {"common", "30"}
    assert in_use("鬱", "serif").name == "9b"
    assert in_use("水", "sans").path != in_use("水", "serif").path


def test_slice_is_a_font_of_its_signs() -> None:
    found = in_use("暦", "serif")

    font = TTFont(BytesIO(web_faces.font_file(found.address)))

    assert set(font.getBestCmap()) == set(found.signs)
    assert font["hmtx"][font.getBestCmap()[ord("暦")]][0] == font["head"].unitsPerEm


def test_sheet_names_each_slice_with_its_signs() -> None:
    lines = web_faces.sheet().splitlines()

    assert len(lines) == len(web_faces.slices())
    assert (
        '@font-face{font-family:"Ledger Serif ja";src:url("ja/serif/30.otf");'
        "unicode-range:U+3000-30FF;font-display:swap}"
    ) in lines
