"""The performance history: every public performance of one work, or of all, latest first, with who played and where.

What was cancelled, private or a rehearsal is left out; what is still to come is said to be. A claim that incomplete
records cannot prove ends in "in these records".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from catalogue.documents.contents.claims import claim_of
from catalogue.documents.contents.credits import performers, places
from catalogue.documents.contents.dates import date_text, day_text
from catalogue.documents.contents.history import Claims, Hearing, hearings
from catalogue.documents.contents.letterhead import letterhead
from catalogue.documents.contents.selection import Chosen, listed_works
from catalogue.documents.contents.titles import short_title, work_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Group,
    Opening,
    Paper,
    Paragraph,
    Style,
    Table,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.terms import Extent, PerformanceKind

PARTS = {Extent.PARTIAL: "in part", Extent.EXCERPT: "excerpt", Extent.SUITE: "suite"}


@dataclass(frozen=True, slots=True)
class Telling:
    """What every row is told: the works by id, the only one if the history is of one, the day, the language."""

    works: Mapping[int, WorkFacts]
    only: WorkFacts | None
    printed_on: date
    says: Labels


def performance_history(
    catalogue: CatalogueFacts,
    *,
    choice: Chosen,
    language: str,
    paper: Paper,
    printed_on: date,
    claims: Claims,
) -> Document:
    """Tell the performances of the chosen works between two days; raises DocumentNeeds where there are none."""
    says = labels(language)
    works = told_works(catalogue, choice)
    heard = tuple(
        one
        for work, found in hearings(catalogue, claims).items()
        for one in found
        if work in works and choice.takes(one.date, works[one.programmed.work_id])
    )
    if not heard:
        raise DocumentNeeds("No public performance is recorded for what was asked.", ("performances",))
    only = works[next(iter(choice.works))] if choice.works and len(choice.works) == 1 else None
    telling = Telling(works, only, printed_on, says)
    kind = says.word("Performance history")
    title = work_title(only) if only else wording(kind)
    subtitle = (*wording(kind if only else ""), *wording(": " if only else ""), *counted(heard, telling))
    head = letterhead(catalogue.composer)
    return Document(
        kind="performance-history",
        title=f"{only.title.title}: {kind}" if only else kind,
        author=catalogue.composer.name,
        language=says.language,
        paper=paper,
        blocks=(Opening(title, value(catalogue.composer.name), subtitle, letterhead=head), *table(heard, telling)),
        running=(
            joined((value(catalogue.composer.name), value(plain(short_title(only.title)) if only else "")), ", "),
            wording(kind),
        ),
        dated=says.say("To {date}", date=day_text(printed_on, says.language)),
    )


def told_works(catalogue: CatalogueFacts, choice: Chosen) -> dict[int, WorkFacts]:
    """The works on public lists, and one that is not where it is named."""
    named = choice.works or frozenset()
    listed = {work.id for work in listed_works(catalogue)}
    return {work.id: work for work in catalogue.works if work.id in listed or work.id in named}


def counted(heard: tuple[Hearing, ...], telling: Telling) -> Text:
    """How many performances, of how many works, in how many countries, in which years."""
    says = telling.says
    works = {one.programmed.work_id for one in heard}
    countries = {one.performance.country for one in heard if one.performance.country}
    years = sorted({one.date.year for one in heard})
    span = str(years[0]) if len(years) == 1 else f"{years[0]}–{years[-1]}"
    parts = (
        says.count("{n} performance", "{n} performances", len(heard)),
        "" if telling.only else says.count("{n} work", "{n} works", len(works)),
        says.count("{n} country", "{n} countries", len(countries)) if countries else "",
        span,
    )
    return joined(tuple(wording(part) for part in parts if part), ", ")


def table(heard: tuple[Hearing, ...], telling: Telling) -> tuple[Block, ...]:
    says = telling.says
    columns = (
        Column("title", wording(says.word("Performers" if telling.only else "Work and performers"))),
        Column("place", wording(says.word("Place"))),
        Column("first", wording(says.word("Date"))),
    )
    latest = sorted(heard, key=lambda one: (one.date, one.performance.id, one.programmed.id), reverse=True)
    groups = tuple(
        Group(wording(str(year)), tuple(row(one, telling) for one in found))
        for year, found in groupby(latest, key=lambda one: one.date.year)
    )
    note = says.word("Public performances; those with an incomplete work say so.")
    return (Table(columns, groups), Paragraph(wording(note), Voice.CLOSING))


def row(one: Hearing, telling: Telling) -> tuple[Cell, ...]:
    says = telling.says
    country = says.locale.territories.get(one.performance.country, one.performance.country)
    hall, city = places(one.performance)
    where = (hall, joined((city, value(country)), ", "))
    return (
        Cell(who_and_what(one, telling)),
        Cell(tuple(line for line in where if line)),
        Cell((value(date_text(one.date, says.language, "short")), *remarks(one, telling))),
    )


def who_and_what(one: Hearing, telling: Telling) -> tuple[Text, ...]:
    """The work with what was played of it, and who played; of one work who played and how much."""
    says = telling.says
    who = performers(one.performance, says, sentence=False) or value(one.performance.event_title)
    part = extent(one, says)
    if telling.only:
        lines: tuple[Text, ...] = (who, part)
    else:
        work = telling.works[one.programmed.work_id]
        lines = (joined((short_title(work.title), part), ", "), who)
    return tuple(line for line in lines if line)


def extent(one: Hearing, says: Labels) -> Text:
    if one.programmed.part:
        return value(one.programmed.part)
    word = PARTS.get(one.programmed.extent)
    return wording(says.word(word)) if word else ()


def remarks(one: Hearing, telling: Telling) -> tuple[Text, ...]:
    """That it was a broadcast or is to come, and what it was the first of."""
    says = telling.says
    on_air = says.word("broadcast") if one.performance.kind is PerformanceKind.BROADCAST else ""
    coming = says.word("forthcoming") if one.date.first > telling.printed_on else ""
    told = joined((wording(on_air), wording(coming), claim_of((one,), says)), ", ")
    return (value(plain(told), Style.EMPHASIS),) if told else ()
