"""By when the steps around a performance are due. The lead times are common practice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from uuid import UUID

import pytest

from catalogue.facts import PerformanceFacts
from catalogue.rules.journey import (
    Around,
    Lead,
    LeadError,
    Lent,
    Stage,
    Standing,
    StepFacts,
    after,
    asked_until,
    before,
    is_told_by_its_set,
    journey_of,
    leads_of,
    read_lead,
    usual_leads,
)
from catalogue.terms import PerformanceStatus, StepKind, StepState
from catalogue.timing import PartialDate

TODAY = date(2026, 3, 9)
EVENT = PerformanceFacts(1, UUID(int=1), PartialDate(2026, 5, 16), status=PerformanceStatus.CONFIRMED)
OVER = replace(EVENT, date=PartialDate(2026, 2, 20), status=PerformanceStatus.GIVEN)
USUAL = Around(usual_leads())


def stages(event: PerformanceFacts, around: Around = USUAL) -> dict[StepKind, Stage]:
    return {stage.kind: stage for stage in journey_of(event, around, today=TODAY)}


def with_steps(*steps: StepFacts) -> Around:
    return replace(USUAL, steps=steps)


def test_every_step_but_an_own_one_has_a_lead_time_before_or_after() -> None:
    assert {*before(), *after()} == set(StepKind) - {StepKind.OTHER}
    assert not set(before()) & set(after())


def test_steps_before_are_counted_back_and_steps_after_counted_on() -> None:
    found = stages(EVENT)

    assert found[StepKind.CONTRACT] == Stage(StepKind.CONTRACT, False, Standing.LATE, date(2026, 2, 15))
    assert found[StepKind.PARTS] == Stage(StepKind.PARTS, False, Standing.OPEN, date(2026, 3, 21))
    assert found[StepKind.RETURN] == Stage(StepKind.RETURN, True, Standing.OPEN, date(2026, 8, 14))


def test_of_a_month_the_first_day_counts_before_and_the_last_after() -> None:
    found = stages(replace(EVENT, date=PartialDate(2026, 6)))

    assert (found[StepKind.TRAVEL].due, found[StepKind.THANKS].due) == (date(2026, 5, 4), date(2026, 7, 7))


def test_what_was_said_first_goes_before_the_rest() -> None:
    presenter, own = {StepKind.PARTS: Lead(70)}, {StepKind.PARTS: Lead(42), StepKind.TRAVEL: Lead(None)}

    leads = leads_of(presenter, own)

    assert (leads[StepKind.PARTS], leads[StepKind.TRAVEL], leads[StepKind.RIDER]) == (Lead(70), Lead(None), Lead(56))


@pytest.mark.parametrize(
    ("step", "standing"),
    [
        (StepFacts(StepKind.CONTRACT, StepState.DONE), Standing.DONE),
        (StepFacts(StepKind.CONTRACT, StepState.NOT_NEEDED), Standing.NOT_NEEDED),
        (StepFacts(StepKind.CONTRACT, due=date(2026, 3, 9)), Standing.OPEN),
        (StepFacts(StepKind.CONTRACT, due=date(2026, 3, 8)), Standing.LATE),
        (StepFacts(StepKind.CONTRACT, note="They will write"), Standing.LATE),
    ],
)
def test_what_somebody_said_goes_before_what_is_reckoned(step: StepFacts, standing: Standing) -> None:
    found = stages(EVENT, with_steps(step))[StepKind.CONTRACT]

    assert (found.standing, found.due) == (standing, step.due or date(2026, 2, 15))


def test_what_records_show_is_done_and_what_nothing_asks_for_is_not_needed() -> None:
    around = Around(usual_leads(), shown=frozenset({StepKind.RIDER}), needless=frozenset({StepKind.PARTS}))

    found = stages(EVENT, around)

    assert (found[StepKind.RIDER].standing, found[StepKind.PARTS].standing) == (Standing.DONE, Standing.NOT_NEEDED)
    assert found[StepKind.RIDER].is_shown


OUT = Lent(7, out_on=date(2026, 3, 1), due=date(2026, 6, 30))
BACK = replace(OUT, back_on=date(2026, 3, 9))


@pytest.mark.parametrize(
    ("lent", "is_delivered"),
    [
        ((OUT,), False),
        ((OUT, replace(OUT, work=8, out_on=None)), False),
        ((OUT, replace(OUT, work=8, out_on=date(2026, 3, 10))), False),
        ((OUT, Lent(8, out_on=date(2026, 3, 9), is_for_good=True)), True),
    ],
)
def test_parts_are_delivered_once_those_of_every_work_have_gone_out(lent: tuple[Lent, ...], is_delivered: bool) -> None:
    around = replace(USUAL, with_parts=frozenset({7, 8}), lent=lent)

    found = stages(EVENT, around)[StepKind.PARTS]

    assert (found.standing is Standing.DONE, found.is_shown) == (is_delivered, is_delivered)


@pytest.mark.parametrize(
    ("lent", "due", "standing"),
    [
        ((OUT,), date(2026, 6, 30), Standing.OPEN),
        ((OUT, replace(OUT, due=date(2026, 7, 2))), date(2026, 7, 2), Standing.OPEN),
        ((BACK, OUT), date(2026, 6, 30), Standing.OPEN),
        ((BACK,), date(2026, 6, 30), Standing.DONE),
    ],
)
def test_set_is_due_when_it_was_agreed_and_back_when_all_are(
    lent: tuple[Lent, ...], due: date, standing: Standing
) -> None:
    found = stages(EVENT, replace(USUAL, lent=lent))[StepKind.SET_BACK]

    assert (found.due, found.standing) == (due, standing)


@pytest.mark.parametrize(
    ("lent", "said", "told"),
    [
        ((OUT,), (), True),
        ((BACK,), (), False),
        ((replace(OUT, due=None),), (), False),
        ((replace(OUT, is_for_good=True),), (), False),
        ((OUT,), (StepFacts(StepKind.SET_BACK, due=date(2026, 7, 1)),), False),
    ],
)
def test_set_that_is_out_reminds_by_itself_once(
    lent: tuple[Lent, ...], said: tuple[StepFacts, ...], told: bool
) -> None:
    around = replace(USUAL, lent=lent, steps=said)

    assert is_told_by_its_set(stages(EVENT, around)[StepKind.SET_BACK], around) is told


def test_day_set_by_hand_asks_for_what_is_not_needed_by_itself() -> None:
    step = StepFacts(StepKind.PARTS, due=date(2026, 4, 1))
    around = replace(with_steps(step), needless=frozenset({StepKind.PARTS}))

    assert stages(EVENT, around)[StepKind.PARTS].standing is Standing.OPEN


def test_what_was_not_done_before_is_asked_for_no_more_once_it_is_over() -> None:
    found = stages(OVER)

    assert {found[kind].standing for kind in before()} == {Standing.MISSED}
    assert {kind: found[kind].standing for kind in after()} == {
        StepKind.LASTED: Standing.LATE,
        StepKind.THANKS: Standing.LATE,
        StepKind.SET_BACK: Standing.LATE,
        StepKind.RECORDING: Standing.OPEN,
        StepKind.REVIEW: Standing.OPEN,
        StepKind.RETURN: Standing.OPEN,
    }


def test_step_after_is_asked_for_a_while_and_then_let_go() -> None:
    event = replace(OVER, date=PartialDate(2025, 10, 1))

    found = stages(event)

    assert (found[StepKind.THANKS].standing, found[StepKind.RETURN].standing) == (Standing.MISSED, Standing.LATE)


@pytest.mark.parametrize("status", [PerformanceStatus.CANCELLED, PerformanceStatus.DUPLICATE])
def test_event_that_does_not_take_place_asks_for_nothing(status: PerformanceStatus) -> None:
    assert journey_of(replace(EVENT, status=status), USUAL, today=TODAY) == ()


def test_step_of_ones_own_stands_by_its_day() -> None:
    steps = [
        StepFacts(StepKind.OTHER, label=label, due=day)
        for label, day in (("Send the score", date(2026, 3, 1)), ("Collect the gong", date(2026, 5, 20)))
    ]

    found = [one for one in journey_of(EVENT, with_steps(*steps), today=TODAY) if one.kind is StepKind.OTHER]

    assert [(one.step, one.is_after, one.standing) for one in found] == [
        (steps[0], False, Standing.LATE),
        (steps[1], True, Standing.OPEN),
    ]


def test_only_what_is_open_and_due_is_asked_for_the_most_urgent_first() -> None:
    around = with_steps(StepFacts(StepKind.RIDER, StepState.DONE))

    asked = asked_until(journey_of(EVENT, around, today=TODAY), date(2026, 4, 4))

    assert [one.kind for one in asked] == [StepKind.CONTRACT, StepKind.PARTS, StepKind.TEXTS, StepKind.STREAM]


@pytest.mark.parametrize(
    ("text", "lead", "written"),
    [
        ("6 weeks", Lead(42), "6 weeks"), (" 1 Week ", Lead(7), "1 week"), ("10", Lead(10), "10 days"),
        ("0 days", Lead(0), "0 days"), ("3 months", Lead(90), "90 days"), ("Not needed", Lead(None), "not needed"),
    ],
)  # fmt: skip
def test_lead_time_is_read_as_it_is_typed(text: str, lead: Lead, written: str) -> None:
    assert (read_lead(text), str(lead)) == (lead, written)


@pytest.mark.parametrize("text", ["soon", "-3", "6 years", "1501", "", "٣ days"])
def test_what_is_no_lead_time_is_refused_with_a_sentence(text: str) -> None:
    with pytest.raises(LeadError) as refused:
        read_lead(text)

    assert refused.value.reason.endswith(".")
    assert (refused.value.text, refused.value.start, refused.value.end) == (text, 0, len(text))
