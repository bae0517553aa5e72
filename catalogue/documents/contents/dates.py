"""Dates as documents print them: one day, several days of one month, a span, a year beside an entry."""

from __future__ import annotations

from datetime import date
from typing import Literal

from catalogue.facts import WorkFacts
from catalogue.timing import PartialDate, write_date

NO_BREAK = "\N{NO-BREAK SPACE}"
Style = Literal["long", "short"]


def date_text(when: PartialDate, language: str, style: Style = "long") -> str:
    """A date as the language prints it, held together by no-break spaces."""
    return write_date(when, language, style=style).replace(" ", NO_BREAK)


def day_text(day: date, language: str) -> str:
    """A day as the language prints it, held together by no-break spaces."""
    return date_text(PartialDate.of(day), language)


def span_text(days: tuple[PartialDate, ...], language: str, until: str, also: str) -> str:
    """Several dates in one line: 16 and 17 May 2026; 12 to 19 June 2021; otherwise first and last in full.

    ``days`` are in order; ``until`` and ``also`` are the language's words for *to* and *and*.
    """
    first, last = days[0], days[-1]
    link = also if len(days) == 2 else until
    if first == last:
        return date_text(first, language)
    if first.day and last.day and (first.year, first.month) == (last.year, last.month):
        return within_month(first, last, language, link)
    return f"{date_text(first, language)} {link} {date_text(last, language)}"


def within_month(first: PartialDate, last: PartialDate, language: str, link: str) -> str:
    """Two days of one month, the month said once: 16 and 17 May 2026; May 16 and 17, 2026; 16. und 17. Mai 2026."""
    written, day = date_text(last, language), str(last.day)
    place = written.index(day)
    mark = "." if written.startswith(f"{day}.", place) else ""
    return f"{written[:place]}{first.day}{mark} {link}{NO_BREAK}{written[place:]}"


def dated(work: WorkFacts) -> PartialDate | None:
    """The date by which a list sorts a work: of completion, else of what is known."""
    return work.completed or work.begun or work.published


def last_year(work: WorkFacts) -> int | None:
    """The year in which a work was completed, the last of a span; ``None`` where that is not known."""
    when = dated(work)
    return (when.until or when.year) if when else None


def first_year(work: WorkFacts) -> int | None:
    """The year in which a work was begun, as far as that is known."""
    when = work.begun or dated(work)
    return when.year if when else None


def year_text(work: WorkFacts, undated: str) -> str:
    """The year of a work, a span from beginning to completion, or the word for *undated*."""
    first, last = first_year(work), last_year(work)
    if first is None or last is None:
        return undated
    when = dated(work)
    circa = f"c.{NO_BREAK}" if when and when.circa else ""
    return f"{circa}{last}" if first == last else f"{circa}{first}–{short_year(first, last)}"


def short_year(first: int, last: int) -> str:
    """The end of a span without a century that is the same: 2011–22, 1998–2001."""
    return f"{last % 100:02}" if first // 100 == last // 100 else str(last)
