"""The delivery note: what is in the parcel, to be checked in a minute; the whole list is the parts checklist.

Winds, percussion and keyboards are told family by family, strings section by section, with the numbers that parts and
copies bear (common practice of orchestra libraries).
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import groupby

from catalogue.documents.contents.dates import date_text
from catalogue.documents.contents.hire_head import facts, head_of, paper_of, rules
from catalogue.documents.contents.hire_words import item_name
from catalogue.documents.contents.parts_checklist import narrowed
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Cell,
    Column,
    Document,
    Group,
    Paper,
    Paragraph,
    Section,
    Signatures,
    Table,
    Text,
    Voice,
    joined,
    plain,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.instrumentation.parts import Kind, Part
from catalogue.rules.hires.making_up import is_extra
from catalogue.rules.hires.reckoning import total_out
from catalogue.rules.hires.terms import Hire, Item
from catalogue.terms.hires import Purpose

ALONE = (Kind.SCORE, Kind.SECTION, Kind.CHOIR, Kind.CUE_SCORE, Kind.MEDIA, Kind.SOLOIST)
"""Rows of their own; all others are told by family."""
Line = tuple[Text, int, Text, bool]


def delivery_note(
    hire: Hire, work: WorkFacts, composer: ComposerFacts, *, language: str, paper: Paper, printed_on: date
) -> Document:
    """Tell what is sent to whom. Raises DocumentNeeds without a list, and of a loan without the day it is due."""
    says = labels(language)
    refuse_unready(hire, work)
    sent = tuple(item for item in hire.items if item.out or item.expected is None)
    total = total_out(sent)
    blocks = (
        facts(hire, work, composer, says, on_the_way=True),
        contents(sent, total, hire, work, says),
        Section(
            wording(says.word("Please note")),
            tuple(Paragraph(text, Voice.NOTE) for text in (counting(says), *asked(hire, total, says))),
        ),
        Paragraph(enclosed(hire, says), Voice.NOTE),
        Signatures(
            (
                wording(says.word("For the hire library")),
                wording(says.word("Received, complete unless noted")),
            ),
            wording(says.word("name, signature, date")),
        ),
    )
    return paper_of("delivery-note", "Delivery note", hire, work, composer, blocks, says=says, paper=paper)


def refuse_unready(hire: Hire, work: WorkFacts) -> None:
    missing = []
    if not hire.items:
        missing.append("list of parts")
    if hire.due is None and hire.purpose in (Purpose.HIRE, Purpose.PERUSAL):
        missing.append("day on which it is due")
    if missing:
        reason = f"The delivery note for “{work.title.title}” needs a {' and a '.join(missing)}."
        raise DocumentNeeds(reason, tuple(missing))


def counting(says: Labels) -> Text:
    told = "Count the set on the day it arrives, and report what is missing before rehearsals begin."
    return wording(says.word(told))


def asked(hire: Hire, total: int, says: Labels) -> tuple[Text, ...]:
    """The rules of the house; of what is sold, nothing is asked."""
    return rules(hire, total, says) if hire.purpose in (Purpose.HIRE, Purpose.PERUSAL) else ()


def enclosed(hire: Hire, says: Labels) -> Text:
    """The parts checklist, the errata of the edition, and what was typed."""
    errata: Text = ()
    if hire.errata_on is not None:
        errata = says.say("errata list of {day}", day=date_text(hire.errata_on, says.language))
    besides = (says.say("parts checklist"), errata, value(hire.enclosed))
    return says.say("Enclosed: {list}.", list=joined(tuple(one for one in besides if one), ", "))


# ---- the table


def contents(sent: tuple[Item, ...], total: int, hire: Hire, work: WorkFacts, says: Labels) -> Table:
    heads = (
        ("what", "Contents of the set"),
        ("set", "Set no."),
        ("copies", "Copies"),
        ("numbers", "Copy numbers"),
        ("received", "Received"),
    )
    rows = tuple(
        row(told, copies, numbers, hire.set_number if is_part else "")
        for told, copies, numbers, is_part in lines(sent, hire, work, says)
    )
    return Table(
        tuple(Column(key, wording(says.word(head))) for key, head in heads),
        (Group((), rows),),
        total=(
            Cell((wording(says.word("Total")),)),
            Cell(),
            Cell((wording(str(total)),)),
            Cell(),
            Cell(boxes=("",)),
        ),
    )


def row(told: Text, copies: int, numbers: Text, set_number: str) -> tuple[Cell, ...]:
    return (
        Cell((told,)),
        Cell((value(set_number),) if set_number else ()),
        Cell((wording(str(copies)),) if copies else ()),
        Cell((numbers,) if numbers else ()),
        Cell(boxes=("",)),
    )


def lines(sent: tuple[Item, ...], hire: Hire, work: WorkFacts, says: Labels) -> Iterator[Line]:
    """Each row: what it is of, how many copies, which of them; whether it is of the set."""
    for (head, single, spare), found in groupby(
        sent, key=lambda item: (head_of(item), is_single(item), is_spare(item))
    ):
        items = tuple(found)
        copies = sum(item.out for item in items)
        if single:
            yield family_text(head, items, says), copies, says.say("one each") if copies == len(items) else (), True
            continue
        if spare and len(items) > 1:
            yield spare_text(items, work, says), copies, says.say("one each"), True
            continue
        for item in items:
            yield alone_text(item, hire, work, says), item.out, value(item.copy_numbers), item.part is not None


def is_single(item: Item) -> bool:
    """Whether a row is told with those of its family, and not by itself."""
    return item.part is not None and item.part.kind not in ALONE


def is_spare(item: Item) -> bool:
    """Whether a row is a single spare copy without a number, to be told with the others."""
    return is_extra(item) and item.out == 1 and not item.copy_numbers


def spare_text(items: tuple[Item, ...], work: WorkFacts, says: Labels) -> Text:
    """Violin I, violin II, viola, extra."""
    names = tuple(value(item_name(item, work, says)) for item in items)
    return joined((*names, wording(says.word("extra"))), ", ")


def family_text(head: str, items: tuple[Item, ...], says: Labels) -> Text:
    """Woodwind, 12 parts (no. 01–12)."""
    parts = tuple(item.part for item in items if item.part is not None)
    counted = says.count("{n} part", "{n} parts", len(items))
    family = says.word(narrowed(head, parts))
    return says.say("{family}, {parts} ({numbers})", family=family, parts=counted, numbers=numbers_of(parts, says))


def numbers_of(parts: tuple[Part, ...], says: Labels) -> Text:
    """The numbers that the parts bear, those that follow each other as from and to: no. 01, 03–12."""
    told = [first.label if first is last else f"{first.label}–{last.label}" for first, last in runs(parts)]
    return says.say("no. {numbers}", numbers=", ".join(told))


def runs(parts: tuple[Part, ...]) -> Iterator[tuple[Part, Part]]:
    """Give the first and the last of the parts whose numbers follow each other."""
    first = last = parts[0]
    for part in parts[1:]:
        if part.number != last.number + 1:
            yield first, last
            first = part
        last = part
    yield first, last


def alone_text(item: Item, hire: Hire, work: WorkFacts, says: Labels) -> Text:
    """Violin I, 7 desks; the score with its paper; what is no part by its name."""
    name = value(item_name(item, work, says))
    part = item.part
    if part is None:
        return name
    if part.kind is Kind.SCORE:
        return joined((name, value(hire.paper)), ", ")
    if is_extra(item):
        return joined((name, wording(says.word("extra"))), ", ")
    if part.kind is Kind.SECTION:
        return joined((name, wording(says.count("{n} desk", "{n} desks", part.desks or 0))), ", ")
    number = plain(says.say("no. {numbers}", numbers=part.label))
    return joined((name, wording(f"({number})")), " ")
