"""What stands above and below on every paper of a hire: lender, addressee, work, performances, days, house rules."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import groupby

from catalogue.documents.contents.dates import span_text
from catalogue.documents.contents.hire_words import day, lender, lender_lines, period
from catalogue.documents.contents.letterhead import letterhead, written_lines
from catalogue.documents.contents.parts_checklist import family_head, narrowed
from catalogue.documents.contents.titles import short_title
from catalogue.documents.labels import Labels
from catalogue.documents.model import (
    Block,
    Cell,
    Document,
    Group,
    Opening,
    Pair,
    Pairs,
    Paper,
    Text,
    joined,
    plain,
    value,
    wording,
)
from catalogue.facts import ComposerFacts, PerformanceFacts, WorkFacts
from catalogue.rules.hires.terms import Hire, Item
from catalogue.terms.hires import Purpose
from catalogue.timing import write_duration

Row = Callable[[Item], tuple[Cell, ...]]
NO_BREAK = "\N{NO-BREAK SPACE}"
RETURN_ONE = "Return it by {day}, insured and traced."
MOST_KEPT = 30
"""The longest line of an address, in signs, that is kept in one line of the left column."""


def paper_of(
    kind: str,
    title: str,
    hire: Hire,
    work: WorkFacts,
    composer: ComposerFacts,
    blocks: tuple[Block, ...],
    *,
    says: Labels,
    paper: Paper,
) -> Document:
    """Return a paper of a hire, headed by its lender; its foot bears the number of the note."""
    number = says.say("Note {number}", number=hire.number) if hire.number else ()
    return Document(
        kind=kind,
        title=", ".join(part for part in (f"{work.title.title}: {says.word(title)}", hire.number) if part),
        author=lender(hire.terms, composer),
        language=says.language,
        paper=paper,
        blocks=(opening(title, hire, composer, says), *blocks),
        running=(
            joined((value(composer.name), value(plain(short_title(work.title)))), ", "),
            wording(says.word(title)),
        ),
        dated=number,
    )


def opening(title: str, hire: Hire, composer: ComposerFacts, says: Labels) -> Opening:
    head, name = letterhead(composer), lender(hire.terms, composer)
    above_all = " ".join(map(plain, head))
    lines = tuple(line for line in lender_lines(hire.terms, composer) if plain(line) not in above_all)
    above, aside = (lines[0], joined(lines[1:], ", ")) if len(lines) > 1 else ((), joined(lines, ", "))
    told = composer.house is not None and composer.house.name == name
    return Opening(wording(says.word(title)), () if told else value(name), above=above, aside=aside, letterhead=head)


def facts(hire: Hire, work: WorkFacts, composer: ComposerFacts, says: Labels, *, on_the_way: bool = False) -> Pairs:
    """To whom, what, for which performances, for how long; at the right the number, the days and the way.

    Papers that go with the set, ``on_the_way``, know nothing of its return.
    """
    left = (
        ("Addressee", addressee(hire)),
        ("Attention", value(hire.attention)),
        ("Work", work_line(work, composer, says)),
        ("Set", set_line(hire, says)),
        ("Hired for", hired_for(hire, says)),
        ("Hire period", period(hire, says) if hire.purpose is Purpose.HIRE else ()),
    )
    right = (
        ("Note no.", value(hire.number)),
        ("Order", value(hire.order)),
        ("Sent", value(day(hire.out_on, says))),
        ("By", value(hire.carrier)),
        ("Due back", value(day(hire.due, says))),
        ("Returned", () if on_the_way else value(day(hire.back_on, says))),
    )
    groups = (tuple(Pair(wording(says.word(label)), text) for label, text in group if text) for group in (left, right))
    return Pairs(tuple(groups))


def addressee(hire: Hire) -> Text:
    """Who has the set, and where, the lines as they were written: each breaks after itself and not within."""
    lines = (kept_whole(line) for line in (hire.hirer, *written_lines(hire.address)))
    return joined(tuple(map(value, lines)), ", ")


def kept_whole(line: str) -> str:
    return line.replace(" ", NO_BREAK) if len(line) <= MOST_KEPT else line


def work_line(work: WorkFacts, composer: ComposerFacts, says: Labels) -> Text:
    lasts = write_duration(work.duration, language=says.language) if work.duration else ""
    named = joined((value(composer.name), short_title(work.title)), ", ")
    return joined((named, value(lasts)), f",{NO_BREAK}")


def set_line(hire: Hire, says: Labels) -> Text:
    number = says.say("set {number}", number=hire.set_number) if hire.set_number else ()
    return joined((number, value(hire.edition)), ", ")


def hired_for(hire: Hire, says: Labels) -> Text:
    """The performances, each with its day and its hall; one work in one hall on several days in one."""
    places = {place_of(one) for one in hire.performances}
    if len(places) == 1 and len(hire.performances) > 1:
        dates = tuple(sorted(one.date for one in hire.performances if one.date))
        days = span_text(dates, says.language, says.word("to"), says.word("and")) if dates else ""
        return joined((value(days), value(places.pop())), ", ")
    told = (joined((value(date_of(one, says)), value(place_of(one))), ", ") for one in hire.performances)
    return joined(tuple(told), says.semicolon)


def date_of(performance: PerformanceFacts, says: Labels) -> str:
    return span_text((performance.date,), says.language, "", "") if performance.date else ""


def place_of(performance: PerformanceFacts) -> str:
    hall = performance.venue.name if performance.venue else ""
    return ", ".join(part for part in (hall, performance.city) if part)


def item_groups(items: tuple[Item, ...], row: Row, says: Labels) -> Iterator[Group]:
    """The list by families, what is no part last."""
    for (head, body), found in groupby(items, key=lambda item: (head_of(item), item.part.group if item.part else None)):
        rows = tuple(found)
        said = says.word(narrowed(head, tuple(item.part for item in rows if item.part))) if head else ""
        yield Group(joined((wording(said), value(body or "")), ", "), tuple(row(item) for item in rows))


def head_of(item: Item) -> str:
    return family_head(item.part) if item.part is not None else "Besides"


# ---- the rules of the house


def rules(hire: Hire, total: int, says: Labels) -> tuple[Text, ...]:
    """What is asked of whoever has the set: the house's own words, where it has some."""
    return tuple(rule for rule in (marking(hire, says), copying(hire, says), returning(hire, total, says)) if rule)


def marking(hire: Hire, says: Labels) -> Text:
    usual = "Mark in soft pencil only: no ink, tape, clips or staples. Do not renumber the copies. Erase before return."
    return value(hire.terms.marking) or wording(says.word(usual))


def copying(hire: Hire, says: Labels) -> Text:
    usual = "Parts may be copied for a page turn or a desk that is short, by agreement; destroy the copies afterwards."
    return value(hire.terms.copying) or wording(says.word(usual))


def returning(hire: Hire, total: int, says: Labels) -> Text:
    if hire.terms.returning:
        return value(hire.terms.returning)
    if hire.due is None:
        return ()
    asked = "Return all {total} items together by {day}, insured and traced."
    told = says.say(asked if total > 1 else RETURN_ONE, total=str(total), day=day(hire.due, says))
    charged = any((hire.terms.late_percent, hire.terms.part_charge, hire.terms.extension_percent))
    late = says.word("A longer loan, late return and missing or damaged parts are charged under the terms of hire.")
    return joined((told, wording(late) if charged else ()), " ")
