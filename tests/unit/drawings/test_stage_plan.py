"""Stages and rings of loudspeakers: what stands where, for a page and for paper."""

from __future__ import annotations

from xml.etree import ElementTree

import pytest

from catalogue.drawings.loudspeakers import Loudspeaker, Ring
from catalogue.drawings.sketch import LETTER_WIDE, Circle, Stroke, Words, to_svg
from catalogue.drawings.stage_plan import MARKS, SIDE, TOP, Stage, Thing, in_rows


def words(drawing: Stage | Ring, width: float = 400) -> list[str]:
    return [part.text for part in drawing.sketch(width).parts if isinstance(part, Words)]


@pytest.mark.parametrize("mark", MARKS)
def test_every_mark_says_its_name(mark: str) -> None:
    assert any("lamp" in text for text in words(Stage(8, 6, (Thing("lamp", 0, 2, mark),))))


def test_a_player_stands_true_to_scale_with_number_and_channels() -> None:
    sketch = Stage(8, 6, (Thing("viola", 2, 1, number="3", channels="7"),)).sketch(8 * 50 + 2 * SIDE)

    (circle,) = [part for part in sketch.parts if isinstance(part, Circle)]
    assert (circle.x, circle.y) == (SIDE + 6 * 50, TOP + 5 * 50)
    assert {"3", "7", "viola"} <= {part.text for part in sketch.parts if isinstance(part, Words)}


def test_a_section_is_a_box_with_how_many() -> None:
    assert "12 violins" in words(Stage(18, 12, (Thing("violins", 0, 2, count=12),)), 900)


def test_lines_of_sight_lead_to_the_outermost_players_the_leftmost_first() -> None:
    things = (Thing("conductor", 0, 1, "conductor"), *(Thing(f"player {x}", x, 3) for x in (-3, 0, 3)))
    dashed = [part for part in Stage(8, 6, things).sketch(400).parts if isinstance(part, Stroke) and part.dashed]

    assert [part.points[1][0] < part.points[0][0] for part in dashed] == [True, False]


@pytest.mark.parametrize("number", [1, 4, 9, 10, 40])
def test_players_without_a_place_stand_on_the_stage_apart_from_one_another(number: int) -> None:
    placed = in_rows([[Thing(str(one), 0, 0) for one in range(number)]], depth=9, width=12)

    assert len({(one.x, one.y) for one in placed}) == number
    assert all(-6 <= one.x <= 6 and 0 < one.y < 9 for one in placed)


def test_loudspeakers_stand_at_their_angles_and_the_left_is_left() -> None:
    ring = Ring((Loudspeaker("left", -90, angle="−90°"), Loudspeaker("right", 90), Loudspeaker("top", 0, 90)))
    sketch = ring.sketch(400)
    places = {part.text: part.x for part in sketch.parts if isinstance(part, Words)}

    assert places["left"] < 200 < places["right"]
    assert places["top"] == pytest.approx(200)
    assert "−90°" in places


def test_the_svg_is_well_formed_and_says_what_it_shows() -> None:
    svg = to_svg(Stage(8, 6, (Thing("horn <2>", 0, 2),)).sketch(360), title="Stage & players")

    tree = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing
    assert tree.findtext("title") == "Stage & players"
    assert "horn <2>" in [one.text for one in tree.iter("text")]


@pytest.mark.parametrize("width", [150, 190, 240, 400])
def test_the_names_of_a_ring_end_within_the_picture(width: float) -> None:
    names = ("front left", "front right", "rear left", "rear right")
    ring = Ring(tuple(Loudspeaker(name, angle) for name, angle in zip(names, (-45, 45, -135, 135), strict=True)))
    sketch = ring.sketch(width)
    told = [part for part in sketch.parts if isinstance(part, Words) and part.strong]

    assert [part.text for part in told] == list(names) or width < 200
    for part in told:
        wide = len(part.text) * part.size * LETTER_WIDE
        assert part.x - (wide if part.anchor == "end" else 0) >= 0
        assert part.x + (wide if part.anchor == "start" else 0) <= width


def test_a_name_is_told_whole_where_nothing_stands_beside_it() -> None:
    alone = Stage(12, 9, (Thing("contrabass clarinet in B-flat", 0, 4),))
    beside = Stage(12, 9, tuple(Thing("contrabass clarinet in B-flat", x, 4) for x in (-0.7, 0.7)))

    assert "contrabass clarinet in B-flat" in words(alone)
    assert "contrabass clarinet in B-flat" not in words(beside)
