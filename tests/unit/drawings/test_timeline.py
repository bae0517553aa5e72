"""The timeline of a work: what stands in it, and where."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from catalogue.drawings.timeline import FIGURE, LETTER, NARROW, WIDE, Course, Words, course_of, timeline, to_svg
from catalogue.timing import reckon

TEXT = """
1-15   4/4  q=60
16-30  4/4  q=60 > q=120
31     free 30
32-46  4/4  e=240
"""


def course(text: str = TEXT, *cues: tuple[int, str]) -> Course:
    reckoned = reckon(text)
    assert reckoned is not None
    return course_of(reckoned, [(Fraction(seconds), number) for seconds, number in cues])


def test_a_steady_tempo_is_one_stroke_and_a_passage_by_the_clock_breaks_the_curve() -> None:
    found = course()
    first, second = found.tempos

    assert first[:2] == ((0.0, 60.0), (60.0, 60.0))
    assert second == ((found.free[0][1], 120.0), (found.seconds, 120.0))
    assert round(found.free[0][1] - found.free[0][0], 6) == 30


def test_tempos_are_told_in_quarter_notes_whatever_the_map_names() -> None:
    assert course("1-4 6/8 q.=60").tempos == (((0.0, 90.0), (8.0, 90.0)),)


def test_the_curve_of_a_change_rises_from_bar_to_bar() -> None:
    heights = [y for _x, y in timeline(course()).curve[0]]

    assert heights == sorted(heights, reverse=True)
    assert (heights[0], heights[-1]) == (60.0, 20.0)


def test_passages_are_the_sections_of_a_work_in_one_movement() -> None:
    assert [name for _x, name in course().sections] == ["bar 1", "bar 16", "bar 31", "bar 32"]


def test_movements_are_the_sections_of_a_work_in_several() -> None:
    found = course('movement "Lamp"\n1-4 4/4 q=60\nmovement\n1-4 4/4 q=60\n')

    assert found.sections == ((0.0, "Lamp"), (16.0, "2"))


def test_a_repeated_passage_begins_once() -> None:
    assert course("1-4 4/4 q=60\nrepeat 1-4 x3").sections == ((0.0, "bar 1"),)


def test_the_places_are_true_to_scale() -> None:
    picture = timeline(course("1-25 4/4 q=60", (25, "1"), (50, "2")))

    assert [(cue.x, cue.words) for cue in picture.cues] == [(25.0, "1"), (50.0, "2")]
    assert [(minute.x, minute.words) for minute in picture.minutes][:3] == [(0.0, "0′"), (10.0, "10″"), (20.0, "20″")]


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_numbers_of_cues_never_touch_and_in_a_crowd_their_marks_stay(width: int) -> None:
    picture = timeline(course("1-60 4/4 q=60", *((second, str(second)) for second in range(240))), width=width)
    by_row: dict[int, list[Words]] = {}
    for cue in picture.cues:
        if cue.words:
            by_row.setdefault(cue.row, []).append(cue)

    assert len(picture.cues) == 240
    assert sorted(by_row) == [0, 1, 2]
    for row in by_row.values():
        for one, other in pairwise(row):
            gap = (other.x - one.x) * width / 100
            assert gap >= (len(one.words) + len(other.words)) * FIGURE / 2


@pytest.mark.parametrize("width", [WIDE, NARROW])
def test_a_name_ends_before_the_next_section(width: int) -> None:
    text = "".join(f'movement "A long name for a short movement"\n1-{bars} 4/4 q=60\n' for bars in (2, 9, 1, 30))
    sections = timeline(course(text), width=width).sections

    for one, other in pairwise(sections):
        assert len(one.words) * LETTER <= (other.x - one.x) * width / 100


def test_the_end_of_the_clock_stays_inside() -> None:
    last = timeline(course("1-15 4/4 q=60")).minutes[-1]

    assert (last.x, last.words, last.before) == (100.0, "1′", True)


def test_the_picture_is_well_formed_says_itself_and_wears_nothing_from_the_record_as_markup() -> None:
    text = 'movement "<b>&"\n1-40 4/4 q=60\nmovement\n1 free 9'
    svg = to_svg(timeline(course(text, (3, "<1>"))), title="Timeline & cues", look="roomy")
    root = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing

    assert root.attrib["class"] == "roomy"
    assert root.attrib["role"] == "img"
    assert root[0].text == "Timeline & cues"
    assert [one.text for one in root if one.attrib.get("class") in ("name", "cue")] == ["<b>&", "2", "<1>"]
    assert len([one for one in root if one.attrib.get("class") == "free"]) == 2


def test_a_course_by_the_clock_alone_has_no_curve() -> None:
    picture = timeline(course("1 free 60"))

    assert (picture.curve, picture.figures, picture.free) == ((), (), ((0.0, 100.0),))
