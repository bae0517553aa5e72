"""The letter about what did not come back, or did not arrive: which copies, until when, and what they cost."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from catalogue.documents.contents.hire_checks import first_cells, lines_of
from catalogue.documents.contents.hire_head import facts, item_groups, paper_of
from catalogue.documents.contents.hire_words import day, lender, money
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Paper,
    Paragraph,
    Table,
    Text,
    Voice,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.rules.hires.reckoning import ChargeKind, charges
from catalogue.rules.hires.terms import Hire, Item

LASTS = timedelta(days=14)
"""How long somebody has to look for a part (common practice: two weeks)."""


def missing_parts_letter(
    hire: Hire, work: WorkFacts, composer: ComposerFacts, *, language: str, paper: Paper, printed_on: date
) -> Document:
    """Ask for what is missing. Raises DocumentNeeds where nothing is, as far as it was counted."""
    says = labels(language)
    gone = tuple(item for item in hire.items if lacks(item, hire))
    if not gone:
        reason = f"Nothing of the set of “{work.title.title}” is missing, as far as it was counted."
        raise DocumentNeeds(reason, ("missing parts",))
    costs = costs_of(hire, printed_on)
    blocks: tuple[Block, ...] = (
        facts(hire, work, composer, says),
        *(Paragraph(text) for text in (dated(printed_on, says), *beginning(hire, says))),
        missing_table(gone, hire, work, costs, says),
        *(Paragraph(text) for text in ending(hire, costs, printed_on, says)),
        Paragraph(value(lender(hire.terms, composer)), Voice.SIGNED),
    )
    return paper_of("missing-parts-letter", "Missing parts", hire, work, composer, blocks, says=says, paper=paper)


def lacks(item: Item, hire: Hire) -> int:
    """How many copies are missing: after the return those that did not come back, before it those that never came."""
    return item.missing if hire.back_on is not None else item.short


def costs_of(hire: Hire, today: date) -> dict[int, Decimal]:
    """What each missing part costs, by its row; only after the return."""
    found = charges(hire, today) if hire.back_on is not None else ()
    return {one.item.id: one.amount for one in found if one.kind is ChargeKind.MISSING and one.item is not None}


def dated(printed_on: date, says: Labels) -> Text:
    return value(day(printed_on, says))


def beginning(hire: Hire, says: Labels) -> tuple[Text, ...]:
    if hire.back_on is not None:
        told = "The set came back on {day}; thank you. Compared with the list with which it went out, this is missing:"
        return (says.say(told, day=day(hire.back_on, says)),)
    return (says.say("According to your check of the set on its arrival, this is missing:"),)


def missing_table(
    gone: tuple[Item, ...], hire: Hire, work: WorkFacts, costs: dict[int, Decimal], says: Labels
) -> Table:
    heads = (
        ("number", "No."), ("part", "Part"), ("copies", "Missing"), ("remarks", "Remarks"),
        *((("charge", "Charge"),) if costs else ()),
    )  # fmt: skip

    def row(item: Item) -> tuple[Cell, ...]:
        cells = (*first_cells(item, lacks(item, hire), work, says), Cell(lines_of(which(item, says))))
        if not costs:
            return cells
        cost = value(money(costs[item.id], hire.currency, says)) if item.id in costs else ()
        return (*cells, Cell(lines_of(cost)))

    columns = tuple(Column(key, wording(says.word(head))) for key, head in heads)
    return Table(columns, tuple(item_groups(gone, row, says)))


def which(item: Item, says: Labels) -> Text:
    """What was noted; else which copies went out."""
    if item.remark:
        return value(item.remark)
    return says.say("copies {numbers} were sent", numbers=item.copy_numbers) if item.copy_numbers else ()


def ending(hire: Hire, costs: dict[int, Decimal], printed_on: date, says: Labels) -> tuple[Text, ...]:
    """Until when to look; what is charged after that."""
    if hire.back_on is None:
        return (says.say("Please tell us at once whether it has turned up; otherwise we send it again."),)
    until = day(printed_on + LASTS, says)
    look = says.say("Please look for it, and send it by {day}.", day=until)
    if not costs:
        return (look,)
    amount = money(sum(costs.values(), Decimal(0)), hire.currency, says)
    return (look, says.say("What has not come back by then is charged as above, {amount} in all.", amount=amount))
