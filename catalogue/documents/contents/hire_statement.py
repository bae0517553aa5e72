"""The hire statement: the account of one hire, or all hires of a period with what each came to.

Amounts of different currencies are never added up.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.documents.contents.dates import date_text
from catalogue.documents.contents.hire_checks import lines_of
from catalogue.documents.contents.hire_head import facts, hired_for, opening, paper_of
from catalogue.documents.contents.hire_words import charge_head, day, lender, money, reckoned
from catalogue.documents.contents.titles import short_title
from catalogue.documents.labels import Labels, labels
from catalogue.documents.model import (
    Block,
    Cell,
    Column,
    Document,
    Group,
    Paper,
    Paragraph,
    Table,
    Text,
    Voice,
    joined,
    value,
    wording,
)
from catalogue.documents.needs import DocumentNeeds
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.rules.hires.reckoning import Charge, charges, days_late, total
from catalogue.rules.hires.terms import Hire
from catalogue.timing import PartialDate


@dataclass(frozen=True, slots=True)
class Period:
    """The days of a statement of many hires; one that is ``None`` is open."""

    first: date | None = None
    last: date | None = None

    def holds(self, when: date) -> bool:
        return (self.first is None or self.first <= when) and (self.last is None or when <= self.last)


def hire_statement(
    hires: tuple[Hire, ...],
    works: dict[int, WorkFacts],
    composer: ComposerFacts,
    *,
    period: Period | None = None,
    language: str,
    paper: Paper,
    printed_on: date,
) -> Document:
    """The account of the one hire, or of all that went out in a period. Raises DocumentNeeds where there is none."""
    says = labels(language)
    if period is None:
        return account_of_one(hires[0], works[hires[0].work], composer, says=says, paper=paper, printed_on=printed_on)
    return account_of_all(hires, works, composer, period=period, says=says, paper=paper, printed_on=printed_on)


# ---- of one hire


def account_of_one(
    hire: Hire, work: WorkFacts, composer: ComposerFacts, *, says: Labels, paper: Paper, printed_on: date
) -> Document:
    found = charges(hire, printed_on)
    if not found:
        reason = f"There is no fee and no charge for the hire of “{work.title.title}” yet."
        raise DocumentNeeds(reason, ("fee",))
    blocks: tuple[Block, ...] = (
        facts(hire, work, composer, says),
        Paragraph(says.say("As of {day}", day=day(printed_on, says))),
        account(found, hire, work, says),
        *(Paragraph(text, Voice.NOTE) for text in remarks(hire, found, printed_on, says)),
    )
    return paper_of("hire-statement", "Hire statement", hire, work, composer, blocks, says=says, paper=paper)


def account(found: tuple[Charge, ...], hire: Hire, work: WorkFacts, says: Labels) -> Table:
    rows = [
        (
            Cell((charge_head(one, work, says),)),
            Cell(lines_of(value(reckoned(one, hire, says)))),
            Cell((value(money(one.amount, hire.currency, says)),)),
        )
        for one in found
    ]
    heads = (("what", "What for"), ("reckoned", "How it is reckoned"), ("amount", "Amount"))
    sum_of_all = value(money(total(found), hire.currency, says))
    return Table(
        tuple(Column(key, wording(says.word(head))) for key, head in heads),
        (Group((), tuple(rows)),),
        total=(Cell((wording(says.word("Total")),)), Cell(), Cell((sum_of_all,))),
    )


def remarks(hire: Hire, found: tuple[Charge, ...], today: date, says: Labels) -> Iterable[Text]:
    """What has been paid and what is left; that a set is still out."""
    if hire.paid is not None:
        left = total(found) - hire.paid
        yield says.say(
            "Paid so far: {paid}. Still to be paid: {left}.",
            paid=money(hire.paid, hire.currency, says),
            left=money(left, hire.currency, says),
        )
    if hire.back_on is None and days_late(hire, today):
        yield says.say("As of {day}; the set has not come back yet.", day=day(today, says))


# ---- of a period


def account_of_all(
    hires: tuple[Hire, ...],
    works: dict[int, WorkFacts],
    composer: ComposerFacts,
    *,
    period: Period,
    says: Labels,
    paper: Paper,
    printed_on: date,
) -> Document:
    told = tuple(one for one in hires if one.out_on is not None and period.holds(one.out_on) and one.work in works)
    if not told:
        raise DocumentNeeds("No set went out in this period.", ("hires",))
    title, named = says.word("Hire statement"), {one.terms.name: one.terms for one in told}
    terms = told[0].terms if len(named) == 1 else None
    head = opening("Hire statement", told[0], composer, says)
    return Document(
        kind="hire-statement",
        title=f"{composer.name}: {title}",
        author=lender(terms, composer) if terms else composer.name,
        language=says.language,
        paper=paper,
        blocks=(head, list_of(told, works, printed_on, says), Paragraph(totals(told, printed_on, says), Voice.NOTE)),
        running=(value(composer.name), wording(title)),
        dated=says.say("As of {day}", day=day(printed_on, says)),
    )


def list_of(told: tuple[Hire, ...], works: dict[int, WorkFacts], today: date, says: Labels) -> Table:
    heads = (
        ("number", "Note no."), ("hirer", "Hirer"), ("work", "Work"), ("out", "Sent"), ("back", "Returned"),
        ("amount", "Amount"),
    )  # fmt: skip
    rows = tuple(row(one, works[one.work], today, says) for one in told)
    return Table(tuple(Column(key, wording(says.word(head))) for key, head in heads), (Group((), rows),))


def row(hire: Hire, work: WorkFacts, today: date, says: Labels) -> tuple[Cell, ...]:
    found = charges(hire, today)
    amount = value(money(total(found), hire.currency, says)) if found else ()
    due = says.say("due {day}", day=short_day(hire.due, says)) if hire.due is not None else ()
    back = value(short_day(hire.back_on, says)) if hire.back_on else due
    return (
        Cell(lines_of(value(hire.number))),
        Cell(lines_of(value(hire.hirer))),
        Cell((short_title(work.title), *lines_of(hired_for(hire, says)))),
        Cell(lines_of(value(short_day(hire.out_on, says)))),
        Cell(lines_of(back)),
        Cell(lines_of(amount)),
    )


def short_day(when: date | None, says: Labels) -> str:
    return date_text(PartialDate.of(when), says.language, "short") if when is not None else ""


def totals(told: tuple[Hire, ...], today: date, says: Labels) -> Text:
    """How many sets, and the sum of each currency."""
    sums: dict[str, Decimal] = {}
    for one in told:
        found = charges(one, today)
        if found:
            sums[one.currency] = sums.get(one.currency, Decimal(0)) + total(found)
    counted = wording(says.count("{n} hire", "{n} hires", len(told)))
    amounts = tuple(value(money(amount, currency, says)) for currency, amount in sorted(sums.items()))
    return joined((counted, *amounts), ", ")
