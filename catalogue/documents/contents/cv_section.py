"""Sections for a composer's CV: selected works, commissions, performances, recordings, each only if it has lines.

Everything falls by year. The head of a section says what the selection is part of, so that a committee can
check it. A claim that incomplete records cannot prove ends in "in these records"; what is still to come is
said to be forthcoming.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from catalogue.documents.contents.claims import claim_of
from catalogue.documents.contents.credits import body, performers, places, run_dates
from catalogue.documents.contents.dates import dated, day_text, last_year
from catalogue.documents.contents.forces import described
from catalogue.documents.contents.history import Claims, Hearing, hearings
from catalogue.documents.contents.selection import (
    Chosen,
    Style,
    duration_text,
    latest_first,
    listed_works,
    mostly_approximate,
)
from catalogue.documents.contents.titles import full_title, short_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Document,
    Line,
    Lines,
    Opening,
    Paper,
    Section,
    Text,
    joined,
    plain,
    value,
    wording,
)
from catalogue.facts import CatalogueFacts, RecordingFacts, WorkFacts
from catalogue.record_facts import AwardFacts
from catalogue.terms import PerformanceKind, PerformanceStatus
from catalogue.timing import PartialDate

DURATIONS: dict[str, Style] = {"en-US": "words"}
"""How a line says a duration where it is not in primes: American lists write minutes out (common practice)."""

NEVER = PartialDate(1000)
RUN_DAYS = 31
"""Performances of one production no farther apart than this are one line (common practice)."""


@dataclass(frozen=True, slots=True)
class Vita:
    """What every section of one CV is told."""

    catalogue: CatalogueFacts
    works: dict[int, WorkFacts]
    heard: tuple[Hearing, ...]
    choice: Chosen
    printed_on: date
    says: Labels
    awards: tuple[AwardFacts, ...] = ()

    @property
    def chosen(self) -> tuple[WorkFacts, ...]:
        works = (work for work in self.works.values() if self.choice.takes(dated(work), work))
        return tuple(sorted(works, key=latest_first))


def cv_section(
    catalogue: CatalogueFacts,
    *,
    choice: Chosen,
    language: str,
    paper: Paper,
    printed_on: date,
    claims: Claims,
    awards: tuple[AwardFacts, ...] = (),
) -> Document:
    """Tell a composer's works, commissions, performances, recordings and awards in lines, for what is chosen."""
    says = labels(language)
    works = {work.id: work for work in listed_works(catalogue)}
    heard = tuple(one for key, found in hearings(catalogue, claims).items() if key in works for one in found)
    vita = Vita(catalogue, works, heard, choice, printed_on, says, awards)
    sections = tuple(section for make in SECTIONS for section in make(vita))
    composer = catalogue.composer
    contact = joined((value(composer.email, exact=True), value(composer.telephone)), "\N{EM SPACE}")
    return Document(
        kind="cv-section",
        title=composer.name,
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=(Opening(value(composer.name), subtitle=wording(says.word("composer")), aside=contact), *sections),
        running=(value(composer.name), wording(running_head(sections, says))),
        dated=says.say("To {date}", date=day_text(printed_on, says.language)),
        left_out=left_out(vita, sections) if choice.most is not None else (),
    )


def left_out(vita: Vita, sections: tuple[Section, ...]) -> Text:
    """What a limit of lines has kept off, section by section."""
    says = vita.says
    whole = replace(vita, choice=replace(vita.choice, most=None))
    lost = [
        says.say("{n} under {head}", n=str(lines_in(full) - lines_in(shown)), head=shown.head)
        for full, shown in zip((one for make in SECTIONS for one in make(whole)), sections, strict=True)
        if lines_in(full) > lines_in(shown)
    ]
    return says.say("Left out, the oldest first: {lines}.", lines=says.listed(tuple(lost))) if lost else ()


def lines_in(section: Section) -> int:
    return sum(len(block.lines) for block in section.blocks if isinstance(block, Lines))


def running_head(sections: tuple[Section, ...], says: Labels) -> str:
    """Works · Commissions · Performances: the sections by their short names."""
    heads = {plain(section.head) for section in sections}
    names = (
        ("Works", "Selected works"),
        ("Commissions",),
        ("Performances", "Selected performances"),
        ("Recordings",),
        ("Awards",),
    )
    return " · ".join(says.word(one[0]) for one in names if heads & set(map(says.word, one)))


def section(head: str, aside: Text, lines: tuple[Line, ...], says: Labels) -> tuple[Section, ...]:
    return (Section(wording(says.word(head)), (Lines(lines),), aside),) if lines else ()


def year_label(year: int | None, says: Labels) -> str:
    return str(year) if year else says.word("undated")


# ---- works


def works_section(vita: Vita) -> tuple[Section, ...]:
    chosen, all_works, says = vita.chosen[: vita.choice.most], len(vita.works), vita.says
    approximate = mostly_approximate(chosen)
    lines = tuple(Line(year_label(last_year(work), says), work_line(work, says, approximate)) for work in chosen)
    part = says.count("{n} work", "{n} works", all_works)
    selected = len(chosen) < all_works
    share = says.say("{some} of {all}", some=str(len(chosen)), all=part) if selected else ()
    aside = joined((share, wording(says.word("durations approximate") if approximate else "")), says.semicolon)
    return section("Selected works" if selected else "Works", aside, lines, says)


def work_line(work: WorkFacts, says: Labels, approximate: bool) -> Text:
    """Title, forces, duration, publisher: what it is for follows the title without a comma."""
    title = full_title(work.title, in_sentence=True)
    told = described(work, says)
    link = " " if plain(told).startswith(says.word("for {forces}").partition("{")[0]) else ", "
    named = joined((title, told), link)
    style = DURATIONS.get(says.language, "primes")
    duration = duration_text(work, says, approximate_list=approximate, style=style)
    sentence = joined((named, duration), ", ")
    return joined((sentence, value(work.publisher)), ". ")


# ---- commissions


def commissions_section(vita: Vita) -> tuple[Section, ...]:
    says = vita.says
    works = tuple(work for work in vita.chosen if work.commissions)
    works = works[: vita.choice.most]
    lines = tuple(Line(year_label(last_year(work), says), commission_line(work, says)) for work in works)
    funded = any(one.funder for work in works for one in work.commissions)
    aside = wording(says.word("funder named where there is one")) if funded else ()
    return section("Commissions", aside, lines, says)


def commission_line(work: WorkFacts, says: Labels) -> Text:
    bodies = says.listed(tuple(body(one) for one in work.commissions))
    funders = tuple(dict.fromkeys(one.funder for one in work.commissions if one.funder))
    funded = says.say("funded by {funders}", funders=says.listed(tuple(value(name) for name in funders)))
    joint = wording(f" ({says.word('co-commission')})") if len(work.commissions) > 1 else ()
    who = joined(((*bodies, *joint), funded if funders else ()), ", ")
    return says.say("{who}: {work}", who=who, work=short_title(work.title))


# ---- performances


def performances_section(vita: Vita) -> tuple[Section, ...]:
    chosen = [one for one in vita.heard if vita.choice.takes(one.date, vita.works[one.programmed.work_id])]
    runs = sorted(runs_of(chosen), key=lambda run: (run[0].date, run[0].programmed.id), reverse=True)
    runs = runs[: vita.choice.most]
    chosen = [one for run in runs for one in run]
    lines = tuple(Line(str(run[0].date.year), performance_line(run, vita)) for run in runs)
    selected = len(chosen) < len(vita.heard)
    return section("Selected performances" if selected else "Performances", how_many(chosen, vita), lines, vita.says)


def how_many(chosen: list[Hearing], vita: Vita) -> Text:
    """13 of 61 performances in 14 countries."""
    says = vita.says
    countries = {one.performance.country for one in vita.heard if one.performance.country}
    number = says.count("{n} performance", "{n} performances", len(vita.heard))
    selected = len(chosen) < len(vita.heard)
    part = says.say("{some} of {all}", some=str(len(chosen)), all=number) if selected else wording(number)
    if len(countries) < 2:
        return part
    return says.say("{part} in {n} countries", part=part, n=str(len(countries)))


def runs_of(heard: list[Hearing]) -> list[tuple[Hearing, ...]]:
    """Hearings of one work by the same people in the same place, each close to the one before it."""
    runs: list[tuple[Hearing, ...]] = []
    for _same, group in groupby(sorted(heard, key=production), key=production):
        for one in group:
            close = runs and production(runs[-1][-1]) == production(one) and follows(runs[-1][-1], one)
            if close:
                runs[-1] = (*runs[-1], one)
            else:
                runs.append((one,))
    return runs


def production(one: Hearing) -> tuple[object, ...]:
    event = one.performance
    people = tuple(sorted((person.role, person.name) for person in event.performers))
    place = (event.venue.name if event.venue else "", event.city, event.kind)
    return (one.programmed.work_id, one.programmed.extent, one.programmed.part, people, place, coming(one))


def coming(one: Hearing) -> bool:
    return one.performance.status is PerformanceStatus.CONFIRMED


def follows(earlier: Hearing, later: Hearing) -> bool:
    return earlier.date.year == later.date.year and (later.date.first - earlier.date.last).days <= RUN_DAYS


def performance_line(run: tuple[Hearing, ...], vita: Vita, *, says_coming: bool = True) -> Text:
    """Work: performers, hall, city, dates (claim); what is to come says so, unless the head of the list does."""
    says, first = vita.says, run[0]
    work = vita.works[first.programmed.work_id]
    title = joined((short_title(work.title), value(first.programmed.part)), ", ")
    who = performers(first.performance, says, sentence=False)
    on_air = wording(says.word("broadcast")) if first.performance.kind is PerformanceKind.BROADCAST else ()
    event = joined((who, *places(first.performance), on_air, run_dates(run, says)), ", ")
    coming = forthcoming(run, vita) if says_coming else ()
    remarks = joined((coming, claim_of(run, says)), says.semicolon)
    bracket = (*wording(" ("), *remarks, *wording(")")) if remarks else ()
    return (*says.say("{work}: {event}", work=title, event=event), *bracket)


def forthcoming(run: tuple[Hearing, ...], vita: Vita) -> Text:
    return wording(vita.says.word("forthcoming")) if run[-1].date.first > vita.printed_on else ()


# ---- recordings


def recordings_section(vita: Vita) -> tuple[Section, ...]:
    chosen = [
        one
        for one in vita.catalogue.recordings
        if one.work_id in vita.works and vita.choice.takes(one.released, vita.works[one.work_id])
    ]
    chosen.sort(key=lambda one: (-(one.released.year if one.released else 0), one.work_id, one.number))
    lines = tuple(
        Line(year_label(one.released.year if one.released else None, vita.says), recording_line(one, vita))
        for one in chosen[: vita.choice.most]
    )
    return section("Recordings", (), lines, vita.says)


def recording_line(one: RecordingFacts, vita: Vita) -> Text:
    """Work: performers. Label and number."""
    title = short_title(vita.works[one.work_id].title)
    by = vita.says.say("{work}: {event}", work=title, event=one.performers) if one.performers else title
    issue = joined((value(one.label), value(one.number)), " ")
    return joined((by, issue), ". ")


# ---- awards


def awards_section(vita: Vita) -> tuple[Section, ...]:
    """Prizes and distinctions, with the work they were for."""
    found = [one for one in vita.awards if is_chosen(one, vita)]
    found.sort(key=lambda one: (one.date or NEVER, one.id), reverse=True)
    lines = tuple(
        Line(year_label(one.date.year if one.date else None, vita.says), award_line(one, vita))
        for one in found[: vita.choice.most]
    )
    return section("Awards", (), lines, vita.says)


def is_chosen(award: AwardFacts, vita: Vita) -> bool:
    """Whether an award falls into the range, and is for a chosen work where any are named."""
    if award.work_id is not None:
        return award.work_id in vita.works and vita.choice.takes(award.date, vita.works[award.work_id])
    return vita.choice.works is None and vita.choice.lies_in(award.date)


def award_line(award: AwardFacts, vita: Vita) -> Text:
    """Name, result, by whom, where: for which work."""
    told = (award.name, award.result, award.given_by, award.place)
    line = joined(tuple(value(text) for text in told if text), ", ")
    work = vita.works.get(award.work_id) if award.work_id is not None else None
    return vita.says.say("{who}: {work}", who=line, work=short_title(work.title)) if work else line


SECTIONS: tuple[Callable[[Vita], tuple[Section, ...]], ...] = (
    works_section,
    commissions_section,
    performances_section,
    recordings_section,
    awards_section,
)
