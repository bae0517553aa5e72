from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from django.core.exceptions import ValidationError

from catalogue.actions.hires import Counted, NoList, Stage, count_list, make_up_list, save_hire
from catalogue.actions.journeys import mark_step
from catalogue.actions.saving import Overtaken
from catalogue.gathering.hires import gather_hire, gather_hires
from catalogue.models import Hire, HireTerms, MaterialSet, Step, Work
from catalogue.rules.hires.reckoning import total_missing, total_out
from catalogue.terms import StepKind, StepState
from catalogue.terms.hires import PartCondition
from catalogue.timing import PartialDate
from tests.makers import NOW, make_performance, make_work
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db


@pytest.fixture
def work() -> Work:
    return make_work("Slack Rope", instrumentation="1.0.0.0 – str")


@pytest.fixture
def lent(work: Work) -> MaterialSet:
    made: MaterialSet = make_record(MaterialSet, work=work, extra=1)
    return made


def planned(work: Work, **columns: object) -> Hire:
    return Hire(**{"composer": work.composer, "work": work, "name": "Two Bells Orchestra", **columns})


def test_what_is_left_empty_is_taken_from_the_terms(work: Work) -> None:
    terms = make_record(HireTerms, work=work)
    evenings = [make_performance(work, date=day) for day in ("2026-05-16", "2026-05-17")]
    first, second = planned(work, terms=terms, out_on=date(2026, 3, 2)), planned(work, terms=terms)

    save_hire(hire=first, performances=evenings, now=NOW)
    save_hire(hire=second, performances=(), now=NOW)

    assert (first.number, first.currency, first.due_on) == ("2026-001", "EUR", date(2026, 5, 31))
    assert (second.number, second.due_on) == ("2026-002", None)
    assert [one.id for one in gather_hire(first).performances] == [one.pk for one in evenings]


def test_list_is_made_of_the_forces_and_the_strings_of_the_set(work: Work, lent: MaterialSet) -> None:
    hire = planned(work, material_set=lent)

    save_hire(hire=hire, performances=(), now=NOW)

    rows = [(row.part["instrument"], row.expected, row.copy_numbers) for row in hire.items.all()]
    assert rows[:4] == [("", 1, ""), ("flute", 1, ""), ("violin-1", 4, "1–4"), ("violin-2", 3, "1–3")]
    assert [row[1] for row in rows[-5:]] == [1, 1, 1, 1, 1]
    assert gather_hires(work.composer) == (gather_hire(Hire.objects.get(pk=hire.pk)),)


def test_for_perusal_goes_the_score_alone(work: Work, lent: MaterialSet) -> None:
    hire = planned(work, purpose="perusal", material_set=lent)

    save_hire(hire=hire, performances=(), now=NOW)

    assert [row.part["kind"] for row in hire.items.all()] == ["score"]


def test_a_list_without_string_strengths_says_what_is_missing(work: Work) -> None:
    hire = planned(work)
    save_hire(hire=hire, performances=(), now=NOW)

    with pytest.raises(NoList) as caught:
        make_up_list(hire)

    assert caught.value.reason.startswith("The parts of “Slack Rope” cannot be listed. The number of violin 1 players")


def test_one_set_is_not_lent_twice_on_the_same_days(work: Work, lent: MaterialSet) -> None:
    out, due = date(2026, 3, 2), date(2026, 6, 5)
    save_hire(hire=planned(work, material_set=lent, out_on=out, due_on=due), performances=(), now=NOW)
    evening = make_performance(work, date="2026-05-16")
    other = planned(work, name="Harbour Band", material_set=lent)

    with pytest.raises(ValidationError) as caught:
        save_hire(hire=other, performances=[evening], now=NOW)

    (reason,) = caught.value.message_dict["material_set"]
    assert reason.replace("\N{NO-BREAK SPACE}", " ") == (
        "Set 1 is with Two Bells Orchestra from 2 March 2026 to 4 June 2026; choose another set or other days."
    )
    assert Hire.objects.count() == 1

    other.out_on, other.due_on = due, date(2026, 7, 1)
    save_hire(hire=other, performances=(), now=NOW)

    assert Hire.objects.count() == 2


def test_counts_are_kept_stage_by_stage(work: Work, lent: MaterialSet) -> None:
    hire = planned(work, material_set=lent)
    save_hire(hire=hire, performances=(), now=NOW)
    full = {row.pk: Counted(row.expected) for row in hire.items.all()}
    violin = hire.items.all()[2]

    count_list(hire=hire, stage=Stage.SENT, counted=full, more={"Errata list": 2}, now=NOW, out_on=date(2026, 1, 9))
    back = Counted(3, PartCondition.MISSING, "copy 2/4", charge=Decimal("35.00"))
    count_list(hire=hire, stage=Stage.BACK, counted={**full, violin.pk: back}, now=NOW, back_on=date(2026, 1, 15))

    facts = gather_hire(Hire.objects.get(pk=hire.pk))
    assert (total_out(facts.items), total_missing(facts.items)) == (21, 1)
    assert [(item.name, item.sent, item.back) for item in facts.items if item.name] == [("Errata list", 2, None)]
    with pytest.raises(NoList, match="counted"):
        make_up_list(hire)


def test_parts_are_delivered_once_every_set_has_left_whole(work: Work, lent: MaterialSet) -> None:
    evening, settled = make_performance(work, date="2026-02-06"), make_performance(work, date="2026-02-07")
    mark_step(performance=settled, kind=StepKind.PARTS, state=StepState.NOT_NEEDED, today=NOW.date(), now=NOW)
    hire = planned(work, material_set=lent)
    save_hire(hire=hire, performances=[evening, settled], now=NOW)
    full = {row.pk: Counted(row.expected) for row in hire.items.all()}
    short = {**full, hire.items.all()[1].pk: Counted(0)}

    first = count_list(hire=hire, stage=Stage.SENT, counted=short, now=NOW, out_on=date(2026, 1, 9))
    then = count_list(hire=hire, stage=Stage.SENT, counted=full, now=NOW, out_on=date(2026, 1, 10))

    assert (first, then) == ([], [evening])
    steps = {step.performance_id: (step.state, step.done_on) for step in Step.objects.all()}
    assert steps == {
        evening.pk: ("done", PartialDate.of(date(2026, 1, 10))),
        settled.pk: ("not needed", None),
    }


def test_a_count_of_somebody_who_did_not_see_the_last_save_is_refused(work: Work) -> None:
    hire = planned(work)
    save_hire(hire=hire, performances=(), now=NOW)
    hire.saves -= 1

    with pytest.raises(Overtaken):
        count_list(hire=hire, stage=Stage.SENT, counted={}, now=NOW)


@pytest.mark.parametrize(
    ("columns", "at"),
    [
        ({"out_on": date(2026, 3, 2), "due_on": date(2026, 3, 1)}, "due_on"),
        ({"back_on": date(2026, 3, 2)}, "out_on"),
        ({"fee": Decimal(10)}, "currency"),
        ({"fee": Decimal(10), "currency": "eur"}, "currency"),
        ({"name": ""}, "name"),
    ],
)
def test_hire_that_cannot_be_is_refused_at_its_place(work: Work, columns: dict[str, object], at: str) -> None:
    with pytest.raises(ValidationError) as caught:
        save_hire(hire=planned(work, **columns), performances=(), now=NOW)

    assert list(caught.value.message_dict) == [at]
