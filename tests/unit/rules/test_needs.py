"""What a performance that is to come lacks. The lead times are common practice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from uuid import UUID

import pytest

from catalogue.facts import PerformanceFacts, PerformerFacts, ProgrammedFacts, VenueFacts
from catalogue.instrumentation import read
from catalogue.rules.needs import Due, Need, has_open_strings, needs_of, weeks_before
from catalogue.terms import PerformanceStatus, PerformerRole
from catalogue.timing import PartialDate

WHOLE = PerformanceFacts(
    id=1,
    uid=UUID(int=1),
    date=PartialDate(2026, 5, 16),
    status=PerformanceStatus.CONFIRMED,
    time=time(19, 30),
    zone="Europe/Zurich",
    venue=VenueFacts(1, "Old Granary", "Zurich", "CH", "Europe/Zurich"),
    city="Zurich",
    country="CH",
    performers=(PerformerFacts("Kestrel Ensemble", PerformerRole.ENSEMBLE),),
    programme=(ProgrammedFacts(1, 1),),
)


def test_event_of_which_all_is_known_needs_nothing() -> None:
    assert needs_of(WHOLE) == ()


@pytest.mark.parametrize(
    ("change", "need"),
    [
        ({"status": PerformanceStatus.PLANNED}, Due(Need.CONFIRMATION, date(2026, 2, 21))),
        ({"date": PartialDate(2026, 5)}, Due(Need.DAY, date(2026, 2, 6))),
        ({"venue": None}, Due(Need.PLACE, date(2026, 3, 7))),
        ({"city": ""}, Due(Need.PLACE, date(2026, 3, 7))),
        ({"programme": ()}, Due(Need.PROGRAMME, date(2026, 3, 7))),
        ({"performers": ()}, Due(Need.PERFORMERS, date(2026, 3, 21))),
        ({"time": None}, Due(Need.TIME, date(2026, 4, 4))),
        ({"zone": ""}, Due(Need.CLOCKS, date(2026, 4, 4))),
    ],
)
def test_what_is_not_known_is_due_weeks_before(change: dict[str, object], need: Due) -> None:
    assert needs_of(replace(WHOLE, **change)) == (need,)  # type: ignore[arg-type]


def test_most_urgent_need_stands_first() -> None:
    event = replace(WHOLE, time=None, performers=(), status=PerformanceStatus.PLANNED)

    assert [due.need for due in needs_of(event)] == [Need.CONFIRMATION, Need.PERFORMERS, Need.TIME]


def test_strengths_are_needed_where_the_score_leaves_them_open() -> None:
    needs = needs_of(WHOLE, strings_are_open=True)
    told = needs_of(replace(WHOLE, string_strengths=(8, 6, 4, 4, 2)), strings_are_open=True)

    assert ([due.need for due in needs], told) == ([Need.STRENGTHS], ())


@pytest.mark.parametrize(
    ("text", "is_open"), [("2.2.2.2 - str", True), ("fl, 2vn, va, vc", False), ("str(8.6.4.4.2)", False)]
)
def test_open_strings_are_told_from_the_instrumentation(text: str, is_open: bool) -> None:
    assert has_open_strings(read(text)) is is_open


def test_nothing_is_due_without_a_date() -> None:
    assert needs_of(replace(WHOLE, date=None)) == ()
    assert has_open_strings(None) is False


def test_every_need_has_its_weeks() -> None:
    assert set(weeks_before()) == set(Need)
