"""What a hire comes to: late or not, what is missing, and each charge with how it was reckoned.

Late charges, extensions and replacements are the house's own; nothing is charged for which it has no rule and nobody
has typed an amount.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Decimal
from enum import StrEnum

from catalogue.instrumentation.parts import Kind
from catalogue.rules.hires.terms import Hire, Item
from catalogue.terms.hires import HireState, LateStep, Purpose

CENT = Decimal("0.01")
WEEK = 7


class ChargeKind(StrEnum):
    """What a charge is for."""

    FEE = "fee"
    EXTENSION = "extension"
    LATE = "late return"
    MISSING = "missing"
    DAMAGED = "damaged"
    ERASING = "erasing"


@dataclass(frozen=True, slots=True)
class Charge:
    """A line of the account. ``number`` is of steps, copies or hours, ``each`` the amount for one of them."""

    kind: ChargeKind
    amount: Decimal
    number: Decimal | None = None
    each: Decimal | None = None
    percent: Decimal | None = None
    step: LateStep | None = None
    item: Item | None = None


def rounded(amount: Decimal) -> Decimal:
    """Round an amount to hundredths, halves up.

    >>> rounded(Decimal("2.345"))
    Decimal('2.35')
    """
    return amount.quantize(CENT, ROUND_HALF_UP)


# ---- days


def days_late(hire: Hire, today: date) -> int:
    """How many days after the day it was due the set came back, or is still out today."""
    if hire.due is None or hire.out_on is None:
        return 0
    return max(((hire.back_on or today) - hire.due).days, 0)


def steps_begun(first: date, last: date, step: LateStep) -> int:
    """How many weeks or months have begun after the first day, up to the last.

    >>> steps_begun(date(2026, 1, 31), date(2026, 3, 1), LateStep.MONTH)
    2
    >>> steps_begun(date(2026, 6, 5), date(2026, 6, 12), LateStep.WEEK)
    1
    """
    days = (last - first).days
    if days <= 0:
        return 0
    if step is LateStep.ONCE:
        return 1
    if step is LateStep.WEEK:
        return -(-days // WEEK)
    months = 0
    while months_later(first, months) < last:
        months += 1
    return months


def months_later(day: date, months: int) -> date:
    """The same day so many months later, the last of the month where it has no such day."""
    years, month = divmod(day.month - 1 + months, 12)
    first = date(day.year + years, month + 1, 1)
    after = date(first.year + first.month // 12, first.month % 12 + 1, 1)
    return min(first + timedelta(days=day.day - 1), after - timedelta(days=1))


def state_of(hire: Hire, today: date) -> HireState:
    """How far the hire has come."""
    if hire.back_on is not None:
        return HireState.INCOMPLETE if any(item.missing for item in hire.items) else HireState.BACK
    if hire.out_on is None or hire.out_on > today:
        return HireState.PLANNED
    if hire.purpose is Purpose.SALE:
        return HireState.KEPT
    return HireState.OVERDUE if days_late(hire, today) else HireState.OUT


# ---- copies


def total_out(items: Iterable[Item]) -> int:
    """Return how many copies went out, as far as is known."""
    return sum(item.out for item in items)


def total_missing(items: Iterable[Item]) -> int:
    """Return how many copies that went out have not come back."""
    return sum(item.missing for item in items)


# ---- money


def charges(hire: Hire, today: date) -> tuple[Charge, ...]:
    """The lines of the account in their order: fee, extension, late return, each part, erasing."""
    return (
        *([Charge(ChargeKind.FEE, hire.fee)] if hire.fee is not None else []),
        *extension(hire),
        *late(hire, today),
        *(charge for item in hire.items for charge in for_part(item, hire)),
        *erasing(hire),
    )


def total(found: Iterable[Charge]) -> Decimal:
    """Return what charges come to, in the currency of their hire."""
    return sum((charge.amount for charge in found), Decimal(0))


def extension(hire: Hire) -> Iterator[Charge]:
    """What was agreed for the extension, else the house's percentage of the fee for every month begun."""
    if hire.extension_fee is not None:
        yield Charge(ChargeKind.EXTENSION, hire.extension_fee)
    elif hire.fee and hire.due_on and hire.extended_to and hire.terms.extension_percent is not None:
        months = steps_begun(hire.due_on, hire.extended_to, LateStep.MONTH)
        if months:
            yield in_steps(ChargeKind.EXTENSION, hire.fee, hire.terms.extension_percent, months, LateStep.MONTH)


def late(hire: Hire, today: date) -> Iterator[Charge]:
    """The house's percentage of the fee, once or for every week or month begun."""
    percent, step = hire.terms.late_percent, hire.terms.late_step
    if hire.fee and percent is not None and hire.due is not None and days_late(hire, today):
        yield in_steps(ChargeKind.LATE, hire.fee, percent, steps_begun(hire.due, hire.back_on or today, step), step)


def in_steps(kind: ChargeKind, fee: Decimal, percent: Decimal, number: int, step: LateStep) -> Charge:
    each = rounded(fee * percent / 100)
    return Charge(kind, each * number, Decimal(number), each, percent, step)


def for_part(item: Item, hire: Hire) -> Iterator[Charge]:
    """What was typed beside a part; else, for copies that are missing, the house's price of each."""
    kind = ChargeKind.MISSING if item.missing else ChargeKind.DAMAGED
    if item.charge is not None:
        yield Charge(kind, item.charge, Decimal(item.missing) if item.missing else None, item=item)
        return
    each = hire.terms.score_charge if is_score(item) else hire.terms.part_charge
    if item.missing and each is not None and item.part is not None:
        yield Charge(kind, each * item.missing, Decimal(item.missing), each, item=item)


def is_score(item: Item) -> bool:
    return item.part is not None and item.part.kind in (Kind.SCORE, Kind.CUE_SCORE)


def erasing(hire: Hire) -> Iterator[Charge]:
    hours, rate = hire.erasing_hours, hire.terms.erasing_rate
    if hours and rate is not None:
        yield Charge(ChargeKind.ERASING, rounded(hours * rate), hours, rate)
