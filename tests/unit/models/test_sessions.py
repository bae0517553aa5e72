"""Sessions of a performance: hours by the clocks there."""

from __future__ import annotations

from datetime import time

import pytest
from django.core.exceptions import ValidationError

from catalogue.models import Session
from catalogue.timing import read_date
from tests.makers import make_performance

pytestmark = pytest.mark.django_db


def session(zone: str, day: str, at: time) -> Session:
    performance = make_performance(date="2027-10-31", zone="Europe/Berlin")
    made = Session(composer=performance.composer, performance=performance, time=at, zone=zone)
    made.date = read_date(day)
    return made


@pytest.mark.parametrize(
    ("day", "at", "asked"),
    [
        (
            "2027-10-31",
            time(2, 30),
            "On 31 October 2027 the clocks in Europe/Berlin show 02:30 twice, as they go back; say the first or "
            "the second time. Write Etc/GMT-2 as the clocks for the first, Etc/GMT-1 for the second.",
        ),
        (
            "2027-03-28",
            time(2, 30),
            "On 28 March 2027 the clocks in Europe/Berlin never show 02:30, as they go forward by 60 minutes; "
            "write 01:30 or 03:30.",
        ),
    ],
)
def test_hour_that_comes_twice_or_never_is_asked_about(day: str, at: time, asked: str) -> None:
    with pytest.raises(ValidationError) as refused:
        session("", day, at).full_clean()

    assert refused.value.message_dict["time"] == [asked]


@pytest.mark.parametrize("zone", ["Etc/GMT-2", "Etc/GMT-1"])
def test_clocks_without_summer_time_say_which_hour_is_meant(zone: str) -> None:
    session(zone, "2027-10-31", time(2, 30)).full_clean()
