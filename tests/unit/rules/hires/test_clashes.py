from __future__ import annotations

from datetime import date

import pytest

from catalogue.rules.hires.clashes import Loan, clash, days_of

TODAY = date(2026, 7, 1)
MARCH, JUNE = date(2026, 3, 2), date(2026, 6, 5)


@pytest.mark.parametrize(
    ("days", "found"),
    [
        ({}, None),
        ({"out_on": MARCH, "due": JUNE, "back_on": JUNE}, (MARCH, date(2026, 6, 4))),
        ({"out_on": MARCH, "due": JUNE}, (MARCH, TODAY)),
        ({"out_on": MARCH, "due": date(2026, 8, 1)}, (MARCH, date(2026, 7, 31))),
        ({"out_on": MARCH}, (MARCH, None)),
        ({"out_on": MARCH, "back_on": MARCH}, (MARCH, MARCH)),
        ({"played": (date(2026, 5, 16), date(2026, 5, 17))}, (date(2026, 5, 16), date(2026, 5, 17))),
        ({"played": (date(2026, 5, 16),), "due": JUNE}, (date(2026, 5, 16), date(2026, 6, 4))),
        ({"out_on": MARCH, "due": JUNE, "played": (date(2026, 9, 1),)}, (MARCH, date(2026, 9, 1))),
    ],
)
def test_set_is_away_from_its_first_day_to_its_last(days: dict[str, object], found: object) -> None:
    usual = {"out_on": None, "due": None, "back_on": None}

    assert days_of(**{**usual, **days}, today=TODAY) == found


@pytest.mark.parametrize(
    ("first", "last", "clashes"),
    [
        (date(2026, 2, 1), date(2026, 3, 1), False),
        (date(2026, 2, 1), MARCH, True),
        (date(2026, 4, 1), date(2026, 4, 2), True),
        (date(2026, 6, 4), date(2026, 7, 1), True),
        (JUNE, None, False),
        (date(2026, 1, 1), None, True),
    ],
)
def test_two_loans_of_one_set_share_no_day(first: date, last: date | None, clashes: bool) -> None:
    out = Loan(1, "Two Bells Orchestra", MARCH, date(2026, 6, 4))

    assert clash(Loan(None, "Harbour Band", first, last), [out]) == (out if clashes else None)


def test_a_loan_does_not_clash_with_itself_and_the_earliest_other_is_named() -> None:
    wanted = Loan(1, "Harbour Band", MARCH, None)
    later, earlier = Loan(2, "Quay Players", JUNE, JUNE), Loan(3, "Two Bells Orchestra", MARCH, MARCH)

    assert clash(wanted, [wanted, later, earlier]) == earlier
