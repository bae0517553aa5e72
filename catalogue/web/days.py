"""Days as a page says them: with the day of the week, and how far off."""

from __future__ import annotations

from datetime import date, time

from babel import Locale
from babel.dates import format_date
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.timing import PartialDate, write_date

DAYS_UP_TO, MONTHS_UP_TO = 120, 730  # days within which days and months are counted
DAYS_OF_A_MONTH, DAYS_OF_A_YEAR = 30.44, 365.25
COMMA_AFTER_WEEKDAY = ("en-US", "de")


def weekday_text(day: date, language: str) -> str:
    return str(format_date(day, "EEEE", Locale.parse(language, sep="-")))


def long_day(when: PartialDate, language: str) -> str:
    """Return a date with its day of the week, where it is a day for certain.

    >>> long_day(PartialDate(2026, 3, 28), "en-GB").replace(chr(160), " "), long_day(PartialDate(2026), "en-GB")
    ('Saturday 28 March 2026', '2026')
    """
    if when.exact is None:
        return write_date(when, language)
    comma = "," if language.startswith(COMMA_AFTER_WEEKDAY) else ""
    return f"{weekday_text(when.exact, language)}{comma} {write_date(when, language)}"


def short_day(when: PartialDate, language: str) -> str:
    """Return day and month, without the year: 28 Mar."""
    written = write_date(when, language, style="short")
    return written.replace(f", {when.year}", "").removesuffix(f" {when.year}")


def how_far(when: PartialDate, today: date) -> str:
    """Return how far off a date is: in days, from some months on in months, then in whole years.

    Of a month or a year the nearest day counts; while it is running nothing is said.

    >>> how_far(PartialDate(2026, 3, 28), date(2026, 3, 9)), how_far(PartialDate(2026, 3), date(2026, 3, 9))
    ('in 19 days', '')
    >>> how_far(PartialDate(2011, 2, 18), date(2026, 11, 25))
    '15 years ago'
    """
    if when.exact is None and when.first <= today <= when.last:
        return ""
    days = (when.first - today).days if when.first >= today else (when.last - today).days
    near = {0: _("today"), 1: _("tomorrow"), -1: _("yesterday")}
    return near[days] if days in near else distance(days)


def distance(days: int) -> str:
    number = abs(days)
    if number <= DAYS_UP_TO:
        coming, past = ngettext("in %d day", "in %d days", number), ngettext("%d day ago", "%d days ago", number)
    elif number <= MONTHS_UP_TO:
        number = round(number / DAYS_OF_A_MONTH)
        coming, past = (
            ngettext("in %d month", "in %d months", number),
            ngettext("%d month ago", "%d months ago", number),
        )
    else:
        number = int(number / DAYS_OF_A_YEAR)
        coming, past = ngettext("in %d year", "in %d years", number), ngettext("%d year ago", "%d years ago", number)
    return (coming if days > 0 else past) % number


def clock_text(at: time, zone: str) -> str:
    """
    >>> clock_text(time(19, 30), "Europe/Berlin"), clock_text(time(19, 30), "")
    ('19:30 (Europe/Berlin)', '19:30')
    """
    return f"{at:%H:%M} ({zone})" if zone else f"{at:%H:%M}"
