"""How values read in a line or a cell of a page; what is not known is empty, what cannot be read stands as typed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from django.utils.translation import get_language

from catalogue.timing import Duration, PartialDate, write_date, write_duration


def page_language() -> str:
    """Return the language that the page is in, as documents name it: en-GB, not en-gb."""
    language, _, region = (get_language() or "en-gb").partition("-")
    return f"{language}-{region.upper()}" if region else language


def duration_text(duration: Duration | str | None, typed: str, language: str) -> str:
    """Return a duration in primes, or what was typed where that could not be read.

    >>> duration_text(Duration(750), "", "en-GB"), duration_text(None, "about an evening", "en-GB")
    ('12′30″', 'about an evening')
    """
    return write_duration(duration, language=language) if isinstance(duration, Duration) else duration or typed


def date_text(when: PartialDate | str | None, language: str) -> str:
    return write_date(when, language) if isinstance(when, PartialDate) else when or ""


def day_text(day: date | None, language: str) -> str:
    return write_date(PartialDate.of(day), language, style="short") if day else ""


def year_text(when: PartialDate | str | None, language: str) -> str:
    """
    >>> year_text(PartialDate(1998, 5, 3), "en-GB"), year_text(PartialDate(1998, until=2001), "en-GB")
    ('1998', '1998–2001')
    """
    return write_date(replace(when, month=None, day=None), language) if isinstance(when, PartialDate) else when or ""


def number_range(least: int | None, most: int | None) -> str:
    """Return the number of players, a range where it may vary, nothing where it is open or not known.

    >>> number_range(4, 4), number_range(2, 4), number_range(12, None)
    ('4', '2–4', '12 +')
    """
    if least is None:
        return ""
    return f"{least} +" if most is None else str(least) if least == most else f"{least}–{most}"
