from __future__ import annotations

import json

import pytest
from defusedxml.ElementTree import fromstring

from catalogue.drawings.sign_forms import FORMS
from catalogue.drawings.signs import FOLDER, KEY_WIDE, SPACE, glyphs, key_stave, sign_drawing, signs, to_svg
from catalogue.drawings.sketch import Outline, Stroke
from catalogue.drawings.sketch import to_svg as sketch_svg

# Cents of the signs for quarter tones in SMuFL's ranges “Standard accidentals” and “Stein-Zimmermann accidentals”
# (names and code points: Standard Music Font Layout, W3C Music Notation Community Group).
QUARTER_TONES = {
    "accidentalQuarterToneSharpStein": ("E282", 50),
    "accidentalThreeQuarterTonesSharpStein": ("E283", 150),
    "accidentalQuarterToneFlatStein": ("E280", -50),
    "accidentalThreeQuarterTonesFlatZimmermann": ("E281", -150),
    "accidentalSharp": ("E262", 100),
    "accidentalFlat": ("E260", -100),
    "accidentalNatural": ("E261", 0),
}


@pytest.mark.parametrize("name", QUARTER_TONES)
def test_sign_has_its_code_point_and_cents(name: str) -> None:
    assert (signs()[name].code, signs()[name].cents) == QUARTER_TONES[name]


def test_every_sign_has_an_outline_within_reach_and_a_name_of_its_own() -> None:
    codes = [sign.code for sign in signs().values()]

    assert len(codes) == len(set(codes)) == 57
    assert set(codes) <= set(glyphs())


def test_outlines_are_four_spaces_to_the_em() -> None:
    assert json.loads((FOLDER / "sign_outlines.json").read_text(encoding="utf-8"))["unitsPerEm"] == 4 * SPACE


@pytest.mark.parametrize("name", signs())
def test_drawing_is_well_formed_and_says_what_it_is(name: str) -> None:
    drawing = sign_drawing(name)
    assert drawing is not None

    found = fromstring(to_svg(drawing, scale=10, title='a "sign" <for> R & D'))

    left, top, wide, high = map(float, found.get("viewBox").split())
    assert (found.get("aria-label"), found.get("role")) == ('a "sign" <for> R & D', "img")
    assert (left, top, wide, high) == (0, -720, drawing.width, 1440)
    assert float(found.get("width")) == pytest.approx(wide / SPACE * 10, abs=0.01)


def test_accidental_stands_before_a_note_and_a_notehead_alone() -> None:
    sharp, note = sign_drawing("accidentalSharp"), sign_drawing("noteheadBlack")

    assert sharp is not None
    assert note is not None
    assert (len(sharp.placed), len(note.placed)) == (2, 1)


def test_outline_is_turned_over_and_moved() -> None:
    drawing = sign_drawing("noteheadBlack")
    assert drawing is not None
    (x, glyph), *_rest = drawing.placed
    _letter, first_x, first_y = glyph.steps[0]

    assert f'd="M{first_x + x:g} {-first_y:g}' in to_svg(drawing, scale=1, title="note")


def test_unknown_sign_is_not_drawn() -> None:
    assert sign_drawing("accidentalOfMyOwn") is None


def test_key_has_five_lines_a_clef_the_sign_and_the_note_with_its_stem() -> None:
    sketch = key_stave("accidentalSharp").sketch(200)
    outlines = [one for one in sketch.parts if isinstance(one, Outline)]
    strokes = [one for one in sketch.parts if isinstance(one, Stroke)]

    assert (len(outlines), len(strokes)) == (3, 6)
    assert [stroke.points[1][0] - stroke.points[0][0] for stroke in strokes[:5]] == [200] * 5
    assert {stroke.points[0][1] - strokes[0].points[0][1] for stroke in strokes[:5]} == {0, 10, 20, 30, 40}


def test_key_shows_a_notehead_itself_and_a_whole_note_without_a_stem() -> None:
    def parts(name: str) -> list[str]:
        return [type(one).__name__ for one in key_stave(name).sketch(KEY_WIDE).parts[5:]]

    assert parts("noteheadHalf") == ["Outline", "Outline", "Stroke"]
    assert parts("noteheadWhole") == ["Outline", "Outline"]
    assert key_stave("accidentalOfMyOwn") is None


@pytest.mark.parametrize("name", signs())
def test_key_keeps_within_its_picture(name: str) -> None:
    sketch = key_stave(name).sketch(KEY_WIDE)
    places = [place for one in sketch.parts if isinstance(one, Outline) for _letter, place in one.steps]

    assert all(0 <= x <= sketch.width for place in places for x in place[::2])
    assert all(0 <= y <= sketch.height for place in places for y in place[1::2])
    assert fromstring(sketch_svg(sketch, title=name)).find(".//{*}title").text == name


@pytest.mark.parametrize(
    ("name", "heads"), [("stringsUpBow", 1), ("tremolo3", 1), ("beamAccelRit1", 4), ("arrowBlackRight", 2)]
)
def test_key_shows_a_mark_with_as_many_notes_as_it_is_about(name: str, heads: int) -> None:
    parts = key_stave(name).sketch(KEY_WIDE).parts[5:]
    kinds = [type(one).__name__ for one in parts]

    assert (kinds.count("Outline"), kinds.count("Stroke")) == (2 + heads, heads)
    assert len(sign_drawing(name).placed) == 1


@pytest.mark.parametrize("code", FORMS)
def test_form_is_closed_and_as_wide_as_it_says(code: str) -> None:
    steps, wide = FORMS[code]
    across = [value for _letter, *places in steps for value in places[::2]]

    assert steps[0][0] == "M"
    assert steps[-1] == ("Z",)
    assert max(across) - min(across) == pytest.approx(wide, abs=50)
