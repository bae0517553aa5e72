"""The two checks of a set, part by part: as it arrives, and as it comes back.

What has been counted is printed; what has not is a box to tick.
"""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from catalogue.documents.contents.delivery_note import refuse_unready
from catalogue.documents.contents.hire_head import facts, item_groups, paper_of
from catalogue.documents.contents.hire_words import day, item_asides, item_name, item_number, money
from catalogue.documents.contents.parts_checklist import boxes_of
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Cell,
    Column,
    Document,
    Paper,
    Paragraph,
    Signatures,
    Style,
    Table,
    Text,
    Voice,
    joined,
    value,
    wording,
)
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.rules.hires.reckoning import charges, total_missing, total_out
from catalogue.rules.hires.terms import Hire, Item
from catalogue.terms.hires import PartAction, PartCondition

CONDITIONS = {
    PartCondition.GOOD: "good",
    PartCondition.MARKED: "marked",
    PartCondition.DAMAGED: "damaged",
    PartCondition.MISSING: "missing",
}
ACTIONS = {
    PartAction.ERASE: "erase",
    PartAction.REPAIR: "repair",
    PartAction.REPLACE: "replace",
    PartAction.ASK: "ask for it",
    PartAction.WRITE_OFF: "write off",
}


def arrival_check(
    hire: Hire, work: WorkFacts, composer: ComposerFacts, *, language: str, paper: Paper, printed_on: date
) -> Document:
    """The list as it went out, for whoever opens the parcel. Raises DocumentNeeds without a list."""
    says = labels(language)
    refuse_unready(hire, work)
    sent = tuple(item for item in hire.items if item.out or item.expected is None)
    heads = (("number", "No."), ("part", "Part"), ("copies", "Sent"), ("out", "Arrived"), ("remarks", "Remarks"))

    def row(item: Item) -> tuple[Cell, ...]:
        gap = says.word("{n} missing").replace("{n}", str(item.short)) if item.short else ""
        return (*first_cells(item, item.out, work, says), counted(item, item.received), Cell(lines_of(wording(gap))))

    blocks = (
        facts(hire, work, composer, says, on_the_way=True),
        table(heads, sent, row, (str(total_out(sent)), arrived(sent)), says),
        Paragraph(wording(arrival_note(sent, says)), Voice.NOTE),
        Signatures((wording(says.word("Received by")),), wording(says.word("name, signature, date"))),
    )
    return paper_of("arrival-check", "Arrival check", hire, work, composer, blocks, says=says, paper=paper)


def arrived(sent: tuple[Item, ...]) -> str:
    return str(sum(item.received or 0 for item in sent)) if any(item.received is not None for item in sent) else ""


def arrival_note(sent: tuple[Item, ...], says: Labels) -> str:
    told = (
        says.word("Count the set on the day it arrives, and report what is missing before rehearsals begin."),
        says.word("Send this sheet back with what is missing, or without remarks where all is there."),
    )
    return " ".join(told) if any(item.received is None for item in sent) else told[0]


def return_check(
    hire: Hire, work: WorkFacts, composer: ComposerFacts, *, language: str, paper: Paper, printed_on: date
) -> Document:
    """The list as it came back, or is to be counted when it does: condition, what is to be done, what is charged."""
    says = labels(language)
    refuse_unready(hire, work)
    sent = tuple(item for item in hire.items if item.out or item.expected is None)
    costs = costs_by_row(hire, printed_on)
    is_charged = any(item.id in costs for item in sent)
    heads = (
        ("number", "No."), ("part", "Part"), ("copies", "Out"), ("out", "Back"), ("remarks", "Condition and remarks"),
        *((("charge", "Charge"),) if is_charged else ()),
    )  # fmt: skip

    def row(item: Item) -> tuple[Cell, ...]:
        cells = (*first_cells(item, item.out, work, says), counted(item, item.back), Cell(lines_of(remark(item, says))))
        return (*cells, Cell(lines_of(charge(item, costs, hire, says)))) if is_charged else cells

    blocks = (
        facts(hire, work, composer, says),
        table(heads, sent, row, (str(total_out(sent)), came_back(sent)), says),
        Paragraph(summary(hire, sent, says), Voice.NOTE),
        Signatures(
            (wording(says.word("Returned by")), wording(says.word("Checked in by"))),
            wording(says.word("name, signature, date")),
        ),
    )
    return paper_of("return-check", "Return check", hire, work, composer, blocks, says=says, paper=paper)


def came_back(sent: tuple[Item, ...]) -> str:
    return str(sum(item.back or 0 for item in sent)) if any(item.back is not None for item in sent) else ""


def remark(item: Item, says: Labels) -> Text:
    """The condition, how many are missing, what is to be done, what was noted."""
    missing = says.word("{n} missing").replace("{n}", str(item.missing)) if item.missing else ""
    condition = CONDITIONS[item.condition] if item.condition else ""
    known = missing or (says.word(condition) if condition else "")
    action = says.word(ACTIONS[item.action]) if item.action else ""
    return joined((wording(known), wording(action), value(item.remark)), ", ")


def costs_by_row(hire: Hire, today: date) -> dict[int, Decimal]:
    """What is charged of each row, typed or by the terms, as it stands in the account."""
    return {one.item.id: one.amount for one in charges(hire, today) if one.item is not None}


def charge(item: Item, costs: dict[int, Decimal], hire: Hire, says: Labels) -> Text:
    return value(money(costs[item.id], hire.currency, says)) if item.id in costs else ()


def summary(hire: Hire, sent: tuple[Item, ...], says: Labels) -> Text:
    """What the count came to; before it, the letters to write."""
    if not any(item.back is not None for item in sent):
        return wording(says.word("Condition: G good, M marked, D damaged, X missing"))
    missing = total_missing(sent)
    told = says.count("{n} copy is missing.", "{n} copies are missing.", missing) if missing else ""
    when = says.say("Counted on {day}.", day=day(hire.back_on, says)) if hire.back_on else ()
    return joined((when, wording(told or says.word("Nothing is missing."))), " ")


# ---- the table of both


def table(
    heads: tuple[tuple[str, str], ...], sent: tuple[Item, ...], row: object, totals: tuple[str, str], says: Labels
) -> Table:
    out, found = totals
    of_all = Cell((says.say("of {total}", total=out),), blank=True)
    total = (
        Cell(),
        Cell((wording(says.word("Total")),)),
        Cell((wording(out),)),
        Cell((wording(found),)) if found else of_all,
        *(Cell() for _head in heads[4:]),
    )
    columns = tuple(Column(key, wording(says.word(head))) for key, head in heads)
    return Table(columns, tuple(item_groups(sent, row, says)), total=total)  # type: ignore[arg-type]


def first_cells(item: Item, copies: int, work: WorkFacts, says: Labels) -> tuple[Cell, ...]:
    """The number, the part with what else it is for, and how many copies."""
    aside = wording(item_asides(item, says), Style.EMPHASIS)
    name = joined((value(item_name(item, work, says)), aside), "\N{EN SPACE}")
    return Cell((wording(item_number(item)),)), Cell((name,)), Cell((wording(str(copies)),))


def counted(item: Item, found: int | None) -> Cell:
    """What was counted, else boxes to tick."""
    if found is not None:
        return Cell((wording(str(found)),))
    return Cell(boxes=boxes_of(item.part) if item.part is not None else ("",))


def lines_of(text: Text) -> tuple[Text, ...]:
    return (text,) if text else ()
