from __future__ import annotations

from datetime import date

import pytest

from catalogue.rules.statistics import (
    Listed,
    Played,
    Sum,
    WorkSum,
    by_country,
    by_ensemble,
    by_work,
    by_year,
    never_played,
    not_played_for,
    programmed_again,
)

TODAY = date(2026, 3, 9)
TIDES, WEIRS, LOCKS, SLUICE = (
    Listed(number, title) for number, title in enumerate(("Tides", "Weirs", "Locks", "Sluice"))
)
PLAYED = (
    Played(1, TIDES.id, date(2019, 5, 1), 600, "NO", ("Kestrel",)),
    Played(1, WEIRS.id, date(2019, 5, 1), None, "NO", ("Kestrel",)),
    Played(2, TIDES.id, date(2021, 5, 1), 629, "FR", ("Kestrel", "Ensemble Nord")),
    Played(2, TIDES.id, date(2021, 5, 1), 60, "FR", ("Kestrel", "Ensemble Nord")),
    Played(3, LOCKS.id, date(2026, 6, 1), 1200, "FR", ("Ensemble Nord",), is_to_come=True),
    Played(4, TIDES.id, None, 600, "", ()),
)


def test_minutes_are_added_up_by_year_with_the_years_between_and_those_to_come() -> None:
    years = by_year(PLAYED)

    assert [one.name for one in years] == [str(year) for year in range(2019, 2027)]
    assert years[0] == Sum("2019", 1, 2, 600, 1, 0, date(2019, 5, 1), date(2019, 5, 1), 1)
    assert [(one.minutes, one.coming_minutes) for one in years if one.seconds or one.coming_seconds] == [
        (10, 0),
        (11, 0),
        (0, 20),
    ]


def test_countries_stand_by_minutes_and_the_unknown_last() -> None:
    assert [(one.name, one.events, one.minutes) for one in by_country(PLAYED)] == [
        ("FR", 1, 11),
        ("NO", 1, 10),
        ("", 1, 10),
    ]


def test_ensembles_stand_by_performances_and_tell_in_how_many_years_they_played() -> None:
    assert [(one.name, one.events, one.works, one.years) for one in by_ensemble(PLAYED)] == [
        ("Kestrel", 2, 2, 2),
        ("Ensemble Nord", 1, 1, 1),
    ]


def test_work_played_twice_in_one_programme_was_not_played_again_by_that() -> None:
    sums = {one.work.title: one for one in by_work((TIDES, WEIRS, LOCKS, SLUICE), PLAYED)}

    assert sums["Tides"] == WorkSum(TIDES, 3, 0, 1889, date(2019, 5, 1), date(2021, 5, 1), 731)
    assert [one.work.title for one in programmed_again(sums.values())] == ["Tides"]


def test_never_played_tells_what_is_to_come() -> None:
    found = never_played(by_work((TIDES, WEIRS, LOCKS, SLUICE), PLAYED))

    assert [(one.work.title, one.coming) for one in found] == [("Locks", 1), ("Sluice", 0)]


@pytest.mark.parametrize(("years", "titles"), [(4, ["Weirs", "Tides"]), (6, ["Weirs"]), (7, [])])
def test_silent_works_stand_the_longest_silent_first(years: int, titles: list[str]) -> None:
    found = not_played_for(by_work((TIDES, WEIRS, LOCKS), PLAYED), years, today=TODAY)

    assert [one.work.title for one in found] == titles


def test_nothing_played_adds_up_to_nothing() -> None:
    assert (by_year(()), by_country(()), by_ensemble(())) == ((), (), ())
