"""The works list, by category or by year.

By category every work is told in full; by year in two lines. Withdrawn and juvenile works are left
off, what is not known is left out. A span of years stands under its last year by category and under its
first by year.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import groupby
from typing import Literal

from catalogue.documents.contents.credits import broadcast, history_lines
from catalogue.documents.contents.dates import date_text, day_text, first_year, year_text
from catalogue.documents.contents.forces import described, forces_line, reading_key, strip_of
from catalogue.documents.contents.history import Claims, Hearing, hearings, premiere
from catalogue.documents.contents.selection import (
    duration_text,
    earliest_first_span,
    latest_first,
    list_summary,
    listed_works,
    mostly_approximate,
    number_of_works,
    number_text,
    sigla,
)
from catalogue.documents.contents.titles import work_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Entry,
    Group,
    Opening,
    Paper,
    Paragraph,
    Section,
    Style,
    Table,
    Text,
    Voice,
    joined,
    value,
    wording,
)
from catalogue.facts import CatalogueFacts, MovementFacts, RecordingFacts, WorkFacts
from catalogue.terms import Category

HEADS = {
    Category.STAGE: "Opera and dance",
    Category.ORCHESTRA: "Orchestra",
    Category.SOLOIST_AND_ORCHESTRA: "Soloist and orchestra",
    Category.LARGE_ENSEMBLE: "Large ensemble",
    Category.CHAMBER: "Chamber music",
    Category.SOLO: "Solo instrument",
    Category.CHOIR: "Choir",
    Category.VOICE: "Voice with instruments",
    Category.ELECTRONICS: "With electronics",
    Category.INSTALLATION: "Installation",
    Category.OTHER: "Other works",
}


NOBODY = ("traditional", "anon")
"""How the author of a text without an author is given."""


@dataclass(frozen=True, slots=True)
class Listing:
    """What every entry of one list is told of the list as a whole."""

    works: tuple[WorkFacts, ...]
    heard: dict[int, tuple[Hearing, ...]]
    recordings: dict[int, tuple[RecordingFacts, ...]]
    signs: dict[str, str]
    approximate: bool
    says: Labels

    @classmethod
    def of(cls, catalogue: CatalogueFacts, claims: Claims, says: Labels) -> Listing:
        works = listed_works(catalogue)
        issued: dict[int, tuple[RecordingFacts, ...]] = {}
        for one in catalogue.recordings:
            issued[one.work_id] = (*issued.get(one.work_id, ()), one)
        return cls(works, hearings(catalogue, claims), issued, sigla(works), mostly_approximate(works), says)

    def heard_of(self, work: WorkFacts) -> tuple[Hearing, ...]:
        return self.heard.get(work.id, ())

    def duration(self, work: WorkFacts) -> Text:
        return duration_text(work, self.says, approximate_list=self.approximate)


def works_list(
    catalogue: CatalogueFacts,
    *,
    by: Literal["category", "year"],
    language: str,
    paper: Paper,
    printed_on: date,
    claims: Claims,
) -> Document:
    """Tell every work of the catalogue that is on public lists.

    ``claims`` are the first performances reckoned for the catalogue, by the id of the programmed work.
    """
    says = labels(language)
    listing = Listing.of(catalogue, claims, says)
    title = says.word("Works by category" if by == "category" else "Works by year")
    opening = Opening(wording(title), value(catalogue.composer.name), list_summary(listing.works, says))
    if by == "year":
        opening = Opening(opening.title, opening.composer)
    return Document(
        kind=f"works-list-by-{by}",
        title=title,
        author=catalogue.composer.name,
        language=says.language,
        paper=paper,
        blocks=(opening, *(by_category(listing) if by == "category" else by_year(listing))),
        running=(value(catalogue.composer.name), wording(title)),
        dated=says.say("To {date}", date=day_text(printed_on, says.language)),
    )


def by_category(listing: Listing) -> tuple[Block, ...]:
    sections: list[Block] = []
    for category, head in HEADS.items():
        group = sorted((work for work in listing.works if work.category is category), key=latest_first)
        entries = tuple(entry(work, listing) for work in group)
        if entries:
            sections.append(Section(wording(listing.says.word(head)), entries))
    return (*sections, *reading_key(listing.works, listing.says))


def entry(work: WorkFacts, listing: Listing) -> Entry:
    says = listing.says
    details = (
        described(work, says),
        forces_line(work, says),
        movements_line(work.movements),
        text_line(work, says),
        dedication_line(work, says),
        *history_lines(work, listing.heard_of(work), says),
        revision_line(work, says),
        *(recording_line(one, says) for one in listing.recordings.get(work.id, ())),
        material_line(work, says),
    )
    return Entry(
        title=work_title(work),
        year=wording(year_text(work, says.word("undated"))),
        number=number_text(work, says),
        edition=edition_text(work, listing),
        figure=listing.duration(work),
        strip=strip_of(work, says),
        details=tuple(line for line in details if line),
    )


def edition_text(work: WorkFacts, listing: Listing) -> Text:
    """The siglum of the publisher; of an unpublished work MS, where the list has any publisher."""
    if work.publisher:
        return value(listing.signs[work.publisher])
    return wording("MS" if listing.signs else "")


def movements_line(movements: tuple[MovementFacts, ...]) -> Text:
    """I Low Water – II Slack – III Flood; movements without names are not worth a line."""
    if len(movements) < 2 or not any(one.title for one in movements):
        return ()
    named = ((*wording(f"{roman(one.number)} "), *value(one.title)) if one.title else () for one in movements)
    return joined(tuple(named), " – ")


def roman(number: int) -> str:
    """A number in Roman numerals.

    >>> roman(14)
    'XIV'
    """
    written = ""
    for worth, sign in zip(
        (100, 90, 50, 40, 10, 9, 5, 4, 1), ["C", "XC", "L", "XL", "X", "IX", "V", "IV", "I"], strict=True
    ):
        times, number = divmod(number, worth)
        written += sign * times
    return written


def text_line(work: WorkFacts, says: Labels) -> Text:
    message = "Libretto by {author}" if work.category is Category.STAGE else "Text by {author}"
    if work.text_author.casefold().startswith(NOBODY):
        message = "Text: {author}"
    author = says.say(message, author=work.text_author) if work.text_author else ()
    language = value(says.language_name(work.text_language)) if work.text_language else ()
    if not author:
        return says.say("Text in {language}", language=language) if language else ()
    return says.say("{author}, in {language}", author=author, language=language) if language else author


def dedication_line(work: WorkFacts, says: Labels) -> Text:
    """To whom the work is dedicated; a dedication that is a phrase of its own (in memory of …) stands as it is."""
    if not work.dedication:
        return ()
    if work.dedication[:1].islower():
        return capitalised(value(work.dedication))
    return says.say("Dedicated to {name}", name=work.dedication)


def revision_line(work: WorkFacts, says: Labels) -> Text:
    return says.say("Revised {date}", date=date_text(work.revised, says.language)) if work.revised else ()


def recording_line(recording: RecordingFacts, says: Labels) -> Text:
    issue = joined((value(recording.label), value(recording.number)), " ")
    if not issue:
        return says.say("Recorded by {performers}", performers=recording.performers) if recording.performers else ()
    year = (*wording(" ("), *wording(str(recording.released.year)), *wording(")")) if recording.released else ()
    return (*says.say("Recorded on {issue}", issue=issue), *year)


def material_line(work: WorkFacts, says: Labels) -> Text:
    ismn = says.say("ISMN {number}", number=work.ismn) if work.ismn else ()
    hire = wording(says.word("parts on hire")) if work.parts_on_hire else ()
    line = joined((ismn, hire), "; ")
    return line if ismn else capitalised(line)


def capitalised(text: Text) -> Text:
    """The text with a capital at its beginning."""
    if not text:
        return ()
    first = text[0]
    changed = type(first)(first.text[:1].upper() + first.text[1:], first.style, first.language, first.value)
    return (changed, *text[1:])


def by_year(listing: Listing) -> tuple[Block, ...]:
    says = listing.says
    columns = (
        Column("title", wording(says.word("Title and forces"))),
        Column("duration", wording(says.word("Duration"))),
        Column("first", wording(says.word("First performance"))),
    )
    groups = tuple(
        Group(wording(str(year or says.word("undated"))), tuple(row(work, listing) for work in group))
        for year, group in groupby(sorted(listing.works, key=earliest_first_span), key=first_year)
    )
    return (Table(columns, groups), Paragraph(closing_line(listing), Voice.CLOSING))


def closing_line(listing: Listing) -> Text:
    says = listing.says
    return says.say(
        "{number}. Full entries, with instrumentation in detail, in {list}.",
        number=number_of_works(listing.works, says),
        list=wording(says.word("Works by category"), Style.TITLE),
    )


def row(work: WorkFacts, listing: Listing) -> tuple[Cell, ...]:
    first = premiere(listing.heard_of(work))
    title = tuple(line for line in (work_title(work), described(work, listing.says)) if line)
    duration = listing.duration(work)
    return (Cell(title), Cell((duration,) if duration else ()), Cell((briefly(first, listing.says),) if first else ()))


def briefly(first: Hearing, says: Labels) -> Text:
    """Where and when, in the shortest form: city and short date, or that it was a broadcast."""
    day = value(date_text(first.date, says.language, "short"))
    if broadcast(first):
        return says.say("broadcast {date}", date=day)
    venue = first.performance.venue
    return joined((value(first.performance.city or (venue.city if venue else "")), day), ", ")
