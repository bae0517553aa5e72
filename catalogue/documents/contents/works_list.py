"""The works list, by category or by year.

By category every work is told in full; by year in two lines. Withdrawn and juvenile works are left
off, what is not known is left out. A span of years stands under its last year by category and under its
first by year.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby
from typing import Literal

from catalogue.documents.contents.credits import broadcast, first_performance, history_lines
from catalogue.documents.contents.dates import date_text, day_text, first_year, year_text
from catalogue.documents.contents.forces import described, reading_key, said_forces, strip_of_said, told_with_forces
from catalogue.documents.contents.grouping import CATEGORY_HEADS, GROUPINGS, Order, looked_for, performable
from catalogue.documents.contents.history import Claims, Hearing, hearings, premiere
from catalogue.documents.contents.indexes import indexes
from catalogue.documents.contents.letterhead import letterhead
from catalogue.documents.contents.movements import numeral_beside
from catalogue.documents.contents.selection import (
    duration_text,
    earliest_first_span,
    list_summary,
    listed_works,
    mostly_approximate,
    number_of_works,
    number_text,
    rising_years,
    sigla,
)
from catalogue.documents.contents.titles import short_title, work_title
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
    plain,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.drawings.player_strip import Strip
from catalogue.facts import CatalogueFacts, MovementFacts, RecordingFacts, WorkFacts
from catalogue.instrumentation import Instrumentation
from catalogue.terms import Category

NOBODY = ("traditional", "anon")
"""How the author of a text without an author is given."""


LENGTHS = ("short", "medium", "full")


@dataclass(frozen=True, slots=True)
class Telling:
    """How works are told: how much of each, the year that comes first, with indexes or not, for which players only."""

    length: Literal["short", "medium", "full"] = "full"
    rising: bool = False
    indexed: bool = False
    available: Instrumentation | None = None


@dataclass(frozen=True, slots=True)
class Listing:
    """What every entry of one list is told of the list as a whole."""

    works: tuple[WorkFacts, ...]
    heard: dict[int, tuple[Hearing, ...]]
    recordings: dict[int, tuple[RecordingFacts, ...]]
    signs: dict[str, str]
    approximate: bool
    says: Labels
    telling: Telling = Telling()
    unsure: int = 0
    forces: dict[int, tuple[Text, Text]] = field(default_factory=dict)
    strips: dict[int, Strip | None] = field(default_factory=dict)

    @classmethod
    def of(cls, catalogue: CatalogueFacts, claims: Claims, says: Labels, telling: Telling) -> Listing:
        works, unsure = listed_works(catalogue), 0
        if telling.available is not None:
            works, unsure = performable(works, telling.available)
        issued: dict[int, tuple[RecordingFacts, ...]] = {}
        for one in catalogue.recordings:
            issued[one.work_id] = (*issued.get(one.work_id, ()), one)
        heard, approximate = hearings(catalogue, claims), mostly_approximate(works)
        return cls(works, heard, issued, sigla(works), approximate, says, telling, unsure)

    def heard_of(self, work: WorkFacts) -> tuple[Hearing, ...]:
        return self.heard.get(work.id, ())

    def forces_of(self, work: WorkFacts) -> tuple[Text, Text]:
        """The description and the shorthand of a work, made once for its entry and for the key."""
        if work.id not in self.forces:
            said = said_forces(work, self.says)
            self.forces[work.id] = told_with_forces(work, said, self.says)
            self.strips[work.id] = strip_of_said(said, self.says)
        return self.forces[work.id]

    def strip_of(self, work: WorkFacts) -> Strip | None:
        """The player strip of a work, drawn with what :meth:`forces_of` says."""
        self.forces_of(work)
        return self.strips[work.id]

    def duration(self, work: WorkFacts) -> Text:
        return duration_text(work, self.says, approximate_list=self.approximate)


WHOLE = Telling()
TITLES: dict[Order, str] = {
    "category": "Works by category",
    "year": "Works by year",
    "forces": "Works by forces",
    "duration": "Works by duration",
}


def works_list(
    catalogue: CatalogueFacts,
    *,
    by: Order,
    language: str,
    paper: Paper,
    printed_on: date,
    claims: Claims,
    telling: Telling = WHOLE,
) -> Document:
    """Tell every work of the catalogue that is on public lists.

    ``claims`` are the first performances reckoned for the catalogue, by the id of the programmed work. Raises
    DocumentNeeds where only works for certain players are asked for and there is none.
    """
    says = labels(language)
    listing = Listing.of(catalogue, claims, says, telling)
    if telling.available is not None and not listing.works:
        raise DocumentNeeds("No work on the list can be played by these players.", ("works",))
    title = says.word(TITLES[by])
    composer = catalogue.composer
    head = letterhead(composer)
    opening = Opening(wording(title), value(composer.name), subtitle(listing, by), letterhead=head)
    return Document(
        kind=f"works-list-by-{by}",
        title=title,
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=(
            opening,
            *(by_year(listing) if by == "year" else in_groups(listing, by)),
            *(indexes(listing.works, says) if telling.indexed else ()),
        ),
        running=(value(composer.name), wording(title)),
        dated=says.say("To {date}", date=day_text(printed_on, says.language)),
    )


def subtitle(listing: Listing, by: Order) -> Text:
    """What the list takes in: years and sigla, and for which players."""
    says, available = listing.says, listing.telling.available
    told = list_summary(listing.works, says, by_category=by == "category") if by != "year" else ()
    if available is None:
        return told
    players = says.say("Performable by {forces}.", forces=available.text)
    unsure = says.count("Of {n} more work it cannot be told.", "Of {n} more works it cannot be told.", listing.unsure)
    return joined((told, players, wording(unsure if listing.unsure else "")), " ")


def in_groups(listing: Listing, by: Order) -> tuple[Block, ...]:
    """A section for each group that has works, with their number where the list is not by category; then the key."""
    says = listing.says
    sections: list[Block] = []
    for head, works in GROUPINGS[by](listing.works, says):
        number = says.count("{n} work", "{n} works", len(works)) if by != "category" else ""
        entries = tuple(entry(work, listing) for work in works)
        if entries:
            also = see_also(works[0].category, listing) if by == "category" else ()
            sections.append(Section(wording(head), (*entries, *also), wording(number)))
    return (*sections, *key_of(sections, listing))


def key_of(sections: Iterable[Block], listing: Listing) -> tuple[Block, ...]:
    """How to read what stands in the sections; short entries have neither shorthand nor strips."""
    if listing.telling.length == "short":
        return reading_key(listing.works, listing.says)
    strips = tuple(
        one.strip
        for section in sections
        if isinstance(section, Section)
        for one in section.blocks
        if isinstance(one, Entry) and one.strip
    )
    shorthand = tuple(plain(listing.forces_of(work)[1]) for work in listing.works)
    return reading_key(listing.works, listing.says, shorthand=shorthand, strips=strips)


def see_also(category: Category, listing: Listing) -> tuple[Paragraph, ...]:
    """Where works of other categories stand that are looked for under this one: each is told once."""
    says = listing.says
    found = tuple(with_category(work, says) for work in looked_for(listing.works, category))
    return (
        (Paragraph(says.say("See also {works}.", works=joined(found, says.semicolon)), Voice.CREDIT),) if found else ()
    )


def with_category(work: WorkFacts, says: Labels) -> Text:
    """The title as a sentence carries it, and under which head the work stands."""
    return (*short_title(work.title), *wording(f" ({says.word(CATEGORY_HEADS[work.category])})"))


def version_line(work: WorkFacts, listing: Listing) -> Text:
    """Of which work it is a version, where that is on the list."""
    first = next((one for one in listing.works if one.id == work.version_of), None) if work.version_of else None
    return listing.says.say("Version of {work}", work=with_category(first, listing.says)) if first else ()


def entry(work: WorkFacts, listing: Listing) -> Entry:
    says = listing.says
    details = DETAILS[listing.telling.length](work, listing)
    return Entry(
        title=work_title(work),
        year=wording(year_text(work, says.word("undated"))),
        number=number_text(work, says),
        edition=edition_text(work, listing),
        figure=listing.duration(work),
        strip=listing.strip_of(work) if listing.telling.length != "short" else None,
        details=tuple(line for line in details if line),
    )


def short_details(work: WorkFacts, listing: Listing) -> tuple[Text, ...]:
    return (described(work, listing.says),)


def medium_details(work: WorkFacts, listing: Listing) -> tuple[Text, ...]:
    """What it is for, whose words, and who played it first."""
    says = listing.says
    first = first_performance(work, listing.heard_of(work), says)
    return (*listing.forces_of(work), version_line(work, listing), text_line(work, says), first)


def full_details(work: WorkFacts, listing: Listing) -> tuple[Text, ...]:
    says = listing.says
    return (
        *listing.forces_of(work),
        version_line(work, listing),
        movements_line(work.movements),
        text_line(work, says),
        dedication_line(work, says),
        *history_lines(work, listing.heard_of(work), says),
        revision_line(work, says),
        *(recording_line(one, says) for one in listing.recordings.get(work.id, ())),
        material_line(work, says),
    )


DETAILS = {"short": short_details, "medium": medium_details, "full": full_details}


def edition_text(work: WorkFacts, listing: Listing) -> Text:
    """The siglum of the publisher; of an unpublished work MS, where the list has any publisher."""
    if work.publisher:
        return value(listing.signs[work.publisher])
    return wording("MS" if listing.signs else "")


def movements_line(movements: tuple[MovementFacts, ...]) -> Text:
    """I Low Water – II Slack – III Flood; movements without names are not worth a line."""
    if len(movements) < 2 or not any(one.title for one in movements):
        return ()
    named = (
        joined((wording(numeral_beside(one.number, one.title)), value(one.title)), " ")
        for one in movements
        if one.title
    )
    return joined(tuple(named), " – ")


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
    line = joined((ismn, hire), says.semicolon)
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
    order = rising_years if listing.telling.rising else earliest_first_span
    groups = tuple(
        Group(wording(str(year or says.word("undated"))), tuple(row(work, listing) for work in group))
        for year, group in groupby(sorted(listing.works, key=order), key=first_year)
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
