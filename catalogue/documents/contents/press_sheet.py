"""The press sheet: what an editor or a presenter needs about a composer, on a page or two.

The life in short, facts, what is to come and where, the latest first performances, some works, what has been recorded,
and whom to ask. Everything is taken from the records; a section without a line is left out.
"""

from __future__ import annotations

from datetime import date

from catalogue.documents.contents.cv_section import (
    Vita,
    performance_line,
    recordings_section,
    runs_of,
    section,
    work_line,
    year_label,
)
from catalogue.documents.contents.dates import day_text, last_year
from catalogue.documents.contents.history import Claims, Hearing, hearings
from catalogue.documents.contents.letterhead import letterhead
from catalogue.documents.contents.programme_entry import life_dates
from catalogue.documents.contents.prose import Prose, blocks_of, chosen, shortened
from catalogue.documents.contents.selection import Chosen, latest_first, listed_works
from catalogue.documents.labels import labels
from catalogue.documents.model import (
    Block,
    Document,
    Line,
    Opening,
    Pair,
    Pairs,
    Paper,
    Paragraph,
    Section,
    Style,
    Text,
    Voice,
    joined,
    value,
    wording,
)
from catalogue.facts import CatalogueFacts
from catalogue.record_facts import ReviewFacts
from catalogue.rules.texts import unquoted

EVERYTHING = Chosen()
MOST_WORKS = 8
MOST_FIRSTS = 6
MOST_TO_COME = 12
MOST_QUOTATIONS = 5
WORDS_OF_LIFE = 180


def press_sheet(
    catalogue: CatalogueFacts,
    *,
    lives: tuple[Prose, ...] = (),
    reviews: tuple[ReviewFacts, ...] = (),
    choice: Chosen = EVERYTHING,
    language: str,
    paper: Paper,
    printed_on: date,
    claims: Claims,
) -> Document:
    """Introduce a composer, or with chosen works those alone, to somebody who writes about music."""
    says = labels(language)
    works = {work.id: work for work in listed_works(catalogue)}
    heard = tuple(one for key, found in hearings(catalogue, claims).items() if key in works for one in found)
    vita = Vita(catalogue, works, heard, choice, printed_on, says)
    composer = catalogue.composer
    contact = joined((value(composer.email, exact=True), value(composer.telephone)), "\N{EM SPACE}")
    kind = says.word("Press sheet")
    return Document(
        kind="press-sheet",
        title=f"{composer.name}: {kind}",
        author=composer.name,
        language=says.language,
        paper=paper,
        blocks=(
            Opening(value(composer.name), subtitle=wording(kind), aside=contact, letterhead=letterhead(composer)),
            *life(lives, vita),
            *to_come(vita),
            *firsts(vita),
            *some_works(vita),
            *quotations(reviews, vita),
            *recordings_section(vita),
            *enquiries(vita),
        ),
        running=(value(composer.name), wording(kind)),
        dated=says.say("To {date}", date=day_text(printed_on, says.language)),
    )


def life(lives: tuple[Prose, ...], vita: Vita) -> tuple[Block, ...]:
    """The life, headed by when and where it began."""
    found = chosen(lives, vita.says.language, WORDS_OF_LIFE)
    parts = shortened(found.body, WORDS_OF_LIFE) if found else ()
    if not found or not parts:
        return ()
    paragraphs = blocks_of(parts, Voice.PROSE, language=found.language)
    head = wording(vita.says.word("Biography"))
    return (Section(head, paragraphs, aside=life_dates(vita.catalogue.composer, vita.says)),)


def to_come(vita: Vita) -> tuple[Section, ...]:
    """The next performances, the nearest first."""
    coming = [one for one in chosen_hearings(vita) if one.date.first > vita.printed_on]
    runs = sorted(runs_of(coming), key=lambda run: (run[0].date, run[0].programmed.id))[:MOST_TO_COME]
    lines = tuple(Line(str(run[0].date.year), performance_line(run, vita, says_coming=False)) for run in runs)
    return section("Performances to come", (), lines, vita.says)


def firsts(vita: Vita) -> tuple[Section, ...]:
    """The latest world premieres that have taken place."""
    given = [one for one in chosen_hearings(vita) if "world" in one.titles and one.date.first <= vita.printed_on]
    runs = sorted(runs_of(given), key=lambda run: (run[0].date, run[0].programmed.id), reverse=True)[:MOST_FIRSTS]
    lines = tuple(Line(str(run[0].date.year), performance_line(run, vita)) for run in runs)
    return section("Latest premieres", (), lines, vita.says)


def chosen_hearings(vita: Vita) -> list[Hearing]:
    return [one for one in vita.heard if vita.choice.takes(one.date, vita.works[one.programmed.work_id])]


def some_works(vita: Vita) -> tuple[Section, ...]:
    """The latest works, and of how many these are."""
    says = vita.says
    works = sorted(vita.works.values(), key=latest_first)
    shown = [work for work in works if vita.choice.works is None or work.id in vita.choice.works][:MOST_WORKS]
    lines = tuple(Line(year_label(last_year(work), says), work_line(work, says, approximate=False)) for work in shown)
    part = says.count("{n} work", "{n} works", len(works))
    aside: Text = says.say("{some} of {all}", some=str(len(shown)), all=part) if len(shown) < len(works) else ()
    return section("Selected works" if aside else "Works", aside, lines, says)


def quotations(reviews: tuple[ReviewFacts, ...], vita: Vita) -> tuple[Block, ...]:
    """What has been written about the works, the latest first, each with who wrote it and where."""
    about = vita.choice.works
    found = [one for one in reviews if one.quotation and (about is None or one.work_id in about)]
    found.sort(key=lambda one: (one.date.year if one.date else 0, one.id), reverse=True)
    said = tuple(Paragraph(quotation(one, vita), Voice.NOTE) for one in found[:MOST_QUOTATIONS])
    return (Section(wording(vita.says.word("In the press")), said),) if said else ()


def quotation(review: ReviewFacts, vita: Vita) -> Text:
    """The words, then who wrote them, where and when."""
    year = wording(str(review.date.year)) if review.date else ()
    source = joined((value(review.author), value(review.publication, Style.EMPHASIS), year), ", ")
    quoted = vita.says.word("“{quotation}”").replace("{quotation}", unquoted(review.quotation))
    words = value(quoted, language=review.language)
    return joined((words, source), " ")


def enquiries(vita: Vita) -> tuple[Block, ...]:
    """Whom to ask, with every way that is recorded."""
    composer, says = vita.catalogue.composer, vita.says
    publishers = tuple(dict.fromkeys(work.publisher for work in vita.works.values() if work.publisher))
    facts = (
        ("Website", value(composer.website, exact=True)),
        ("Email", value(composer.email, exact=True)),
        ("Telephone", value(composer.telephone)),
        ("Address", value(" ".join(composer.address.split()))),
        ("Publisher", says.listed(tuple(value(name) for name in publishers))),
    )
    pairs = tuple(Pair(wording(says.word(label)), text) for label, text in facts if text)
    return (Section(wording(says.word("Enquiries")), (Pairs((pairs,)),)),) if pairs else ()
