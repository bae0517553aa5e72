"""Until when a society takes the return of a performance.

Societies word their deadlines in three ways (common practice): so long after each performance, by one day of each year
for what a season has brought, or by a day that is announced for a period. They differ and they change, so that the
composer keeps each as it was read, with its source and the day of reading; none is built in.
"""

from __future__ import annotations

import calendar
import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from catalogue.timing import DateError, PartialDate, read_date, write_date

MOST_MONTHS = 120
LAST_YEAR = 9900  # after which a deadline may lie beyond the last date that there is
LEAP_YEAR = 2000  # in which every day of a year is a date
DAYS_IN = {"day": 1, "week": 7}
MONTHS_IN = {"month": 1, "year": 12}
AFTER_EACH = re.compile(
    r"(?:within )?(\d{1,4}) (day|week|month|year)s?(?: (?:of|after|from) (?:the |each )?performance)?",
    re.ASCII | re.IGNORECASE,
)
BY_A_DAY = re.compile(
    r"(?:by )?(?:every |each )?(?P<day>.+?)(?: (?:after|for a season (?:that ends|ending)(?: on)?) (?P<ends>.+))?",
    re.IGNORECASE,
)
FOR_A_PERIOD = re.compile(r"(?:by )?(?P<day>.+?) for (?P<first>.+?)(?: (?:to|until|–|-) (?P<last>.+))?", re.IGNORECASE)
HOW = (
    "Write 12 months, 90 days, 31 January, 15 October after 31 August (the end of a season), "
    "or 31 March 2027 for 2026 (a day for a period)."
)


class FilingScope(StrEnum):
    """Which performances a deadline is about."""

    EVERYWHERE = "everywhere"
    INSIDE = "in this country"
    OUTSIDE = "outside this country"


class FilingError(ValueError):
    """A deadline that cannot be read; ``reason`` is one sentence, the places are characters of ``text``."""

    def __init__(self, reason: str, text: str) -> None:
        super().__init__(reason)
        self.reason, self.text, self.start, self.end = reason, text, 0, len(text)


@dataclass(frozen=True, slots=True)
class AfterEach:
    """So many days or calendar months after each performance.

    >>> str(AfterEach(months=36)), AfterEach(months=6).due(date(2025, 8, 31))
    ('3 years', datetime.date(2026, 2, 28))
    """

    days: int = 0
    months: int = 0

    def __str__(self) -> str:
        if self.months:
            return counted(self.months, MONTHS_IN if self.months > MONTHS_IN["year"] else {"month": 1})
        return counted(self.days, DAYS_IN)

    @property
    def longest(self) -> int:
        """Days that may lie between a performance and its deadline, at most."""
        return self.days + 31 * self.months

    def due(self, day: date) -> date | None:
        if not self.months:
            return day + timedelta(days=self.days)
        year, month = divmod(day.year * 12 + day.month - 1 + self.months, 12)
        return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


@dataclass(frozen=True, slots=True)
class YearlyDay:
    """One day of each year, for what took place until the last end of a season before it; both are (month, day).

    >>> season = YearlyDay((10, 15), (8, 31))
    >>> str(season), season.due(date(2025, 8, 31)).isoformat(), season.due(date(2025, 9, 1)).isoformat()
    ('15 October after 31 August', '2025-10-15', '2026-10-15')
    """

    day: tuple[int, int]
    season_ends: tuple[int, int] = (12, 31)

    def __str__(self) -> str:
        ends = "" if self.season_ends == (12, 31) else f" after {spelled(self.season_ends)}"
        return f"{spelled(self.day)}{ends}"

    @property
    def longest(self) -> int:
        return 2 * 366

    def due(self, day: date) -> date | None:
        ended = next_on(self.season_ends, day)
        return next_on(self.day, ended + timedelta(days=1))


@dataclass(frozen=True, slots=True)
class DayForPeriod:
    """One announced day, for what took place in a period, both its days included.

    >>> once = DayForPeriod(date(2027, 3, 31), date(2026, 1, 1), date(2026, 12, 31))
    >>> str(once), once.due(date(2026, 5, 9)).isoformat(), once.due(date(2027, 1, 1))
    ('31 March 2027 for 2026', '2027-03-31', None)
    """

    day: date
    first: date
    last: date

    def __str__(self) -> str:
        return f"{written(self.day)} for {period_text(self.first, self.last)}"

    @property
    def longest(self) -> int:
        return (self.day - self.first).days

    def due(self, day: date) -> date | None:
        return self.day if self.first <= day <= self.last else None


FilingRule = AfterEach | YearlyDay | DayForPeriod


def read_filing_rule(text: str) -> FilingRule:
    """Read a deadline as a society words it. Raises FilingError.

    >>> read_filing_rule("within 12 months of the performance"), read_filing_rule("31 January")
    (AfterEach(days=0, months=12), YearlyDay(day=(1, 31), season_ends=(12, 31)))
    """
    typed = " ".join(text.split())
    if found := AFTER_EACH.fullmatch(typed):
        return after_each(int(found[1]), found[2].lower(), text)
    if (found := BY_A_DAY.fullmatch(typed)) and (day := month_and_day(found["day"])):
        ends = month_and_day(found["ends"]) if found["ends"] else (12, 31)
        if ends:
            return YearlyDay(day, ends)
    if found := FOR_A_PERIOD.fullmatch(typed):
        return for_a_period(found, text)
    raise FilingError(HOW, text)


def after_each(number: int, unit: str, text: str) -> AfterEach:
    months, days = number * MONTHS_IN.get(unit, 0), number * DAYS_IN.get(unit, 0)
    if not number or months > MOST_MONTHS or days > MOST_MONTHS * 31:
        raise FilingError(f"A deadline is from one day to {MOST_MONTHS // 12} years after the performance.", text)
    return AfterEach(days, months)


def for_a_period(found: re.Match[str], text: str) -> DayForPeriod:
    day, first, last = (date_in(found[name] or found["first"]) for name in ("day", "first", "last"))
    if day is None or first is None or last is None or day.exact is None:
        raise FilingError(HOW, text)
    if last.last < first.first or day.exact < first.first:
        raise FilingError("The period ends before it begins, or the day comes before it.", text)
    return DayForPeriod(day.exact, first.first, last.last)


def date_in(text: str) -> PartialDate | None:
    try:
        return read_date(text)
    except DateError:
        return None


def month_and_day(text: str) -> tuple[int, int] | None:
    """Read a day without its year.

    >>> month_and_day("October 15"), month_and_day("29 February"), month_and_day("October")
    ((10, 15), (2, 29), None)
    """
    found = date_in(f"{text} {LEAP_YEAR}")
    return (found.exact.month, found.exact.day) if found and found.exact else None


def next_on(place: tuple[int, int], day: date) -> date:
    """Return the first day from this one on that stands so in its year, the last of its month where there is none."""
    found = in_year(place, day.year)
    return found if found >= day else in_year(place, day.year + 1)


def in_year(place: tuple[int, int], year: int) -> date:
    return date(year, place[0], min(place[1], calendar.monthrange(year, place[0])[1]))


# ---- how they are written


def counted(number: int, units: dict[str, int]) -> str:
    unit, size = max(((unit, size) for unit, size in units.items() if number % size == 0), key=lambda one: one[1])
    return f"{number // size} {unit}{'' if number == size else 's'}"


def spelled(place: tuple[int, int]) -> str:
    return written(in_year(place, LEAP_YEAR)).removesuffix(f" {LEAP_YEAR}")


def written(day: date) -> str:
    return write_date(PartialDate.of(day), "en-GB").replace("\N{NO-BREAK SPACE}", " ")


def period_text(first: date, last: date) -> str:
    if (first, last) == (date(first.year, 1, 1), date(first.year, 12, 31)):
        return str(first.year)
    return written(first) if first == last else f"{written(first)} to {written(last)}"


# ---- what is due of a performance


@dataclass(frozen=True, slots=True)
class FilingTerm:
    """A deadline as it is kept: of which society, for what, where it counts, where and when it was read."""

    society: str
    rule: FilingRule
    scope: FilingScope = FilingScope.EVERYWHERE
    country: str = ""
    what: str = ""
    source: str = ""
    read_on: date | None = None

    def counts_in(self, country: str) -> bool:
        """Whether it is about performances in a country; where that is unknown, it may be."""
        if self.scope is FilingScope.EVERYWHERE or not country:
            return True
        return (country == self.country) is (self.scope is FilingScope.INSIDE)


@dataclass(frozen=True, slots=True)
class Filing:
    """That a society is to be told of a performance by a day; ``term`` says why, none where the day was typed."""

    society: str
    due: date
    term: FilingTerm | None = None


def filings_of(terms: Iterable[FilingTerm], *, day: date, country: str) -> tuple[Filing, ...]:
    """Return what is to be filed for a performance that began on a day: of each society the earliest, the first first.

    ``day`` is the first on which it may have been, so that no deadline is told too late.
    """
    found: dict[str, Filing] = {}
    for term in terms if day.year <= LAST_YEAR else ():
        due = term.rule.due(day) if term.counts_in(country) else None
        name = term.society.casefold()
        if due is not None and (name not in found or due < found[name].due):
            found[name] = Filing(term.society, due, term)
    return tuple(sorted(found.values(), key=lambda one: (one.due, one.society)))
