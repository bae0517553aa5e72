from __future__ import annotations

from datetime import UTC, date, datetime

import pytest

from catalogue.gathering.deadlines import local_time
from catalogue.rules.calls.reading import read_call


@pytest.mark.parametrize(
    ("said", "told", "moment"),
    [
        ("20 March 2027, midnight, UK time", "2027-03-20 24:00 Europe/London", datetime(2027, 3, 21, tzinfo=UTC)),
        ("20 March 2027, 17:30, UK time", "2027-03-20 17:30 Europe/London", datetime(2027, 3, 20, 17, 30, tzinfo=UTC)),
        (
            "14 March 2027, midnight, Eastern Time",
            "2027-03-14 24:00 America/New_York",
            datetime(2027, 3, 15, 4, tzinfo=UTC),
        ),
    ],
)
def test_a_deadline_is_told_by_the_clock_of_the_organiser(said: str, told: str, moment: datetime) -> None:
    terms = read_call(f"Deadline: {said}.").call

    assert (local_time(terms), terms.deadline) == (told, moment)


def test_a_deadline_without_an_hour_has_its_day_alone() -> None:
    terms = read_call("Deadline: 20 March 2027.").call

    assert (local_time(terms), terms.closes) == ("", date(2027, 3, 20))
