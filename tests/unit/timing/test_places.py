from __future__ import annotations

from fractions import Fraction
from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.timing import Place, PlaceError, place_at, read_place, read_tempo_map, seconds_of, timeline
from catalogue.timing.tempo_maps import TempoMap
from tests.unit.timing.maps import maps

TWO_MOVEMENTS = """\
1-8   4/4  q=60
9     free 30
repeat 5-8 last 8
cut 2
movement "Slack"
upbeat 1/4 q=60
1-20  6/8  q.=60
"""


def moment(place: str, text: str = TWO_MOVEMENTS) -> Fraction:
    tempo_map = read_tempo_map(text)
    return seconds_of(place, tempo_map, timeline(tempo_map))


@pytest.mark.parametrize(
    ("place", "seconds"),
    [
        ("1", 0),
        ("1.3", 2),
        ("1.3.5", 2.5),
        ("1.3.25", 2.25),
        ("3", 4),
        (" 5.1 ", 12),
        ("5@1", 12),
        ("5.2@2", 29),
        ("9", 40),
        ("9.1", 40),
        ("1:9", 40),
        ("2:0", 70),
        ("2:1.1", 71),
        ("2:7.2", 84),
        ("0:45", 45),
        ("00:45", 45),
        ("1:09", 69),
        ("0:01:09.5", 69.5),
        ("1′09″", 69),
        ("1'", 60),
        ("45 s", 45),
        ("45,5s", 45.5),
        ("1:11", 71),
    ],
)
def test_a_place_is_a_bar_and_beat_or_a_time(place: str, seconds: float) -> None:
    assert moment(place) == Fraction(seconds)


def test_minutes_and_seconds_are_a_time_where_there_is_one_movement() -> None:
    assert moment("1:30", "1-99 4/4 q=60") == 90
    assert moment("1:30.1", "1-99 4/4 q=60") == 116


@pytest.mark.parametrize(
    ("place", "reason"),
    [
        ("2:17", "“2:17” may be bar 17 of movement 2, or a time; write 2:17.1 or 0:02:17."),
        ("", "“” is no place; write 37, 37.3, 37.3.5, 7.1@2, 2:7.1 or a time such as 12:30."),
        ("letter B", "“letter B” is no place; write 37, 37.3, 37.3.5, 7.1@2, 2:7.1 or a time such as 12:30."),
        ("37", "Bar 37 is not in the map, or is cut."),
        ("2", "Bar 2 is not in the map, or is cut."),
        ("1.5", "Bar 1 has 4 beats, so there is no beat 5."),
        ("2:0.2", "Bar 0 has one beat, so there is no beat 2."),
        ("1.0", "The beat is counted from 1."),
        ("0:1.1", "The movement is counted from 1."),
        ("1@0", "The time is counted from 1."),
        ("8@2", "Bar 8 is played once, so there is no “@2”."),
        ("5@3", "Bar 5 is played 2 times, so there is no “@3”."),
        ("9.2", "Bar 9 is free and has no beats."),
        ("3:1.1", "There is no movement 3; there are 2."),
        ("12:30", "The map ends before 12:30."),
    ],
)
def test_what_is_no_place_in_the_map_is_refused(place: str, reason: str) -> None:
    with pytest.raises(PlaceError) as caught:
        moment(place)

    assert (caught.value.reason, caught.value.start, caught.value.end) == (reason, 0, len(place))


def test_bar_zero_is_not_taken_for_bar_one() -> None:
    assert read_place("2:0") == Place(0, movement=2)
    with pytest.raises(PlaceError, match="Bar 0 is not in the map"):
        moment("0", "1-4 4/4 q=60")


def test_a_time_falls_on_a_bar_and_beat() -> None:
    line = timeline(read_tempo_map(TWO_MOVEMENTS))
    times = [Fraction(0), Fraction(5, 2), Fraction(29), Fraction(50), Fraction(71), line.end, line.end + 1]
    places = [place_at(seconds, line) for seconds in times]

    assert [place.written(several_movements=True) if place else None for place in places] == [
        "1:1.1", "1:1.3.5", "1:5.2@2", "1:9.1", "2:1.1", "2:20.2.999", None,
    ]  # fmt: skip


@given(maps(), st.data())
def test_a_time_and_its_place_are_one(tempo_map: TempoMap, data: st.DataObject) -> None:
    line = timeline(tempo_map)
    measured = [played for played in line.bars if played.bar.metre]
    if not measured:
        return
    played = data.draw(st.sampled_from(measured))
    place = Place(
        played.bar.number, data.draw(st.integers(1, played.bar.beats)), Fraction(1, 4), played.movement, played.time
    )
    seconds = seconds_of(place.written(several_movements=True), tempo_map, line)
    found = place_at(seconds, line)

    assert found is not None
    assert (found.bar, found.beat, found.movement, found.time) == (place.bar, place.beat, place.movement, place.time)
    assert isclose(found.part, place.part, abs_tol=1e-6)
