"""How values read in a line or a cell of a page; what is not known is empty, what cannot be read stands as typed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from django.utils.translation import get_language
from django.utils.translation import gettext_lazy as _

from catalogue.instrumentation import Instrumentation
from catalogue.timing import Duration, PartialDate, write_date, write_duration

SPELLED_OTHERWISE = (_("Octophonic, front centre"),)
"""Words of lists that Americans spell otherwise, beside those that stand elsewhere in pages."""


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
    """Return a date as its record knows it; one that cannot be read stands as typed."""
    return write_date(when, language) if isinstance(when, PartialDate) else when or ""


def day_text(day: date | None, language: str) -> str:
    """Return a day in its short form; nothing where there is none."""
    return write_date(PartialDate.of(day), language, style="short") if day else ""


def year_text(when: PartialDate | str | None, language: str) -> str:
    """
    >>> year_text(PartialDate(1998, 5, 3), "en-GB"), year_text(PartialDate(1998, until=2001), "en-GB")
    ('1998', '1998–2001')
    """
    return write_date(replace(when, month=None, day=None), language) if isinstance(when, PartialDate) else when or ""


def players_text(found: Instrumentation | None) -> str:
    """Return how many play, a range where it may vary, and whether anybody sings; nothing where nothing is known.

    >>> from catalogue.instrumentation import read
    >>> [players_text(read(text)) for text in ("2vn.va.vc", "2-4 perc", "2.2.2.2 – str", "SATB choir, org", "S, pf")]
    ['4', '2–4', '8 and more', '1 + choir', '1 + voice']
    """
    if found is None:
        return ""
    least, most = found.players or found.counted
    number = str(least) if least == most else f"{least}–{most}"
    open_number = f"{number} and more" if most else "open"
    playing = number if found.players else open_number
    return " + ".join(each for each in (playing if playing != "0" else "", singing(found)) if each)


def singing(found: Instrumentation) -> str:
    sung = [line for line in found.lines if line.family == "voice" and line.instrument != "narrator"]
    if any(line.instrument.startswith("choir") for line in sung):
        return "choir"
    number = sum(line.players[1] if line.players else 2 for line in sung)
    return "" if not sung else "voice" if number == 1 else "voices"
