"""What the papers of a hire have in common: the names of what is sent, amounts of money, charges in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

from babel.numbers import format_currency

from catalogue.documents.contents.dates import day_text
from catalogue.documents.contents.letterhead import written_lines
from catalogue.documents.contents.parts_checklist import part_name, remarks
from catalogue.documents.labels import Labels
from catalogue.documents.model import Text, joined, value, wording
from catalogue.facts import ComposerFacts, WorkFacts
from catalogue.rules.hires.making_up import is_extra
from catalogue.rules.hires.reckoning import Charge, ChargeKind
from catalogue.rules.hires.terms import Hire, Item, Terms
from catalogue.terms.hires import LateStep

STEPS = {LateStep.WEEK: ("{n} week", "{n} weeks"), LateStep.MONTH: ("{n} month", "{n} months")}


def item_name(item: Item, work: WorkFacts, says: Labels) -> str:
    """The name of a part with its chair, or what else the row is of."""
    return part_name(item.part, work, says) if item.part is not None else item.name


def item_asides(item: Item, says: Labels) -> str:
    """What else the player plays, how many read from it; that a copy is spare."""
    if item.part is None:
        return ""
    return says.word("extra") if is_extra(item) else ", ".join(remarks(item.part, says))


def item_number(item: Item) -> str:
    """Return the number that the part of a row bears; nothing for what is no part."""
    return item.part.label if item.part is not None else ""


def money(amount: Decimal, currency: str, says: Labels) -> str:
    """An amount as the language writes it (Unicode CLDR); without a currency, the number alone."""
    if not currency:
        return plain_number(amount, says, places=2)
    return format_currency(amount, currency, locale=says.locale).replace("-", "−")


def plain_number(number: Decimal, says: Labels, *, places: int | None = None) -> str:
    """A number as the language writes it, without needless noughts.

    >>> from catalogue.documents.labels import labels
    >>> plain_number(Decimal("2.50"), labels("de")), plain_number(Decimal(10), labels("en-GB"))
    ('2,5', '10')
    """
    text = f"{number:.{places}f}" if places is not None else f"{number.normalize():f}"
    return says.figure(text)


def day(when: date | None, says: Labels) -> str:
    return day_text(when, says.language) if when is not None else ""


def period(hire: Hire, says: Labels) -> Text:
    """From when to when the set is lent, what is known of it."""
    if hire.out_on is not None and hire.due is not None:
        return says.say("{first} to {last}", first=day(hire.out_on, says), last=day(hire.due, says))
    if hire.due is not None:
        return says.say("until {day}", day=day(hire.due, says))
    return says.say("from {day}", day=day(hire.out_on, says)) if hire.out_on is not None else ()


# ---- the lender


def lender(terms: Terms, composer: ComposerFacts) -> str:
    """Who lends: the lender whom the terms name, else the composer's house, else the composer."""
    return terms.lender or (composer.house.name if composer.house else composer.name)


def lender_lines(terms: Terms, composer: ComposerFacts) -> tuple[Text, ...]:
    """Where the lender is and how it is reached; the composer's where the terms name no lender of their own.

    Of a house that lends, its letterhead says so.
    """
    own = bool(terms.lender or terms.address or terms.email or terms.telephone)
    if not own and composer.house:
        return ()
    source: Terms | ComposerFacts = terms if own else composer
    address = ", ".join(written_lines(source.address))
    return tuple(value(line) for line in (address, source.email, source.telephone) if line)


# ---- charges


def charge_text(charge: Charge, hire: Hire, work: WorkFacts, says: Labels) -> Text:
    """What a charge is for, with how it was reckoned."""
    return joined((charge_head(charge, work, says), value(reckoned(charge, hire, says))), ": ")


def charge_head(charge: Charge, work: WorkFacts, says: Labels) -> Text:
    if charge.item is None:
        return wording(says.word(HEADS[charge.kind]))
    named = " ".join(one for one in (item_number(charge.item), item_name(charge.item, work, says)) if one)
    return says.say("Missing, {part}" if charge.kind is ChargeKind.MISSING else "Damaged, {part}", part=named)


HEADS = {
    ChargeKind.FEE: "Hire fee",
    ChargeKind.EXTENSION: "Extension",
    ChargeKind.LATE: "Late return",
    ChargeKind.MISSING: "Missing",
    ChargeKind.DAMAGED: "Damaged",
    ChargeKind.ERASING: "Erasing of markings",
}


def reckoned(charge: Charge, hire: Hire, says: Labels) -> str:
    return says.parted(steps_in_words(charge, hire, says))


def steps_in_words(charge: Charge, hire: Hire, says: Labels) -> Iterator[str]:
    if charge.number is None or charge.each is None:
        return
    each = money(charge.each, hire.currency, says)
    number = plain_number(charge.number, says)
    if charge.percent is not None:
        percent = plain_number(charge.percent, says)
        yield says.word("{percent} % of the fee").replace("{percent}", percent)
        if charge.step in STEPS:
            count = says.count(*STEPS[charge.step], int(charge.number))
            yield says.word("{count} begun, {each} each").replace("{count}", count).replace("{each}", each)
    elif charge.kind is ChargeKind.ERASING:
        yield says.word("{number} hours at {each}").replace("{number}", number).replace("{each}", each)
    elif charge.number > 1:
        yield says.word("{number} at {each}").replace("{number}", number).replace("{each}", each)
