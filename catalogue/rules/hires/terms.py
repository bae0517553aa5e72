"""A hire as plain values: who has which set, for when, on which terms, and what went out and came back.

Amounts are ``Decimal`` in the currency of the hire; days are those of the lender's calendar.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.facts import PerformanceFacts
from catalogue.instrumentation.parts import Part
from catalogue.terms.hires import LateStep, MaterialForm, PartAction, PartCondition, Purpose
from catalogue.timing import PartialDate


@dataclass(frozen=True, slots=True)
class Terms:
    """The rules of the house. Percentages are of the fee; ``rate`` is for an hour of erasing."""

    name: str = ""
    lender: str = ""
    address: str = ""
    email: str = ""
    telephone: str = ""
    days_after: int | None = None
    extension_percent: Decimal | None = None
    late_percent: Decimal | None = None
    late_step: LateStep = LateStep.WEEK
    part_charge: Decimal | None = None
    score_charge: Decimal | None = None
    erasing_rate: Decimal | None = None
    marking: str = ""
    copying: str = ""
    returning: str = ""


@dataclass(frozen=True, slots=True)
class Item:
    """A row of the list that goes with a set: a part of the work, or something else by its ``name``.

    ``expected`` are the copies that belong to the set, ``None`` where the number of singers is open; ``sent``,
    ``received`` and ``back`` are what was counted, ``None`` where nobody has counted yet.
    """

    id: int
    part: Part | None = None
    name: str = ""
    expected: int | None = 1
    copy_numbers: str = ""
    sent: int | None = None
    received: int | None = None
    back: int | None = None
    condition: PartCondition | None = None
    remark: str = ""
    action: PartAction | None = None
    charge: Decimal | None = None

    @property
    def out(self) -> int:
        """How many copies went out, as far as is known."""
        return self.sent if self.sent is not None else self.expected or 0

    @property
    def missing(self) -> int:
        """How many copies did not come back; none before they were counted.

        >>> Item(1, expected=7, sent=7, back=6).missing, Item(1, expected=7).missing
        (1, 0)
        """
        return max(self.out - self.back, 0) if self.back is not None else 0

    @property
    def short(self) -> int:
        """How many copies did not arrive; none before they were counted."""
        return max(self.out - self.received, 0) if self.received is not None else 0


@dataclass(frozen=True, slots=True)
class Hire:
    """A loan or a sale of material of one work."""

    id: int
    number: str
    purpose: Purpose
    work: int
    hirer: str = ""
    attention: str = ""
    address: str = ""
    order: str = ""
    set_number: str = ""
    strings: tuple[int, ...] = ()
    form: MaterialForm | None = None
    edition: str = ""
    paper: str = ""
    errata_on: PartialDate | None = None
    out_on: date | None = None
    due_on: date | None = None
    extended_to: date | None = None
    back_on: date | None = None
    carrier: str = ""
    enclosed: str = ""
    fee: Decimal | None = None
    currency: str = ""
    extension_fee: Decimal | None = None
    erasing_hours: Decimal | None = None
    paid: Decimal | None = None
    performances: tuple[PerformanceFacts, ...] = ()
    items: tuple[Item, ...] = ()
    terms: Terms = Terms()

    @property
    def due(self) -> date | None:
        """The day by which the set is to be back, extensions included; never for what is sold."""
        return None if self.purpose is Purpose.SALE else self.extended_to or self.due_on
