"""Days that calls tell by their place in a month, reckoned by hand on a calendar of 2027."""

from __future__ import annotations

import pytest

from catalogue.rules.calls.loose_days import spans_told
from catalogue.rules.calls.reading import read_call


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("in the first week of June 2027", "2027-06-01", "2027-06-07"),
        ("the last week of February 2027", "2027-02-22", "2027-02-28"),
        ("by mid-May 2027", "2027-05-11", "2027-05-20"),
        ("late in the second half of May 2027", "2027-05-21", "2027-05-31"),
        ("early June 2027", "2027-06-01", "2027-06-10"),
        ("in der ersten Juniwoche 2027", "2027-06-01", "2027-06-07"),
        ("bis Mitte Mai 2027", "2027-05-11", "2027-05-20"),
        ("Anfang März 2027", "2027-03-01", "2027-03-10"),
        ("la première semaine de juin 2027", "2027-06-01", "2027-06-07"),
        ("mi-avril 2027", "2027-04-11", "2027-04-20"),
        ("nella prima settimana di settembre 2027", "2027-09-01", "2027-09-07"),
        ("a mediados de abril de 2027", "2027-04-11", "2027-04-20"),
        ("the last Friday of June 2027", "2027-06-25", "2027-06-25"),
        ("am zweiten Montag im März 2027", "2027-03-08", "2027-03-08"),
        ("le dernier vendredi de juin 2027", "2027-06-25", "2027-06-25"),
        ("el primer lunes de julio de 2027", "2027-07-05", "2027-07-05"),
    ],
)
def test_a_part_of_a_month_is_its_days(text: str, first: str, last: str) -> None:
    assert [(str(one.first), str(one.last)) for one in spans_told(text)] == [(first, last)]


def test_a_month_without_a_year_is_of_the_only_year_that_the_call_names() -> None:
    call = read_call("Lowmarsh prize 2027\nFor harp.\nDeadline: the first week of June.").call

    assert str(call.deadline_day) == "2027-06-01"
    assert "“first week of June”" in call.contradictions[0]


def test_an_exact_day_beats_a_loose_one() -> None:
    call = read_call("Lowmarsh prize\nFor harp.\nScores reach us in early June 2027.\nDeadline: 12 June 2027").call

    assert (str(call.deadline_day), call.contradictions) == ("2027-06-12", ())
