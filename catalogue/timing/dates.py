"""Dates as exact as they are known: a day, a month, a year, about a year, or a span of years.

Stored as text: ``2027-03-12``, ``2027-03``, ``2027``, ``c. 1998``, ``1998/2001`` (ISO 8601 but for the ``c.``).

Read is what people type, in any of five languages: those texts, months by name (``12 mar 2027``, ``March 2027``,
``May 16, 2026``, ``1er mai 2026``), figures (``12.3.2027``, ``12/03/2027``: day first, month first only where the
language does so), ``c. 1998``, spans of years (``1998–2001``, ``1998–99``). What could mean two things is asked.
"""

from __future__ import annotations

import re
from calendar import isleap
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import total_ordering
from typing import Literal

from catalogue.timing.mistakes import Mistake
from catalogue.timing.patterns import Pattern
from catalogue.timing.words import NO_BREAK_SPACE, TYPED, Language, abbreviated, folded, one_of, words_in

FIRST_YEAR, LAST_YEAR = 1000, 9998  # four figures, and room for "about" on either side


class DateError(Mistake):
    """A date that cannot be read."""


class Order(StrEnum):
    """How a date stands to another: ``unknown`` where what is known of them overlaps."""

    BEFORE = "before"
    AFTER = "after"
    SAME = "same"
    UNKNOWN = "unknown"


@total_ordering
@dataclass(frozen=True, slots=True)
class PartialDate:
    """A date of which the month or the day may be unknown; ``until`` is the last year of a span of years.

    Sorted by its first possible day, then by its last, then exact before about. Raises ValueError for what no calendar
    has.

    >>> PartialDate(1998, until=2001) > PartialDate(1998, 5)
    False
    >>> str(PartialDate(1998, circa=True))
    'c. 1998'
    """

    year: int
    month: int | None = None
    day: int | None = None
    circa: bool = False
    until: int | None = None

    def __post_init__(self) -> None:
        reason = _fault(self)
        if reason:
            raise ValueError(reason)

    @classmethod
    def of(cls, day: date) -> PartialDate:
        return cls(day.year, day.month, day.day)

    @property
    def first(self) -> date:
        """The first day that the date may mean, "about" left aside."""
        return date(self.year, self.month or 1, self.day or 1)

    @property
    def last(self) -> date:
        """The last day that the date may mean, "about" left aside."""
        year, month = self.until or self.year, self.month or 12
        return date(year, month, self.day or _days_in(year, month))

    @property
    def exact(self) -> date | None:
        """The day, where it is known for certain."""
        return self.first if self.day and not self.circa else None

    @property
    def sort_key(self) -> str:
        """A text that sorts as the dates do, for a database column; no other date has the same."""
        if self.day:
            day = f"{self.year:04}-{self.month:02}-{self.day:02}"
            return f"{day}/{day}{'~' if self.circa else ''}"
        return f"{self.first.isoformat()}/{self.last.isoformat()}{'~' if self.circa else ''}"

    def compared_with(self, other: PartialDate) -> Order:
        """Return how this date stands to another, by what is certain.

        A date stands for its whole interval; "about" widens it by one of its own units (a year, a month, a day) on
        either side. Two equal exact days are the same, other intervals that overlap are of unknown order.

        >>> str(PartialDate(1913, 5).compared_with(PartialDate(1913, 5, 29)))
        'unknown'
        """
        mine, theirs = self.interval(), other.interval()
        if mine[1] < theirs[0]:
            return Order.BEFORE
        if theirs[1] < mine[0]:
            return Order.AFTER
        return Order.SAME if self.exact and self.exact == other.exact else Order.UNKNOWN

    def interval(self) -> tuple[date, date]:
        """Return the first and the last day that may be meant, "about" widened by a unit on either side."""
        if not self.circa:
            return self.first, self.last
        if self.month is None:
            return date(self.year - 1, 1, 1), date((self.until or self.year) + 1, 12, 31)
        if self.day is None:
            before, after = _month_away(self.first, -1), _month_away(self.first, 1)
            return before, after.replace(day=_days_in(after.year, after.month))
        return date.fromordinal(self.first.toordinal() - 1), date.fromordinal(self.first.toordinal() + 1)

    def __lt__(self, other: PartialDate) -> bool:
        return self.sort_key < other.sort_key

    def __str__(self) -> str:
        """The text under which the date is stored."""
        parts = [f"{self.year:04}"] + [f"{part:02}" for part in (self.month, self.day) if part]
        span = f"/{self.until:04}" if self.until else ""
        return ("c. " if self.circa else "") + "-".join(parts) + span


DAYS = (0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def _days_in(year: int, month: int) -> int:
    """Return the days of a month of the Gregorian calendar; ``calendar.monthrange`` also asks for its first weekday."""
    return 29 if month == 2 and isleap(year) else DAYS[month]


def _fault(when: PartialDate) -> str:
    """Return why no calendar has this date, in a sentence, or nothing."""
    if not all(FIRST_YEAR <= year <= LAST_YEAR for year in (when.year, when.until or when.year)):
        return f"A year lies between {FIRST_YEAR} and {LAST_YEAR}."
    if when.until is not None and (when.month or when.until <= when.year):
        return "A span goes from a year to a later one."
    if when.day and not when.month:
        return "A day needs its month."
    if when.month is not None and not 1 <= when.month <= 12:
        return f"There is no month {when.month}."
    if when.day is not None and not 1 <= when.day <= _days_in(when.year, when.month or 1):
        return f"There is no day {when.day} in month {when.month} of {when.year}."
    return ""


def _month_away(first: date, months: int) -> date:
    index = first.year * 12 + first.month - 1 + months
    return date(index // 12, index % 12 + 1, 1)


# ---- reading

DASH = "[-‐‑–—]"
YEAR = r"(?P<year>[0-9]{4})"
DAY = r"(?P<day>[0-9]{1,2})(?:\s*(?:st|nd|rd|th|er|re|[.ºª°]))?"
MONTH_NAME = r"(?P<name>[^\W\d_]{3,}\.?)"
OF = rf"(?:\s*[-/,.]\s*|\s+{one_of(TYPED.of)}\s+|\s+|(?<=[.ºª°]))"
WEEKDAY = rf"(?:{one_of(TYPED.weekdays)},?\s+)?(?:{one_of(TYPED.articles)}\s+)?"

HEAD = Pattern(rf"\s*(?P<about>{one_of(TYPED.about)})?\s*", re.IGNORECASE)
TAIL = Pattern(r"\s*(?P<about>[?~])?\s*$|(?<=[0-9])\s+(?P<word>circa|ca\.|ca|c\.)\s*$", re.IGNORECASE)

SPAN = Pattern(rf"{YEAR}\s*(?P<mark>{DASH}|/|\s{one_of(TYPED.to)}\s)\s*(?P<until>[0-9]{{4}}|[0-9]{{2}})", re.IGNORECASE)
YEAR_ONLY = Pattern(YEAR)
ISO_MONTH = Pattern(rf"{YEAR}-(?P<month>[0-9]{{2}})")
YEAR_FIRST = Pattern(rf"{YEAR}(?P<mark>[-./])(?P<month>[0-9]{{1,2}})(?P=mark)(?P<day>[0-9]{{1,2}})")
ISO_BASIC = Pattern(rf"{YEAR}(?P<month>[0-9]{{2}})(?P<day>[0-9]{{2}})")
FIGURES = Pattern(rf"(?P<one>[0-9]{{1,2}})\s?(?P<mark>[-./])\s?(?P<two>[0-9]{{1,2}})\s?(?P=mark)\s?{YEAR}")
MONTH_FIGURE = Pattern(rf"(?P<month>[0-9]{{1,2}})\s?[-./]\s?{YEAR}")
DAY_NAME_YEAR = Pattern(rf"{WEEKDAY}{DAY}{OF}{MONTH_NAME}{OF}{YEAR}", re.IGNORECASE)
NAME_DAY_YEAR = Pattern(rf"{WEEKDAY}{MONTH_NAME}\s*{DAY},?\s+{YEAR}", re.IGNORECASE)
NAME_YEAR = Pattern(rf"{MONTH_NAME}{OF}{YEAR}", re.IGNORECASE)


def read_date(text: str, *, language: str = "en-GB") -> PartialDate:
    """Return the date that a person wrote; figures in the order of ``language``. Raises DateError.

    >>> str(read_date("12 mar 2027")), str(read_date("03/12/2027", language="en-US"))
    ('2027-03-12', '2027-03-12')
    """
    if len(text) > 200:
        raise DateError("This is too long for a date.", text, 0, len(text))
    start, end, circa = _without_about(text)
    if start == end:
        raise DateError("No date is given.", text, 0, len(text))
    for pattern, reader in READERS:
        match = pattern.fullmatch(text, start, end)
        found = reader(match, words_in(language).month_first) if match else None
        if found is not None:
            return PartialDate(found.year, found.month, found.day, circa, found.until)
    raise DateError(_why_not(text[start:end]), text, start, end)


def _without_about(text: str) -> tuple[int, int, bool]:
    head, tail = HEAD.match(text), TAIL.search(text)
    start = head.end() if head else 0
    end = max(start, tail.start() if tail else len(text))
    circa = bool((head and head["about"]) or (tail and (tail["about"] or tail["word"])))
    return start, end, circa


def _why_not(rest: str) -> str:
    if not re.search(r"[0-9]{4}", rest) and re.search(r"(?<![0-9])[0-9]{2}$", rest):
        return f"Write the year of “{rest}” with four figures."
    return f"“{rest}” is no date; write 2027-03-12, 12 March 2027, March 2027, 2027 or c. 2027."


Reader = Callable[["re.Match[str]", bool], PartialDate | None]


def _checked(match: re.Match[str], month: int | None = None, day: int | None = None) -> PartialDate:
    """Return the date, or raise at the figure that is wrong."""
    year = int(match["year"])
    if not FIRST_YEAR <= year <= LAST_YEAR:
        raise _at(match, "year", f"A year lies between {FIRST_YEAR} and {LAST_YEAR}.")
    if month is not None and not 1 <= month <= 12:
        raise _at(match, _group_of(match, month, "month"), f"There is no month {month}.")
    if month is not None and day is not None and not 1 <= day <= _days_in(year, month):
        there_are = f"{words_in('en-GB').months[month - 1]} {year} has {_days_in(year, month)} days"
        raise _at(match, _group_of(match, day, "day"), f"{there_are}, so there is no day {day}.")
    return PartialDate(year, month, day)


def _group_of(match: re.Match[str], figure: int, name: str) -> str:
    groups = match.groupdict()
    return name if name in groups else "one" if int(groups["one"]) == figure else "two"


def _at(match: re.Match[str], group: str, reason: str) -> DateError:
    return DateError(reason, match.string, match.start(group), match.end(group))


def _read_span(match: re.Match[str], _month_first: bool) -> PartialDate | None:
    """Read 1998–2001 or 1998–99; leaves 2001-02 to the months, and asks about 2001/02."""
    year, until, short = int(match["year"]), int(match["until"]), len(match["until"]) == 2
    if short and match["mark"] == "-" and not 12 < until > year % 100:
        return None
    if short and match["mark"] == "/" and 1 <= until <= 12:
        raise _at(
            match,
            "until",
            f"“{match[0]}” may be a month or two years; write {year}-{until:02} or the second year in full.",
        )
    _checked(match)
    until += year // 100 * 100 if short else 0
    if not year < until <= LAST_YEAR:
        raise _at(match, "until", "A span goes from a year to a later one.")
    return PartialDate(year, until=until)


def _read_figures(match: re.Match[str], month_first: bool) -> PartialDate:
    one, two = int(match["one"]), int(match["two"])
    day, month = (two, one) if month_first else (one, two)
    if not 1 <= month <= 12 and 1 <= day <= 12:
        order = "the month first" if month_first else "the day first"
        place = "one" if month_first else "two"
        raise _at(
            match, place, f"There is no month {month}: figures are read with {order} here; write the month in letters."
        )
    return _checked(match, month, day)


def _read_year(match: re.Match[str], _month_first: bool) -> PartialDate:
    return _checked(match)


def _read_month(match: re.Match[str], _month_first: bool) -> PartialDate:
    return _checked(match, int(match["month"]))


def _read_day(match: re.Match[str], _month_first: bool) -> PartialDate:
    return _checked(match, int(match["month"]), int(match["day"]))


def _read_month_name(match: re.Match[str], _month_first: bool) -> PartialDate:
    return _checked(match, _month_named(match))


def _read_day_of_name(match: re.Match[str], _month_first: bool) -> PartialDate:
    return _checked(match, _month_named(match), int(match["day"]))


def _month_named(match: re.Match[str]) -> int:
    month = TYPED.months.get(folded(match["name"]))
    if month is None:
        raise _at(match, "name", f"“{match['name']}” is no month.")
    return month


READERS: tuple[tuple[Pattern, Reader], ...] = (
    (YEAR_ONLY, _read_year),
    (SPAN, _read_span),
    (ISO_MONTH, _read_month),
    (YEAR_FIRST, _read_day),
    (ISO_BASIC, _read_day),
    (FIGURES, _read_figures),
    (MONTH_FIGURE, _read_month),
    (DAY_NAME_YEAR, _read_day_of_name),
    (NAME_DAY_YEAR, _read_day_of_name),
    (NAME_YEAR, _read_month_name),
)


# ---- writing


def write_date(when: PartialDate, language: str = "en-GB", *, style: Literal["long", "short"] = "long") -> str:
    """Write a date as a document of that language prints it; ``short`` has the month abbreviated, never as a figure.

    Day and month are held together by a no-break space. Order and names: Unicode CLDR; the French and Italian first of
    the month: common practice.

    >>> write_date(PartialDate(2026, 5, 16), "en-US").replace(NO_BREAK_SPACE, " ")
    'May 16, 2026'
    """
    words = words_in(language) if style == "long" else abbreviated(words_in(language))
    written = _without_circa(when, words)
    return f"{words.about_date}{NO_BREAK_SPACE}{written}" if when.circa else written


def _without_circa(when: PartialDate, words: Language) -> str:
    if when.until:
        return f"{when.year}–{when.until}"
    if not when.month:
        return str(when.year)
    month = words.months[when.month - 1]
    if not when.day:
        return words.date_of_month.format(month=month, year=when.year)
    day = words.day_one if when.day == 1 else words.day.format(when.day)
    joined = words.date.replace("} ", "}" + NO_BREAK_SPACE, 1)
    return joined.format(day=day, month=month, year=when.year)
