"""What a performance history adds up to, as rows with bars for a page and as tables to take along."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.statistics import gather_listed, gather_played
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Composer
from catalogue.rules.phrases import listed
from catalogue.rules.statistics import (
    Sum,
    WorkSum,
    by_country,
    by_ensemble,
    by_work,
    by_year,
    never_played,
    not_played_for,
    programmed_again,
)
from catalogue.timing import PartialDate
from catalogue.web.places import write_country
from catalogue.web.tallies import Tally, rows
from catalogue.web.wording import date_text

SHOWN = 25  # rows of a list on the page; the file holds all
TABLE_ROWS = 100
YEARS_OFFERED = (2, 3, 5, 10)


@dataclass(frozen=True, slots=True)
class Figures:
    """Everything that was added up."""

    years: tuple[Sum, ...]
    countries: tuple[Sum, ...]
    ensembles: tuple[Sum, ...]
    works: tuple[WorkSum, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """A work on the page with what is told beside it."""

    id: int
    title: str
    told: str


@dataclass(frozen=True, slots=True)
class Table:
    """One of the tables in the words of the page, each cell with its head; ``more`` counts the rows left out."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[tuple[str, str], ...], ...]
    more: int


@dataclass(frozen=True, slots=True)
class StatisticsPage:
    """``summary`` is the whole in a sentence; ``more`` counts what a list leaves out."""

    summary: str
    unknown: int
    years: tuple[Tally, ...]
    countries: tuple[Tally, ...]
    ensembles: tuple[Tally, ...]
    returned: str
    works: tuple[Tally, ...]
    never: tuple[Row, ...]
    silent: tuple[Row, ...]
    again: tuple[Row, ...]
    again_summary: str
    more: dict[str, int]
    tables: tuple[Table, ...]


def figures_of(composer: Composer, *, today: date) -> Figures:
    """Add up a catalogue; one query while nothing changes."""
    return figures_at(state_of_lists([composer.pk]), composer, today)


@once_for_each_state(16)
def figures_at(_state: State, composer: Composer, today: date) -> Figures:
    played = tuple(gather_played(composer, today=today))
    return Figures(by_year(played), by_country(played), by_ensemble(played), by_work(gather_listed(composer), played))


def statistics_page(composer: Composer, *, years: int, today: date, language: str) -> StatisticsPage:
    found = figures_of(composer, today=today)
    never, silent = never_played(found.works), not_played_for(found.works, years, today=today)
    again = programmed_again(found.works)
    played = [one for one in found.works if one.events]
    lists = {
        "ensembles": found.ensembles, "works": played, "never": never, "silent": silent, "again": again,
    }  # fmt: skip
    return StatisticsPage(
        summary=summed(found),
        unknown=sum(one.unknown for one in found.years),
        years=rows((one.name, f"?since={one.name}&until={one.name}", minutes(one)) for one in found.years),
        countries=rows(
            (write_country(one.name) or _("country not known"), f"?country={one.name}", minutes(one, coming=False))
            for one in found.countries
        ),
        ensembles=rows((one.name, "", Counter({False: one.events})) for one in found.ensembles[:SHOWN]),
        returned=returned_text(found.ensembles),
        works=rows((one.work.title, "", Counter({False: one.events})) for one in played[:SHOWN]),
        never=tuple(row(one, coming_text(one)) for one in never[:SHOWN]),
        silent=tuple(row(one, last_text(one, language)) for one in silent[:SHOWN]),
        again=tuple(row(one, again_text(one)) for one in again[:SHOWN]),
        again_summary=again_summary(played, again),
        more={name: max(0, len(each) - SHOWN) for name, each in lists.items()},
        tables=tuple(table_shown(found, name, language) for name in TABLES),
    )


def minutes(one: Sum, *, coming: bool = True) -> Counter[bool]:
    return Counter({False: one.minutes, True: one.coming_minutes if coming else 0})


def row(one: WorkSum, told: str) -> Row:
    return Row(one.work.id, one.work.title, told)


# ---- in words


def summed(found: Figures) -> str:
    total = sum(one.seconds for one in found.years)
    events = sum(one.events for one in found.years)
    if not events:
        return _("Nothing has been played yet")
    told = ngettext("One performance", "%(number)s performances", events) % {"number": events}
    countries = sum(bool(one.name) for one in found.countries)
    where = ngettext("in one country", "in %(number)s countries", countries) % {"number": countries}
    lasting = _("%(time)s of music") % {"time": hours_and_minutes((total + 30) // 60)} if total else ""
    return ", ".join(part for part in (told, lasting, where if countries else "") if part)


def hours_and_minutes(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    told = [ngettext("one hour", "%(number)s hours", hours) % {"number": hours}] if hours else []
    if rest or not hours:
        told.append(ngettext("one minute", "%(number)s minutes", rest) % {"number": rest})
    return listed(told)


def returned_text(ensembles: Sequence[Sum]) -> str:
    """Say how many ensembles played in more than one year."""
    back = sum(one.years > 1 for one in ensembles)
    told = ngettext("One of %(all)s came back", "%(number)s of %(all)s came back", back)
    return told % {"number": back, "all": len(ensembles)}


def coming_text(one: WorkSum) -> str:
    return _("to come") if one.coming else (str(one.work.since) if one.work.since else "")


def last_text(one: WorkSum, language: str) -> str:
    return date_text(PartialDate.of(one.last), language) if one.last else ""


def again_text(one: WorkSum) -> str:
    days = one.again or 0
    if days < 60:
        return ngettext("%d day later", "%d days later", days) % days
    months = round(days / 30.44)
    if months < 24:
        return ngettext("%d month later", "%d months later", months) % months
    return ngettext("%d year later", "%d years later", months // 12) % (months // 12)


def again_summary(played: Sequence[WorkSum], again: Sequence[WorkSum]) -> str:
    if not played:
        return _("No work has been played yet.")
    told = ngettext(
        "Of one work that was played, %(again)s was played again.",
        "Of %(played)s works that were played, %(again)s were played again.",
        len(played),
    )
    return told % {"played": len(played), "again": len(again) or _("none")}


# ---- as tables


def table_of(found: Figures, name: str) -> list[list[str]]:
    """Return header and rows of a table: years, countries, ensembles or works. Raises KeyError for another name."""
    if name == "works":
        return [WORK_HEADS, *([str(cell) for cell in work_cells(one)] for one in found.works)]
    sums = {"years": found.years, "countries": found.countries, "ensembles": found.ensembles}[name]
    return [[*HEADS[name], *SUM_HEADS], *([str(cell) for cell in sum_cells(one)] for one in sums)]


HEADS = {"years": ("year",), "countries": ("country",), "ensembles": ("ensemble",)}
SUM_HEADS = ("performances", "works", "minutes", "length not known", "minutes to come", "first", "last", "years")
WORK_HEADS = ["work", "completed", "performances", "to come", "minutes", "first", "last", "days until played again"]


TABLES = (*HEADS, "works")


def table_shown(found: Figures, name: str, language: str) -> Table:
    """Return a table as the page shows it: countries by their names, days in words."""
    keys, *cells = table_of(found, name)
    heads = tuple(key[:1].upper() + key[1:] for key in keys)
    shown = (
        tuple(cell_shown(key, cell, language) for key, cell in zip(keys, row, strict=True))
        for row in cells[:TABLE_ROWS]
    )
    rows_shown = tuple(tuple(zip(row, heads, strict=True)) for row in shown)
    return Table(name, heads, rows_shown, max(0, len(cells) - TABLE_ROWS))


def cell_shown(head: str, cell: str, language: str) -> str:
    if head == "country":
        return write_country(cell) or _("country not known")
    return date_text(PartialDate.of(date.fromisoformat(cell)), language) if head in ("first", "last") and cell else cell


def sum_cells(one: Sum) -> tuple[object, ...]:
    days = (one.first or "", one.last or "")
    return (one.name, one.events, one.works, one.minutes, one.unknown, one.coming_minutes, *days, one.years)


def work_cells(one: WorkSum) -> tuple[object, ...]:
    days = (one.first or "", one.last or "")
    again = "" if one.again is None else one.again
    return (one.work.title, one.work.since or "", one.events, one.coming, one.minutes, *days, again)
