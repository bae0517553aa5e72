from __future__ import annotations

from datetime import date

from catalogue.drawings.sketch import Circle, Stroke, Words, to_svg
from catalogue.drawings.work_years import NARROW, WIDE, Lane, Look, Mark, WorkYears, stacked

COMPOSED = Lane("Composed", (Mark(date(2012, 3, 1), date(2014, 12, 31), Look.BAR),))
FIRST = Mark(date(2015, 3, 3), date(2015, 3, 3), Look.PREMIERE)
LATER = Mark(date(2021, 1, 1), date(2021, 12, 31))
COMING = Mark(date(2027, 5, 1), date(2027, 5, 1), Look.RING)
LIFE = WorkYears((COMPOSED, Lane("Performed", (FIRST, LATER, COMING)), Lane("Recorded", ())))


def words(picture: WorkYears, width: float = WIDE) -> list[str]:
    return [part.text for part in picture.sketch(width).parts if isinstance(part, Words)]


def test_lanes_without_marks_are_left_out_and_years_have_room() -> None:
    assert words(LIFE) == [*map(str, range(2012, 2028)), "Composed", "Performed"]
    assert words(LIFE, NARROW) == ["2015", "2020", "2025", "Composed", "Performed"]


def test_one_year_is_an_axis_too() -> None:
    assert words(WorkYears((Lane("Performed", (FIRST,)),))) == ["2015", "Performed"]


def test_premiere_is_a_disc_in_a_ring_and_what_is_to_come_a_ring() -> None:
    circles = [part for part in LIFE.sketch().parts if isinstance(part, Circle)]

    assert [(one.radius, one.thick) for one in circles] == [(7.0, 1.2), (2.0, 4.0), (2.0, 4.0), (4.0, 1.4)]
    assert [one.x for one in circles] == sorted(one.x for one in circles)


def test_everything_stands_within_the_picture() -> None:
    for width in (WIDE, NARROW):
        sketch = LIFE.sketch(width)
        places = [
            *((one.x, one.y) for one in sketch.parts if isinstance(one, Circle | Words)),
            *(point for one in sketch.parts if isinstance(one, Stroke) for point in one.points),
        ]
        assert all(0 <= x <= width and 0 <= y <= sketch.height for x, y in places)


def test_marks_of_one_time_stand_upon_each_other_as_far_as_there_is_room() -> None:
    assert stacked([5.0] * 6) == [0, 1, 2, 3, 3, 3]


def test_picture_says_in_words_what_it_shows() -> None:
    assert "<title>Composed &amp; played</title>" in to_svg(LIFE.sketch(), title="Composed & played")
