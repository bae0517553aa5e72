"""The line of the coming days: where marks and words stand."""

from __future__ import annotations

import re
from datetime import date, timedelta
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from catalogue.drawings.ninety_days import (
    DISC,
    NARROW,
    WIDE,
    Concert,
    Label,
    Picture,
    along,
    clipped,
    ninety_days,
    rows_of,
    to_svg,
)

TODAY = date(2026, 3, 9)
MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December"]  # fmt: skip


def concert(day: date, title: str = "Tides", **more: object) -> Concert:
    return Concert(day, title, f"{day.day} {MONTHS[day.month - 1][:3]}", "Lyon", **more)  # type: ignore[arg-type]


def in_days(*days: int) -> list[Concert]:
    return [concert(TODAY + timedelta(days=number)) for number in days]


def labels(picture: Picture) -> list[Label | None]:
    return [label for *_, label in picture.concerts]


@pytest.mark.parametrize(("days", "place"), [(0, 1.0), (19, 21.69), (45, 50.0), (90, 99.0)])
def test_days_stand_evenly_along_the_line(days: int, place: float) -> None:
    assert along(TODAY + timedelta(days=days), TODAY) == place


def test_what_lies_outside_is_left_out_and_what_is_late_hangs_at_today() -> None:
    due = [TODAY - timedelta(days=3), TODAY + timedelta(days=9), TODAY + timedelta(days=91)]

    picture = ninety_days(TODAY, in_days(-1, 0, 90, 91), due)

    assert [x for x, *_ in picture.concerts] == [1.0, 99.0]
    assert picture.due == ((1.0, 0), (10.8, 0))


def test_marks_that_would_touch_stand_in_rows() -> None:
    assert rows_of([10, 10, 10.5, 14, 14.9], 1.0) == [0, 1, 2, 0, 1]


def test_concerts_of_one_day_stand_upon_each_other() -> None:
    one, three = ninety_days(TODAY, in_days(30), ()), ninety_days(TODAY, in_days(30, 30, 30), ())

    assert [row for _x, row, *_ in three.concerts] == [0, 1, 2]
    assert three.stacked == 32
    assert three.line > one.line == 60


def test_labels_rise_where_they_would_meet() -> None:
    picture = ninety_days(TODAY, [*in_days(20), concert(TODAY + timedelta(days=23), "A Longer Title")], ())

    assert labels(picture) == [Label(0), Label(1)]
    assert picture.line == 94


def test_label_near_the_end_stands_before_its_mark() -> None:
    assert labels(ninety_days(TODAY, in_days(89), ())) == [Label(0, before=True)]


def test_crowd_has_labels_only_where_there_is_room() -> None:
    picture = ninety_days(TODAY, in_days(*range(20, 30)), ())

    assert [label and label.level for label in labels(picture)] == [0, 1, 2, 3, None, None, None, None, 0, 1]


def test_narrow_picture_tells_dates_alone_where_they_have_room() -> None:
    picture = ninety_days(TODAY, in_days(2, 20, 25, 45, 90), (), width=NARROW)

    assert labels(picture) == [None, Label(0), None, Label(0), None]
    assert (picture.line, picture.is_wide) == (43, False)
    assert "Tides" not in svg(picture)
    assert svg(picture).startswith('<svg class="tight" role="img"')


def test_no_two_labels_of_a_level_meet() -> None:
    picture = ninety_days(TODAY, in_days(*range(0, 90, 4)), ())

    for level in range(4):
        starts = sorted(x for x, _row, _one, label in picture.concerts if label == Label(level))
        assert all(later - earlier >= 5 * 7 / WIDE * 100 for earlier, later in pairwise(starts))


def test_months_begin_on_their_first_day_and_the_running_one_today() -> None:
    months = ninety_days(TODAY, (), ()).months

    assert ninety_days(TODAY, (), (), width=NARROW).months == months
    assert months == (
        (1.0, TODAY), (26.04, date(2026, 4, 1)), (58.71, date(2026, 5, 1)), (92.47, date(2026, 6, 1)),
    )  # fmt: skip


def test_running_month_is_not_named_where_the_next_begins_at_once() -> None:
    assert ninety_days(date(2026, 3, 30), (), ()).months[0] == (3.18, date(2026, 4, 1))


@pytest.mark.parametrize("first", [date(2026, 1, 31), date(2026, 12, 31), date(2028, 2, 29)])
def test_months_follow_each_other_from_any_day(first: date) -> None:
    days = [day for _x, day in ninety_days(first, (), ()).months if day != first]

    assert [(day.day, day > first) for day in days] == [(1, True)] * len(days)
    assert len({(day.year, day.month) for day in days}) == len(days) >= 3


def test_long_title_is_clipped() -> None:
    assert clipped("The Clockmender’s Afternoon with a very long title") == "The Clockmender’s Afternoon with a…"


def svg(picture: Picture, title: str = "One performance.") -> str:
    return to_svg(picture, title=title, today_word="today", months=MONTHS)


def test_svg_says_in_words_what_it_shows_and_escapes_them() -> None:
    shown = concert(TODAY + timedelta(days=30), "<b>Αργό & νερό</b>", language="el")

    drawn = svg(ninety_days(TODAY, [shown], [TODAY]), title="One <performance>.")

    tree = ElementTree.fromstring(drawn)  # noqa: S314 - drawn here
    assert tree.findtext("title") == "One <performance>."
    names = [(one.text, one.get("lang")) for one in tree.iter("text") if one.get("class") == "name"]
    assert names == [("<b>Αργό & νερό</b>", "el")]
    assert tree.get("viewBox") is None


def test_svg_draws_what_is_certain_filled_and_the_rest_hollow() -> None:
    certain, planned = concert(TODAY + timedelta(days=10)), concert(TODAY + timedelta(days=40), certain=False)

    circles = re.findall(
        r'<circle class="(\w+)" cx="[\d.]+%" cy="([\d.]+)" r="(\d)"/>',
        svg(ninety_days(TODAY, [certain, planned], [TODAY])),
    )

    assert circles == [("ink", "47", "7"), ("hollow", "47", "7"), ("hollow", "72", "4")]
    assert DISC == 7


def test_picture_grows_with_what_hangs_below() -> None:
    few, many = ninety_days(TODAY, (), [TODAY] * 3), ninety_days(TODAY, (), [TODAY] * 6)

    assert (few.foot, many.foot) == (122, 161)
