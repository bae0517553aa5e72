"""Performances counted by the year, by the country and by the coming month, each count with its bar."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from babel import Locale
from babel.dates import format_date
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from catalogue.drawings.bars import bar, to_svg
from catalogue.gathering.statistics import Held
from catalogue.web.pictures import drawn
from catalogue.web.places import write_country

MONTHS = 12


@dataclass(frozen=True, slots=True)
class Tally:
    """A row: its name, what a list is asked for to find them, how many were and are to come, and the bar."""

    name: str
    asked: str
    past: int
    coming: int
    bar: SafeString

    @property
    def figure(self) -> str:
        """The number, with those to come told apart."""
        if self.past and self.coming:
            return f"{self.past} + {self.coming}"
        return str(self.past or self.coming)


Counts = dict[str, Counter[bool]]


def by_year(performances: Iterable[Held], *, gaps: bool = True) -> tuple[Tally, ...]:
    """Return a row a year from the first to the last, with ``gaps`` years without any among them."""
    found: Counts = {}
    for one in performances:
        if one.day:
            found.setdefault(str(one.day.year), Counter())[one.is_to_come] += one.number
    years = sorted(int(year) for year in found)
    every = range(years[0], years[-1] + 1) if years and gaps else years
    return rows((str(year), f"?since={year}&until={year}", found.get(str(year), Counter())) for year in every)


def by_country(performances: Iterable[Held]) -> tuple[Tally, ...]:
    """Return a row a country, that with most performances first; what names no country stands last."""
    found: Counts = {}
    for one in performances:
        found.setdefault(one.country, Counter())[one.is_to_come] += one.number
    in_order = sorted(found, key=lambda code: (not code, -found[code].total(), write_country(code)))
    return rows(
        (write_country(code) or _("country not known"), f"?country={code}" if code else "", found[code])
        for code in in_order
    )


def by_coming_month(performances: Iterable[Held], *, today: date, language: str) -> tuple[Tally, ...]:
    """Return a row for this month and each of the eleven after it: the year ahead."""
    found = Counter[tuple[int, int]]()
    for one in performances:
        if one.day and one.is_to_come:
            found[one.day.year, one.day.month] += one.number
    months = [divmod(today.year * 12 + today.month - 1 + number, 12) for number in range(MONTHS)]
    locale = Locale.parse(language, sep="-")
    return rows(
        (str(format_date(date(year, month + 1, 1), "LLLL y", locale)), "", Counter({True: found[year, month + 1]}))
        for year, month in months
    )


def rows(counted: Iterable[tuple[str, str, Counter[bool]]]) -> tuple[Tally, ...]:
    found = list(counted)
    most = max((each.total() for _name, _asked, each in found), default=0)
    return tuple(
        Tally(name, asked, each[False], each[True], drawn(to_svg(bar(each[False], each[True], most))))
        for name, asked, each in found
    )
