from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from catalogue.instrumentation import read
from catalogue.instrumentation.parts import Kind, Part, part_list
from catalogue.rules.hires.making_up import part_of, part_values, rows_of, set_of
from catalogue.rules.hires.reckoning import (
    Charge,
    ChargeKind,
    charges,
    days_late,
    months_later,
    state_of,
    steps_begun,
    total,
    total_missing,
)
from catalogue.rules.hires.terms import Hire, Item, Terms
from catalogue.terms.hires import HireState, LateStep, Purpose

TODAY = date(2026, 7, 1)
# Figures as lenders publish them: 10 % of the fee a week, an extension at 20 % a month (common practice).
TERMS = Terms(
    late_percent=Decimal(10),
    extension_percent=Decimal(20),
    part_charge=Decimal("35.00"),
    score_charge=Decimal("60.00"),
    erasing_rate=Decimal("18.00"),
)
FLUTE = Item(1, Part(1, Kind.PLAYER, "flute"), sent=1)
VIOLINS = Item(2, Part(2, Kind.SECTION, "violin-1", players=14, copies=7), expected=7, sent=7)
SCORE = Item(3, Part(0, Kind.SCORE), sent=1)


def hire(**columns: object) -> Hire:
    usual = Hire(
        1,
        "2026-001",
        Purpose.HIRE,
        1,
        out_on=date(2026, 3, 2),
        due_on=date(2026, 6, 5),
        fee=Decimal("180.00"),
        currency="EUR",
        terms=TERMS,
    )
    return replace(usual, **columns)


@pytest.mark.parametrize(
    ("columns", "state", "late"),
    [
        ({"out_on": None}, HireState.PLANNED, 0),
        ({"out_on": date(2026, 7, 2), "due_on": date(2026, 8, 2)}, HireState.PLANNED, 0),
        ({"due_on": TODAY}, HireState.OUT, 0),
        ({"due_on": None}, HireState.OUT, 0),
        ({}, HireState.OVERDUE, 26),
        ({"extended_to": date(2026, 7, 3)}, HireState.OUT, 0),
        ({"purpose": Purpose.SALE}, HireState.KEPT, 0),
        ({"back_on": date(2026, 6, 5)}, HireState.BACK, 0),
        ({"back_on": date(2026, 6, 8)}, HireState.BACK, 3),
        ({"back_on": date(2026, 6, 1), "items": (replace(FLUTE, back=0),)}, HireState.INCOMPLETE, 0),
    ],
)
def test_state_and_lateness_follow_from_the_days(columns: dict[str, object], state: HireState, late: int) -> None:
    assert (state_of(hire(**columns), TODAY), days_late(hire(**columns), TODAY)) == (state, late)


@pytest.mark.parametrize(
    ("last", "step", "number"),
    [
        (date(2026, 1, 31), LateStep.WEEK, 0),
        (date(2026, 2, 1), LateStep.WEEK, 1),
        (date(2026, 2, 7), LateStep.WEEK, 1),
        (date(2026, 2, 8), LateStep.WEEK, 2),
        (date(2026, 2, 28), LateStep.MONTH, 1),
        (date(2026, 3, 1), LateStep.MONTH, 2),
        (date(2026, 12, 1), LateStep.ONCE, 1),
    ],
)
def test_a_week_or_month_counts_once_it_has_begun(last: date, step: LateStep, number: int) -> None:
    assert steps_begun(date(2026, 1, 31), last, step) == number


def test_months_end_where_the_next_is_shorter() -> None:
    assert [months_later(date(2027, 10, 31), months) for months in (0, 1, 2, 4)] == [
        date(2027, 10, 31),
        date(2027, 11, 30),
        date(2027, 12, 31),
        date(2028, 2, 29),
    ]


def test_account_names_fee_lateness_and_each_part() -> None:
    short, torn = replace(VIOLINS, back=5), replace(FLUTE, back=1, charge=Decimal("12.00"))
    lost = replace(SCORE, back=0)
    one = hire(back_on=date(2026, 6, 13), items=(lost, torn, short), erasing_hours=Decimal("1.5"))

    found = charges(one, TODAY)

    assert found == (
        Charge(ChargeKind.FEE, Decimal("180.00")),
        Charge(ChargeKind.LATE, Decimal("36.00"), Decimal(2), Decimal("18.00"), Decimal(10), LateStep.WEEK),
        Charge(ChargeKind.MISSING, Decimal("60.00"), Decimal(1), Decimal("60.00"), item=lost),
        Charge(ChargeKind.DAMAGED, Decimal("12.00"), item=torn),
        Charge(ChargeKind.MISSING, Decimal("70.00"), Decimal(2), Decimal("35.00"), item=short),
        Charge(ChargeKind.ERASING, Decimal("27.00"), Decimal("1.5"), Decimal("18.00")),
    )
    assert total(found) == Decimal("385.00")
    assert total_missing(one.items) == 3


def test_extension_costs_what_was_agreed_else_what_the_house_asks() -> None:
    extended = hire(extended_to=date(2026, 7, 20))

    assert charges(extended, TODAY)[1:] == (
        Charge(ChargeKind.EXTENSION, Decimal("72.00"), Decimal(2), Decimal("36.00"), Decimal(20), LateStep.MONTH),
    )
    assert charges(replace(extended, extension_fee=Decimal(50)), TODAY)[1:] == (
        Charge(ChargeKind.EXTENSION, Decimal(50)),
    )


def test_without_a_rule_and_an_amount_nothing_is_charged() -> None:
    bare = hire(fee=None, terms=Terms(), items=(replace(FLUTE, back=0),), erasing_hours=Decimal(2))

    assert charges(bare, TODAY) == ()


def test_list_keeps_its_parts_as_they_were_made_up() -> None:
    made = part_list(read("2(II=picc).0.0.0 – str"), (8, 6, 4, 4, 2), extra=1)
    kept = [Item(number, part_of(part_values(part))) for number, part in enumerate(rows_of(made))]

    assert set_of(kept) == made
