"""Strips and timelines as sketches: a mark for a mark, words within the picture."""

from __future__ import annotations

from dataclasses import replace

from catalogue.drawings.player_strip import Point, Span, Strip
from catalogue.drawings.redrawn import CORNERS, strip_sketch, timeline_sketch
from catalogue.drawings.sketch import Circle, Stroke, Words
from catalogue.drawings.timeline import Course, timeline

STRIP = Strip(
    20, 14, (Span(0, 20, 7.5),), discs=(Point(2.5, 11.5),), rings=(Point(7.5, 11.5),), triangles=(Point(15, 11.5),)
)
COURSE = Course(60, ((0, "Ebb"),), (((0, 60), (60, 90)),), ((0, 60), (60, 90)), (), ((12, "1"), (60, "2")))


def test_every_mark_of_a_strip_is_drawn_at_its_place() -> None:
    sketch = strip_sketch(STRIP, 2)
    line, dot, ring, media = sketch.parts

    assert (sketch.width, sketch.height) == (40, 28)
    assert line == Stroke(((0, 15), (40, 15)), 1.5)
    assert isinstance(dot, Stroke)
    assert (dot.filled, len(dot.points)) == (True, CORNERS)
    assert ring == Circle(15, 23, 2.9, 1.8)
    assert media == Stroke(((30, 18.6), (37.6, 23), (30, 27.4)), 0, closed=True, filled=True)


def test_a_timeline_says_its_sections_cues_and_tempos_and_keeps_the_last_within() -> None:
    sketch = timeline_sketch(timeline(COURSE, width=400))
    said = {part.text: part for part in sketch.parts if isinstance(part, Words)}

    assert {"Ebb", "1", "2", "60", "90"} <= set(said)
    assert (said["90"].x, said["90"].anchor) == (400, "end")
    assert said["60"].anchor == "start"


def test_where_the_clock_leads_the_line_is_two_thin_strokes() -> None:
    free = timeline_sketch(timeline(replace(COURSE, free=((20, 40),)), width=400))
    whole = timeline_sketch(timeline(COURSE, width=400))

    thin = [part for part in free.parts if isinstance(part, Stroke) and part.thick == 0.6]
    assert [round(one.points[0][0]) for one in thin] == [133, 133]
    assert [part for part in whole.parts if isinstance(part, Stroke) and part.thick == 0.6] == []
