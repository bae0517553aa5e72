from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalogue.timing import DateError, Order, PartialDate, read_date, write_date
from catalogue.timing.words import LANGUAGES

days = st.dates(date(1000, 1, 1), date(9998, 12, 31)).map(PartialDate.of)
months = st.builds(PartialDate, st.integers(1000, 9998), st.integers(1, 12))
years = st.builds(PartialDate, st.integers(1000, 9998))
spans = st.tuples(st.integers(1000, 9997), st.integers(1, 200)).map(
    lambda pair: PartialDate(pair[0], until=min(9998, pair[0] + pair[1]))
)
certain = days | months | years | spans
about = certain.map(lambda when: PartialDate(when.year, when.month, when.day, True, when.until))
dates = certain | about


@pytest.mark.parametrize(
    ("text", "stored"),
    [
        ("2027", "2027"),
        ("2027-03", "2027-03"),
        ("2027-03-12", "2027-03-12"),
        ("20270312", "2027-03-12"),
        ("2027/3/12", "2027-03-12"),
        ("2027.03.12", "2027-03-12"),
        ("c. 1998", "c. 1998"),
        ("ca. 1998", "c. 1998"),
        ("circa 1998", "c. 1998"),
        ("um 1998", "c. 1998"),
        ("vers 1998", "c. 1998"),
        ("hacia 1998", "c. 1998"),
        ("~1998", "c. 1998"),
        ("1998?", "c. 1998"),
        ("1998 ca.", "c. 1998"),
        ("c. March 1998", "c. 1998-03"),
        ("1998/2001", "1998/2001"),
        ("1998–2001", "1998/2001"),
        ("1998-2001", "1998/2001"),
        ("1998 to 2001", "1998/2001"),
        ("1998 bis 2001", "1998/2001"),
        ("1998-99", "1998/1999"),
        ("2019–22", "2019/2022"),
        ("2001-02", "2001-02"),
        ("2001–02", "2001/2002"),
        ("c. 1998–2001", "c. 1998/2001"),
        ("12 mar 2027", "2027-03-12"),
        ("12 Mar. 2027", "2027-03-12"),
        ("12th of March, 2027", "2027-03-12"),
        ("12-Mar-2027", "2027-03-12"),
        ("Fri, 12 March 2027", "2027-03-12"),
        ("March 12, 2027", "2027-03-12"),
        ("Mar. 12 2027", "2027-03-12"),
        ("den 12. März 2027", "2027-03-12"),
        ("12.März 2027", "2027-03-12"),
        ("le 1er août 2027", "2027-08-01"),
        ("1er aout 2027", "2027-08-01"),
        ("1º maggio 2026", "2026-05-01"),
        ("domenica 12 marzo 2027", "2027-03-12"),
        ("16 de mayo de 2026", "2026-05-16"),
        ("March 2027", "2027-03"),
        ("Jänner 2027", "2027-01"),
        ("mayo de 2026", "2026-05"),
        ("3/2027", "2027-03"),
        ("12.3.2027", "2027-03-12"),
        ("12. 3. 2027", "2027-03-12"),
        ("12/03/2027", "2027-03-12"),
        ("29 February 2028", "2028-02-29"),
    ],
)
def test_a_date_reads_as_people_type_it(text: str, stored: str) -> None:
    assert str(read_date(text)) == stored


@pytest.mark.parametrize(
    ("language", "stored"), [("en-US", "2027-03-12"), ("en-GB", "2027-12-03"), ("de", "2027-12-03")]
)
def test_figures_have_the_month_first_only_in_american_english(language: str, stored: str) -> None:
    assert str(read_date("03/12/2027", language=language)) == stored


@pytest.mark.parametrize(
    ("text", "language", "reason", "start", "end"),
    [
        ("", "en-GB", "No date is given.", 0, 0),
        ("12.3.27", "en-GB", "Write the year of “12.3.27” with four figures.", 0, 7),
        ("29 Feb 2027", "en-GB", "February 2027 has 28 days, so there is no day 29.", 0, 2),
        ("31.4.2027", "en-GB", "April 2027 has 30 days, so there is no day 31.", 0, 2),
        ("2027-13", "en-GB", "There is no month 13.", 5, 7),
        ("2027-00-12", "en-GB", "There is no month 0.", 5, 7),
        ("12 foo 2027", "en-GB", "“foo” is no month.", 3, 6),
        ("Spring 2027", "en-GB", "“Spring” is no month.", 0, 6),
        ("0999", "en-GB", "A year lies between 1000 and 9998.", 0, 4),
        ("2001-1998", "en-GB", "A span goes from a year to a later one.", 5, 9),
        ("2001/02", "en-GB", "“2001/02” may be a month or two years; write 2001-02 or the second year in full.", 5, 7),
        (
            "3/25/2027",
            "en-GB",
            "There is no month 25: figures are read with the day first here; write the month in letters.",
            2,
            4,
        ),
        (
            "25/3/2027",
            "en-US",
            "There is no month 25: figures are read with the month first here; write the month in letters.",
            0,
            2,
        ),
        (
            "before 12 March 2027",
            "en-GB",
            "“before 12 March 2027” is no date; write 2027-03-12, 12 March 2027, March 2027, 2027 or c. 2027.",
            0,
            20,
        ),
    ],
)
def test_what_is_no_date_is_refused_at_its_place(text: str, language: str, reason: str, start: int, end: int) -> None:
    with pytest.raises(DateError) as caught:
        read_date(text, language=language)

    assert (caught.value.reason, caught.value.start, caught.value.end) == (reason, start, end)


@pytest.mark.parametrize(
    ("when", "first", "last", "exact"),
    [
        (PartialDate(2028, 2, 29), date(2028, 2, 29), date(2028, 2, 29), date(2028, 2, 29)),
        (PartialDate(2028, 2), date(2028, 2, 1), date(2028, 2, 29), None),
        (PartialDate(2027), date(2027, 1, 1), date(2027, 12, 31), None),
        (PartialDate(1998, until=2001), date(1998, 1, 1), date(2001, 12, 31), None),
        (PartialDate(1998, circa=True), date(1998, 1, 1), date(1998, 12, 31), None),
    ],
)
def test_a_date_stands_for_an_interval(when: PartialDate, first: date, last: date, exact: date | None) -> None:
    assert (when.first, when.last, when.exact) == (first, last, exact)


@pytest.mark.parametrize(
    ("one", "other", "order"),
    [
        ("1913-05-29", "1913-06-01", Order.BEFORE),
        ("1913-06-01", "1913-05-29", Order.AFTER),
        ("1913-05-29", "1913-05-29", Order.SAME),
        ("1913-05", "1913-05-29", Order.UNKNOWN),
        ("1913-05", "1913-05", Order.UNKNOWN),
        ("1913-05", "1913-06", Order.BEFORE),
        ("1913", "1914-01-01", Order.BEFORE),
        ("c. 1998", "1999-05-01", Order.UNKNOWN),
        ("c. 1998", "2000-01-01", Order.BEFORE),
        ("c. 1998-03", "1998-04-30", Order.UNKNOWN),
        ("c. 1998-03", "1998-05-01", Order.BEFORE),
        ("c. 1998-03-12", "1998-03-12", Order.UNKNOWN),
        ("1998/2001", "2001-06", Order.UNKNOWN),
        ("1998/2001", "2002", Order.BEFORE),
    ],
)
def test_dates_are_compared_by_what_is_certain(one: str, other: str, order: Order) -> None:
    assert read_date(one).compared_with(read_date(other)) is order


@pytest.mark.parametrize(
    "impossible",
    [(2027, 13), (2027, 2, 29), (999,), (2027, None, 3), (2001, None, None, False, 1998), (1998, 3, None, False, 2001)],
)
def test_an_impossible_date_is_refused(impossible: tuple[int, ...]) -> None:
    with pytest.raises(ValueError, match=r"\.$"):
        PartialDate(*impossible)


@pytest.mark.parametrize(
    ("language", "long", "short", "first", "month", "about_year"),
    [
        ("en-GB", "16 September 2026", "16 Sept 2026", "1 May 2026", "May 2026", "c. 1998"),
        ("en-US", "September 16, 2026", "Sep 16, 2026", "May 1, 2026", "May 2026", "ca. 1998"),
        ("de", "16. September 2026", "16. Sept. 2026", "1. Mai 2026", "Mai 2026", "ca. 1998"),
        ("fr", "16 septembre 2026", "16 sept. 2026", "1er mai 2026", "mai 2026", "vers 1998"),
        ("it", "16 settembre 2026", "16 set 2026", "1º maggio 2026", "maggio 2026", "ca. 1998"),
        ("es", "16 de septiembre de 2026", "16 sept 2026", "1 de mayo de 2026", "mayo de 2026", "ca. 1998"),
    ],
)
def test_a_date_is_written_as_its_language_does(
    language: str, long: str, short: str, first: str, month: str, about_year: str
) -> None:
    day = PartialDate(2026, 9, 16)

    written = [
        write_date(day, language),
        write_date(day, language, style="short"),
        write_date(PartialDate(2026, 5, 1), language),
        write_date(PartialDate(2026, 5), language),
        write_date(PartialDate(1998, circa=True), language),
    ]

    assert [text.replace("\N{NO-BREAK SPACE}", " ") for text in written] == [long, short, first, month, about_year]
    assert write_date(PartialDate(1998, until=2001), language) == "1998–2001"


def test_day_and_month_stay_on_one_line() -> None:
    assert write_date(PartialDate(2026, 5, 16)) == "16\N{NO-BREAK SPACE}May 2026"


@given(dates)
def test_reading_undoes_storing(when: PartialDate) -> None:
    assert read_date(str(when)) == when


@given(dates, st.sampled_from(sorted(LANGUAGES)), st.sampled_from(["long", "short"]))
def test_reading_undoes_writing(when: PartialDate, language: str, style: str) -> None:
    assert read_date(write_date(when, language, style=style), language=language) == when


@given(st.lists(dates))
def test_the_sort_key_sorts_as_the_dates_do(some: list[PartialDate]) -> None:
    assert sorted(some) == sorted(some, key=lambda when: when.sort_key)
    assert sorted(some) == sorted(some, key=lambda when: (when.first, when.last, when.circa))


@given(dates, dates)
def test_comparison_is_the_same_from_both_sides(one: PartialDate, other: PartialDate) -> None:
    opposite = {
        Order.BEFORE: Order.AFTER,
        Order.AFTER: Order.BEFORE,
        Order.SAME: Order.SAME,
        Order.UNKNOWN: Order.UNKNOWN,
    }

    assert other.compared_with(one) is opposite[one.compared_with(other)]


@given(st.text(max_size=40) | st.text("0123456789./-– cmarMayde", max_size=20))
def test_any_text_is_read_or_refused_within_its_bounds(text: str) -> None:
    fault = fault_of(text)

    assert fault is None or (0 <= fault.start <= fault.end <= len(text) and fault.reason.endswith("."))


def fault_of(text: str) -> DateError | None:
    try:
        read_date(text)
    except DateError as fault:
        return fault
    return None
