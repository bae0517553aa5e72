"""Dates in cells: years with a season or part of a year beside them, and years of a revision in the same cell."""

from __future__ import annotations

import pytest

from catalogue.exchange.cell_dates import CellDate, read_cell_date, without_revision
from catalogue.timing import DateError, PartialDate


@pytest.mark.parametrize(
    ("text", "date"),
    [
        ("Spring 2019", PartialDate(2019)),
        ("Frühjahr 2019", PartialDate(2019)),
        ("été 2012", PartialDate(2012)),
        ("principios de 2001", PartialDate(2001)),
        ("Fine del 1998", PartialDate(1998)),
        ("mid-1998", PartialDate(1998)),
        ("winter 2019/20", PartialDate(2019, until=2020)),
        ("Summer 2019 – Spring 2020", PartialDate(2019, until=2020)),
        ("[2004]", PartialDate(2004)),
    ],
)
def test_a_season_or_a_part_of_a_year_is_that_year_and_says_more(text: str, date: PartialDate) -> None:
    """Dates are taken as people write them, and stay as imprecise as they are."""
    assert read_cell_date(text, "en-GB") == CellDate(date, says_more=True)


@pytest.mark.parametrize("text", ["12 March 2019", "2019", "c. 2019", "1998–2001"])
def test_a_date_that_the_catalogue_holds_says_no_more(text: str) -> None:
    assert not read_cell_date(text, "en-GB").says_more


@pytest.mark.parametrize(
    "text", ["after 1990", "before 1990", "summer", "early March 2019", "[x]", "one day", "May 2019 ii"]
)
def test_other_words_are_no_part_of_a_year(text: str) -> None:
    with pytest.raises(DateError):
        read_cell_date(text, "en-GB")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("2012 (rev. 2015)", ("2012", "2015")),
        ("2012/rev. 2015", ("2012", "2015")),
        ("2012, revised 2015", ("2012", "2015")),
        ("c. 2012; rev March 2015", ("c. 2012", "March 2015")),
        ("2012 (revidiert 2015)", ("2012", "2015")),
        ("2012 (révision 2015)", ("2012", "2015")),
        ("2012 [riv. 2015]", ("2012", "2015")),
        ("2012 (revisado en 2015)", ("2012", "2015")),
        ("2012 (reviewed 2015)", ("2012 (reviewed 2015)", "")),
        ("rev. 2015", ("rev. 2015", "")),
        ("2012–15", ("2012–15", "")),
    ],
)
def test_the_year_of_a_revision_in_the_same_cell_is_told_apart(text: str, parts: tuple[str, str]) -> None:
    assert without_revision(text) == parts
