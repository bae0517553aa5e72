"""Until when societies take returns. The rules of the first test are published facts; all else is common practice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from uuid import UUID

import pytest

from catalogue.facts import PerformanceFacts
from catalogue.rules.filing import (
    AfterEach,
    DayForPeriod,
    Filing,
    FilingError,
    FilingScope,
    FilingTerm,
    YearlyDay,
    filings_of,
    read_filing_rule,
)
from catalogue.rules.journey import Around, Lead, Stage, Standing, StepFacts, journey_of, usual_leads
from catalogue.terms import PerformanceStatus, StepKind, StepState
from catalogue.timing import PartialDate

ABROAD = FilingTerm("Quay Society", AfterEach(months=12), FilingScope.OUTSIDE, "NO")
AT_HOME = FilingTerm("Quay Society", YearlyDay((3, 31)), FilingScope.INSIDE, "NO")
DAY = date(2026, 2, 20)


@pytest.mark.parametrize(
    ("played", "due"), [("2025-08-31", "2025-10-15"), ("2025-09-01", "2026-10-15"), ("2024-12-31", "2025-10-15")]
)
def test_season_from_september_to_august_is_told_by_mid_october(played: str, due: str) -> None:
    """BMI, classical concert music: season 1 September to 31 August, deadline 15 October (bmi.com, read in 2025)."""
    rule = read_filing_rule("15 October after 31 August")

    assert rule.due(date.fromisoformat(played)) == date.fromisoformat(due)


@pytest.mark.parametrize(
    ("typed", "rule", "written"),
    [
        ("12 months", AfterEach(months=12), "12 months"),
        ("within 90 days of the performance", AfterEach(days=90), "90 days"),
        ("8 Weeks", AfterEach(days=56), "8 weeks"),
        ("18 months after performance", AfterEach(months=18), "18 months"),
        ("31 January", YearlyDay((1, 31)), "31 January"),
        ("every October 15 for a season that ends on August 31", YearlyDay((10, 15), (8, 31)), None),
        ("by 31 March 2027 for 2026", DayForPeriod(date(2027, 3, 31), date(2026, 1, 1), date(2026, 12, 31)), None),
        (
            "15 Oct 2026 for September 2025 to August 2026",
            DayForPeriod(date(2026, 10, 15), date(2025, 9, 1), date(2026, 8, 31)),
            "15 October 2026 for 1 September 2025 to 31 August 2026",
        ),
    ],
)
def test_deadline_is_read_as_typed_and_read_again_as_written(typed: str, rule: object, written: str | None) -> None:
    found = read_filing_rule(typed)

    assert found == rule
    assert read_filing_rule(str(found)) == rule
    assert written is None or str(found) == written


@pytest.mark.parametrize(
    "typed",
    ["", "soon", "0 days", "999 years", "31 June", "March", "31 March 2027", "5 May 2026 for 2027", "2027 for 2026"],
)
def test_what_says_no_day_is_refused_at_its_place(typed: str) -> None:
    with pytest.raises(FilingError) as refused:
        read_filing_rule(typed)

    assert (refused.value.text, refused.value.end) == (typed, len(typed))


def test_each_society_counts_once_with_its_earliest_deadline() -> None:
    other = FilingTerm("Ferry Society", AfterEach(days=60))
    terms = (ABROAD, AT_HOME, replace(ABROAD, rule=AfterEach(months=36)), other)

    assert filings_of(terms, day=DAY, country="FI") == (
        Filing("Ferry Society", date(2026, 4, 21), other),
        Filing("Quay Society", date(2027, 2, 20), ABROAD),
    )
    assert filings_of(terms, day=DAY, country="NO")[1] == Filing("Quay Society", date(2027, 3, 31), AT_HOME)
    assert filings_of(terms, day=DAY, country="")[1].term == ABROAD
    assert filings_of(terms, day=date(9999, 12, 31), country="FI") == ()


# ---- the step that they are part of

OVER = PerformanceFacts(1, UUID(int=1), PartialDate.of(DAY), status=PerformanceStatus.GIVEN)
FILINGS = filings_of((ABROAD,), day=DAY, country="FI")


def stage(today: date, *steps: StepFacts, needless: bool = False) -> Stage:
    leads = {**usual_leads(), StepKind.RETURN: Lead(None)}
    bare = frozenset({StepKind.RETURN}) if needless else frozenset()
    around = Around(leads, steps, frozenset({StepKind.RETURN}), bare, filings=FILINGS)
    return next(one for one in journey_of(OVER, around, today=today) if one.kind is StepKind.RETURN)


def test_deadline_goes_before_lead_times_and_before_the_return_to_another_society() -> None:
    assert stage(date(2026, 3, 9)) == Stage(StepKind.RETURN, True, Standing.OPEN, date(2027, 2, 20), filings=FILINGS)


def test_day_set_by_hand_goes_before_the_deadline() -> None:
    step = StepFacts(StepKind.RETURN, due=date(2026, 4, 1))

    assert stage(date(2026, 5, 1), step).due == date(2026, 4, 1)


@pytest.mark.parametrize(
    ("today", "step", "standing"),
    [
        (date(2027, 3, 1), None, Standing.LATE),
        (date(2029, 3, 1), None, Standing.MISSED),
        (date(2026, 3, 9), StepFacts(StepKind.RETURN, StepState.DONE), Standing.DONE),
    ],
)
def test_deadline_passes_and_is_met(today: date, step: StepFacts | None, standing: Standing) -> None:
    assert stage(today, *([step] if step else [])).standing is standing


def test_where_nobody_is_in_the_hall_no_deadline_counts() -> None:
    found = stage(date(2026, 3, 9), needless=True)

    assert (found.filings, found.standing) == ((), Standing.DONE)
