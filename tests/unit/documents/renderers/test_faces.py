"""Typefaces: the carried ones are whole, packages add the scripts of East Asia, without them Latin letters stand in."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from catalogue.documents.contents.titles import full_title, short_title
from catalogue.documents.model import Text
from catalogue.documents.renderers.pdf import faces, setting
from catalogue.documents.renderers.pdf.setting import set_line
from catalogue.documents.sheets.geometry import ENTRY_TITLE
from catalogue.facts import TitleFacts

ALMANAC = TitleFacts("Mizu no koyomi", original="水の暦", original_language="ja", translated="Water Almanac")


@pytest.fixture
def no_packages(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A machine without any package of Chinese, Japanese or Korean faces."""
    remembered = (faces.packaged_faces, faces.chain, faces.face_for, faces.missing, setting.set_within)
    monkeypatch.setattr(faces, "PACKAGES", {})
    for one in remembered:
        one.cache_clear()
    yield
    for one in remembered:
        one.cache_clear()


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


@pytest.mark.usefixtures("no_packages")
def test_without_a_face_for_its_script_a_title_is_told_in_latin_letters() -> None:
    assert read(full_title(ALMANAC)) == "Mizu no koyomi (Water Almanac)"
    assert read(short_title(ALMANAC)) == "Mizu no koyomi"


def test_a_title_in_a_carried_script_is_told_in_it() -> None:
    assert read(short_title(TitleFacts("Dva berega", original="Два берега", translated="Two Banks"))) == "Два берега"


def test_a_japanese_title_is_told_in_its_own_signs() -> None:
    assert read(full_title(ALMANAC)) == "水の暦 Mizu no koyomi (Water Almanac)"


def test_japanese_is_set_in_the_face_of_its_family() -> None:
    names = [faces.face_for("暦", family, "roman", "ja").name for family in ("serif", "sans")]

    assert names == ["NotoSerifJP-Regular", "NotoSansJP-Regular"]


def test_a_title_whose_script_no_face_has_is_told_in_latin_letters() -> None:
    nko = TitleFacts("Kuma", original="\N{NKO LETTER KA}\N{NKO LETTER MA}", original_language="nqo", translated="Word")

    assert read(full_title(nko)) == "Kuma (Word)"
    assert read(short_title(nko)) == "Kuma"
