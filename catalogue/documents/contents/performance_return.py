"""The performance return: what a rights society asks of a member about performances that took place.

Only public performances in the period are told. Date, place, work and duration must be known of each; where one lacks
them no return is made and the report names it. A missing ISWC stays empty and is named below the table. Titles stand
in capitals as they are registered, Greek ones without accents (common practice of registers).
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from catalogue.documents.contents.credits import performers, places
from catalogue.documents.contents.dates import date_text, day_text
from catalogue.documents.contents.history import public
from catalogue.documents.contents.performance_history import PARTS
from catalogue.documents.contents.titles import short_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Group,
    Opening,
    Pair,
    Pairs,
    Paper,
    Paragraph,
    Signatures,
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
from catalogue.facts import CatalogueFacts, ComposerFacts, PerformanceFacts, ProgrammedFacts, WorkFacts
from catalogue.rules.filing import Filing, FilingTerm, filings_of
from catalogue.rules.phrases import listed
from catalogue.terms import Extent, PerformanceKind, PerformanceStatus
from catalogue.timing import Duration, PartialDate, print_clock_time

HEADS = {
    "number": "No.",
    "date": "Date, start",
    "hall": "Hall, city, country",
    "event": "Event or series; presenter",
    "performers": "Performers",
    "work": "Work as registered; extent",
    "iswc": "ISWC",
    "duration": "Duration performed",
    "live": "Live or broadcast",
    "programme": "Programme",
}
DATA = (
    "No.", "Date", "Start", "Hall", "City", "Country", "Event", "Series", "Presenter", "Performers", "Work", "Extent",
    "ISWC", "Composer", "IPI name number", "Duration", "Live or broadcast",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Member:
    """Who reports to whom: the society, the member's number there, the day by which it is to be told; all may be
    unknown. ``terms`` are the society's deadlines, from which the day is reckoned where none is named."""

    society: str = ""
    number: str = ""
    due: date | None = None
    terms: tuple[FilingTerm, ...] = ()


@dataclass(frozen=True, slots=True)
class Playing:
    """One work in one event, its number in the return, and how long it lasted."""

    number: int
    event: PerformanceFacts
    date: PartialDate
    programmed: ProgrammedFacts
    work: WorkFacts
    duration: Duration


def performance_return(
    catalogue: CatalogueFacts,
    *,
    first: date,
    last: date,
    member: Member = Member(),
    language: str,
    paper: Paper,
    printed_on: date,
) -> Document:
    """Report the performances of a period, both days included.

    Raises DocumentNeeds where nothing took place in it, or where something lacks what a society must know.
    """
    says = labels(language)
    playings = reported(catalogue, first, last)
    composer = catalogue.composer
    title = says.word("Performance return")
    period = says.say("Performances {period}", period=value(period_text(first, last, says)))
    return Document(
        kind="performance-return",
        title=title,
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=(
            Opening(wording(title), above=period, aside=prepared(filing_of(playings, member), printed_on, says)),
            member_facts(composer, member, says),
            Table(
                tuple(Column(key, wording(says.word(head))) for key, head in HEADS.items()),
                (Group((), tuple(row(one, says) for one in playings)),),
            ),
            Paragraph(summary(playings, says), Voice.NOTE),
            Signatures(
                (
                    wording(says.word("Member or authorised agent")),
                    wording(says.word("For the society: received")),
                ),
                wording(says.word("name, signature, date")),
            ),
        ),
        running=(value(composer.name), joined((wording(title), period), ", ")),
        dated=signature_of(composer, says),
        data=data(playings, composer, says),
    )


def signature_of(composer: ComposerFacts, says: Labels) -> Text:
    """Whose return it is, on every sheet."""
    number = says.say("IPI {number}", number=composer.ipi) if composer.ipi else ()
    return joined((value(composer.name), number), ", ")


def period_text(first: date, last: date, says: Labels) -> str:
    days = (PartialDate.of(first), PartialDate.of(last))
    if days[0] == days[1]:
        return date_text(days[0], says.language)
    whole_year = (first.month, first.day, last.month, last.day) == (1, 1, 12, 31) and first.year == last.year
    if whole_year:
        return str(first.year)
    return f"{date_text(days[0], says.language)} – {date_text(days[1], says.language)}"


def filing_of(playings: tuple[Playing, ...], member: Member) -> Filing | None:
    """By which day the whole return has to be there: the one that is named, else the earliest of its performances."""
    if member.due is not None:
        return Filing(member.society, member.due)
    found = (filings_of(member.terms, day=one.date.first, country=one.event.country) for one in playings)
    return min((filing for filings in found for filing in filings), key=lambda one: one.due, default=None)


def prepared(filing: Filing | None, printed_on: date, says: Labels) -> Text:
    made = says.say("prepared {day}", day=day_text(printed_on, says.language))
    if filing is None:
        return made
    until = says.say("to reach the society by {day}", day=day_text(filing.due, says.language))
    read_on = filing.term.read_on if filing.term else None
    as_of = says.say("(as its rules stood on {day})", day=day_text(read_on, says.language)) if read_on else ()
    return joined((made, joined((until, as_of), " ")), says.semicolon)


def member_facts(composer: ComposerFacts, member: Member, says: Labels) -> Block:
    groups = (
        (("Member", joined((value(composer.name), wording(says.word("composer"))), ", ")),),
        (("IPI name no.", value(composer.ipi)), ("Society", value(member.society))),
        (("Member no.", value(member.number)),),
    )
    return Pairs(
        tuple(tuple(Pair(wording(says.word(label)), text) for label, text in group if text) for group in groups)
    )


# ---- what is reported


def reported(catalogue: CatalogueFacts, first: date, last: date) -> tuple[Playing, ...]:
    """The playings of the period in order of date. Raises DocumentNeeds, naming what lacks what."""
    works = catalogue.works_by_id()
    found: list[Playing] = []
    lacking: list[str] = []
    for event, when in events_of(catalogue, first, last):
        for programmed in event.programme:
            work = works[programmed.work_id]
            duration = programmed.duration or (work.duration if programmed.extent is Extent.COMPLETE else None)
            lacks = tuple(lacking_facts(event, when, duration))
            if lacks or duration is None:
                day = date_text(when, "en-GB")
                lacking.append(f"{work.title.title} on {day} ({listed(lacks)})")
            else:
                found.append(Playing(len(found) + 1, event, when, programmed, work, duration))
    if lacking:
        reason = f"The return cannot be made: still to be entered for {'; '.join(lacking)}."
        raise DocumentNeeds(reason, ("performances",))
    if not found:
        raise DocumentNeeds("No public performance took place in this period.", ("performances",))
    return tuple(found)


def events_of(catalogue: CatalogueFacts, first: date, last: date) -> Iterator[tuple[PerformanceFacts, PartialDate]]:
    """The public events that were given and may lie in the period, earliest first."""
    for event in sorted((one for one in catalogue.performances if one.date), key=lambda one: (one.date, one.id)):
        given = event.status is PerformanceStatus.GIVEN and public(event)
        if given and event.date and event.date.last >= first and event.date.first <= last:
            yield event, event.date


def lacking_facts(event: PerformanceFacts, when: PartialDate, duration: Duration | None) -> Iterator[str]:
    if not when.day:
        yield "the day"
    if not (event.venue or event.city or event.event_title):
        yield "the place"
    if duration is None:
        yield "the duration performed"


# ---- the table


def row(one: Playing, says: Labels) -> tuple[Cell, ...]:
    hall, city = places(one.event)
    cells: tuple[tuple[Text, ...], ...] = (
        (wording(str(one.number)),),
        (value(date_text(one.date, says.language, "short")), value(start_text(one, says))),
        (hall, joined((city, value(one.event.country)), ", ")),
        (value(one.event.series or one.event.event_title), value(one.event.presenter)),
        (performers(one.event, says, sentence=False),),
        (registered_title(one.work), extent(one, says)),
        (value(one.work.iswc),),
        (value(primes(one.duration)),),
        (on_air(one, says),),
        (),
    )
    return tuple(Cell(tuple(line for line in lines if line)) for lines in cells)


def start_text(one: Playing, says: Labels) -> str:
    return print_clock_time(one.event.time, says.language) if one.event.time else ""


def primes(duration: Duration) -> str:
    """Minutes and seconds of a duration as performed.

    >>> primes(Duration(1300))
    '21′40″'
    """
    minutes, seconds = divmod(duration.seconds, 60)
    return f"{minutes}′{seconds:02}″"


def on_air(one: Playing, says: Labels) -> Text:
    return wording(says.word("broadcast" if one.event.kind is PerformanceKind.BROADCAST else "live"))


def extent(one: Playing, says: Labels) -> Text:
    if one.programmed.part:
        return value(one.programmed.part)
    return wording(says.word(PARTS.get(one.programmed.extent, "complete")))


def registered_title(work: WorkFacts) -> Text:
    """The title in its own script."""
    return tuple(
        run._replace(text=registered(run.text), style=Style.PLAIN, instead=run.instead and registered(run.instead))
        for run in short_title(work.title)
    )


def registered(title: str) -> str:
    """A title in capitals; Greek without accents.

    >>> registered("Mélange"), registered("Μέλη της αυλής")
    ('MÉLANGE', 'ΜΕΛΗ ΤΗΣ ΑΥΛΗΣ')
    """
    capitals = title.upper()
    if any("GREEK" in unicodedata.name(sign, "") for sign in capitals):
        bare = (sign for sign in unicodedata.normalize("NFD", capitals) if not unicodedata.combining(sign))
        return unicodedata.normalize("NFC", "".join(bare))
    return capitals


# ---- what is said below, and for a spreadsheet


def summary(playings: tuple[Playing, ...], says: Labels) -> Text:
    number = says.count("{n} performance", "{n} performances", len(playings), spelled=True)
    countries = len({one.event.country for one in playings if one.event.country})
    where = says.count("in {n} country", "in {n} countries", countries, spelled=True) if countries else ""
    told = joined((wording(number[:1].upper() + number[1:]), wording(where)), " ")
    sentences: list[Text] = [(*told, *wording("."))]
    sentences.append(wording(says.word("Date and start are local to the hall.")))
    if any(one.programmed.duration is None for one in playings):
        note = "Where no duration was taken, that of the score is given."
    else:
        note = "Durations are as performed, without breaks between movements."
    sentences.append(wording(says.word(note)))
    without = sorted({one.work.title.title for one in playings if not one.work.iswc})
    if without:
        listed = says.listed(tuple(value(title) for title in without))
        sentences.append(says.say("Without an ISWC in the records: {works}.", works=listed))
    sentences.append(wording(says.word("I declare that these particulars are complete to the best of my knowledge.")))
    return joined(tuple(sentences), " ")


def data(playings: tuple[Playing, ...], composer: ComposerFacts, says: Labels) -> Table:
    """One row a playing, one fact a column, dates and times as ISO 8601, durations in seconds."""
    columns = tuple(Column(head.casefold(), wording(says.word(head))) for head in DATA)
    told = (facts_of(one, composer, says) for one in playings)
    rows = tuple(tuple(Cell((value(text),) if text else ()) for text in texts) for texts in told)
    return Table(columns, (Group((), rows),))


def facts_of(one: Playing, composer: ComposerFacts, says: Labels) -> tuple[str, ...]:
    hall, city = map(plain, places(one.event))
    return (
        str(one.number),
        one.date.first.isoformat(),
        f"{one.event.time:%H:%M}" if one.event.time else "",
        hall,
        city,
        one.event.country,
        one.event.event_title,
        one.event.series,
        one.event.presenter,
        plain(performers(one.event, says, sentence=False)),
        one.work.title.title,
        plain(extent(one, says)),
        one.work.iswc,
        composer.name,
        composer.ipi,
        str(one.duration.seconds),
        plain(on_air(one, says)),
    )
