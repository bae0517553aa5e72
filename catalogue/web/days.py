"""Days as a page says them: with the day of the week, and how far off."""

from __future__ import annotations

from datetime import UTC, date, datetime, time
from typing import Literal

from babel import Locale
from babel.dates import format_date
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.timing import PartialDate, write_clock_time, write_date

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


def clock_text(at: time, zone: str, language: str) -> str:
    """
    >>> clock_text(time(19, 30), "Europe/Berlin", "en-GB"), clock_text(time(19, 30), "", "en-GB")
    ('19:30 (Europe/Berlin)', '19:30')
    """
    clock = write_clock_time(at, language)
    return f"{clock} ({zone})" if zone else clock


def hours_text(since: time | None, until: time | None, language: str) -> str:
    """Return since when something lasts, and until when where that is known.

    >>> hours_text(time(9), time(22), "en-GB"), hours_text(time(9), None, "en-GB")
    ('09:00 to 22:00', '09:00')
    """
    begins, ends = (write_clock_time(at, language) if at else "" for at in (since, until))
    return _("%(since)s to %(until)s") % {"since": begins, "until": ends} if begins and ends else begins


def moment_text(moment: datetime, language: str, *, style: Literal["long", "short"] = "short") -> str:
    """Return a moment by the clock of whoever reads; by universal time, and saying so, where that is not known.

    >>> moment_text(datetime(2026, 3, 9, 10, tzinfo=UTC), "en-GB").replace(chr(160), " ")
    '9 Mar 2026, 10:00 UTC'
    """
    here = timezone.localtime(moment)
    day = write_date(PartialDate.of(here.date()), language, style=style)
    named = "" if reader_has_a_clock() else " UTC"
    return f"{day}, {write_clock_time(here.time(), language)}{named}"


def reader_has_a_clock() -> bool:
    """Whether it is known by which clock whoever reads lives, and that it is not universal time."""
    return timezone.get_current_timezone_name() != UTC.tzname(None)
