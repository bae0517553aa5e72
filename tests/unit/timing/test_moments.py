from __future__ import annotations

from datetime import UTC, date, datetime, time

import pytest

from catalogue.timing import MomentError, Occurs, clock_at, moment_at, occurs, read_clock_time, zone_named

SPRING, AUTUMN = date(2027, 3, 28), date(2027, 10, 31)  # European Union, Directive 2000/84/EC: last Sundays, 01:00 UTC


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("19:30", time(19, 30)),
        ("19:30:00", time(19, 30)),
        ("19.30 Uhr", time(19, 30)),
        ("20 Uhr", time(20, 0)),
        ("19h30", time(19, 30)),
        ("20 h", time(20, 0)),
        ("7.30 pm", time(19, 30)),
        ("7 p.m.", time(19, 0)),
        ("12 am", time(0, 0)),
        ("12:15pm", time(12, 15)),
        ("0:05", time(0, 5)),
    ],
)
def test_a_time_of_day_reads_as_people_write_it(text: str, expected: time) -> None:
    assert read_clock_time(text) == expected


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("19", "“19” is no time of day; write 19:30."),
        ("19:30:45", "“19:30:45” is no time of day; write 19:30."),
        ("evening", "“evening” is no time of day; write 19:30."),
        ("24:00", "A day goes from 00:00 to 23:59."),
        ("19:60", "A day goes from 00:00 to 23:59."),
        ("13 pm", "With am or pm the hour goes from 1 to 12."),
    ],
)
def test_what_is_no_time_of_day_is_refused(text: str, reason: str) -> None:
    with pytest.raises(MomentError) as caught:
        read_clock_time(text)

    assert caught.value.reason == reason


def test_a_moment_follows_the_clock_of_its_place() -> None:
    assert moment_at(date(2027, 7, 1), time(19, 30), "Europe/Berlin") == datetime(2027, 7, 1, 17, 30, tzinfo=UTC)
    assert moment_at(date(2027, 1, 1), time(19, 30), "Europe/Berlin") == datetime(2027, 1, 1, 18, 30, tzinfo=UTC)
    assert clock_at(datetime(2022, 5, 1, 23, 0, tzinfo=UTC), "Europe/Vienna").date() == date(2022, 5, 2)


def test_a_time_that_the_clocks_skip_is_refused_with_both_neighbours() -> None:
    assert occurs(SPRING, time(2, 30), "Europe/Berlin") is Occurs.NEVER

    with pytest.raises(MomentError) as caught:
        moment_at(SPRING, time(2, 30), "Europe/Berlin")

    assert caught.value.reason == (
        "On 28 March 2027 the clocks in Europe/Berlin never show 02:30, as they go forward by 60 minutes; "
        "write 01:30 or 03:30."
    )


def test_a_time_that_comes_twice_is_asked_about() -> None:
    assert occurs(AUTUMN, time(2, 30), "Europe/Berlin") is Occurs.TWICE

    with pytest.raises(MomentError) as caught:
        moment_at(AUTUMN, time(2, 30), "Europe/Berlin")

    assert caught.value.reason == (
        "On 31 October 2027 the clocks in Europe/Berlin show 02:30 twice, as they go back; "
        "say the first or the second time."
    )
    assert moment_at(AUTUMN, time(2, 30), "Europe/Berlin", second=False) == datetime(2027, 10, 31, 0, 30, tzinfo=UTC)
    assert moment_at(AUTUMN, time(2, 30), "Europe/Berlin", second=True) == datetime(2027, 10, 31, 1, 30, tzinfo=UTC)


def test_the_edges_of_a_change_of_clocks_come_once() -> None:
    at_edges = [
        occurs(day, clock, "Europe/Berlin")
        for day, clock in ((SPRING, time(3)), (AUTUMN, time(3)), (AUTUMN, time(1, 59)))
    ]

    assert at_edges == [Occurs.ONCE, Occurs.ONCE, Occurs.ONCE]
    assert moment_at(SPRING, time(3), "Europe/Berlin", second=True) == datetime(2027, 3, 28, 1, tzinfo=UTC)


@pytest.mark.parametrize("name", ["", "Europe", "../etc/passwd", "/etc/passwd", "Nowhere/Else", "Europe/\0"])
def test_what_is_no_zone_is_refused(name: str) -> None:
    with pytest.raises(MomentError) as caught:
        zone_named(name)

    assert caught.value.reason == f"“{name}” is no time zone; write one such as Europe/London."
