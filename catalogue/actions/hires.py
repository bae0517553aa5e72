"""Lending material: a set to one place at a time, its list counted as it goes, as it arrives and as it is back."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from enum import StrEnum
from typing import Any

from django.core.exceptions import ValidationError
from django.db import transaction

from catalogue.actions.journeys import mark_step
from catalogue.actions.records import save_record
from catalogue.actions.saving import check, latest_of, refuse_overtaken, set_rows, store
from catalogue.gathering.hires import loan_of, loans_of
from catalogue.gathering.people import gather_composer
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.readings import readable
from catalogue.gathering.works import gather_work
from catalogue.instrumentation.parts import PartsError, part_list
from catalogue.models import Composer, Hire, HiredPerformance, HireItem, MaterialSet, Performance, Step
from catalogue.rules.hires.clashes import Loan, clash
from catalogue.rules.hires.making_up import copy_numbers, part_values, rows_of
from catalogue.rules.refused import Refused
from catalogue.rules.strengths import strengths_of
from catalogue.terms import StepKind, StepState
from catalogue.terms.hires import PartAction, PartCondition, Purpose
from catalogue.timing import PartialDate, write_date

NUMBER = re.compile(r"(\d{4})-(\d{3,})", re.ASCII)


class Stage(StrEnum):
    """When a list is counted; each has a column of its own."""

    SENT = "sent"
    RECEIVED = "received"
    BACK = "back"


@dataclass(frozen=True, slots=True)
class Counted:
    """What was found of one row of a list."""

    copies: int | None
    condition: PartCondition | None = None
    remark: str = ""
    action: PartAction | None = None
    charge: Decimal | None = None


class NoList(Refused):
    """A list that cannot be made up; ``reason`` says in one sentence what is missing."""


# ---- the hire itself


@transaction.atomic
def save_hire(*, hire: Hire, performances: Sequence[Performance], now: datetime, with_new: Iterable[str] = ()) -> None:
    """Save a hire with its performances, and make up its list where it has none and one can be made.

    What is left empty is taken from the terms: the day on which the set is due, the currency; the number of the note is
    the next of its year. Raises Overtaken, and ValidationError for what must not be stored: a set that is elsewhere on
    one of the days among it.
    """
    refuse_overtaken(hire, latest_of(hire))  # before the set, as whoever counts a list locks them
    refuse_set_elsewhere(hire, performances, now.date())
    take_from_terms(hire, performances)
    hire.number = hire.number or next_number(hire, now.date())
    save_record(record=hire, now=now, with_new=with_new)
    for_these(hire, performances)
    if not hire.items.exists():
        try:
            make_up_list(hire)
        except NoList:
            return


def refuse_set_elsewhere(hire: Hire, performances: Sequence[Performance], today: date) -> None:
    """Raise ValidationError where somebody else has the set on a day on which it is wanted."""
    wanted = loan_of(hire, performances, today)
    if hire.material_set_id is None or wanted is None:
        return
    locked = MaterialSet.objects.select_for_update(of=("self",)).get(pk=hire.material_set_id)
    other = clash(wanted, loans_of(locked, today))
    if other is not None:
        raise ValidationError({"material_set": clash_words(locked, other)})


def clash_words(lent: MaterialSet, other: Loan) -> str:
    first = write_date(PartialDate.of(other.first))
    if other.last is None:
        return f"Set {lent.number} is with {other.who} from {first} on; no day is noted on which it is due."
    last = write_date(PartialDate.of(other.last))
    return f"Set {lent.number} is with {other.who} from {first} to {last}; choose another set or other days."


def take_from_terms(hire: Hire, performances: Sequence[Performance]) -> None:
    terms = hire.terms
    if terms is None:
        return
    hire.currency = hire.currency or terms.currency
    if hire.due_on is not None or hire.purpose not in (Purpose.HIRE, Purpose.PERUSAL):
        return
    last = max((one.last_day for one in performances if one.last_day), default=None)
    if last is not None and terms.days_after is not None:
        hire.due_on = last + timedelta(days=terms.days_after)
    elif hire.out_on is not None and terms.period_days is not None:
        hire.due_on = hire.out_on + timedelta(days=terms.period_days)


def next_number(hire: Hire, today: date) -> str:
    """Return the next number of a note in the year in which the set goes out.

    The numbers of deleted hires are not given again, and two hires that are saved at once get two numbers.
    """
    Composer.objects.select_for_update().get(pk=hire.composer_id)
    year = (hire.out_on or today).year
    stored = Hire.with_deleted.filter(composer=hire.composer_id, number__startswith=f"{year}-")
    found = (NUMBER.fullmatch(number) for number in stored.values_list("number", flat=True))
    return f"{year}-{max((int(one[2]) for one in found if one), default=0) + 1:03}"


def for_these(hire: Hire, performances: Sequence[Performance]) -> None:
    kept = {row.performance_id: row for row in hire.hired_for.all()}
    rows = [kept.get(one.pk) or HiredPerformance(hire=hire, performance=one) for one in performances]
    set_rows(existing=HiredPerformance.objects.filter(hire=hire), rows=rows, number=None)


# ---- its list


@transaction.atomic
def make_up_list(hire: Hire) -> None:
    """Make the list of the work's set anew; what is no part of it stays at the end. For perusal goes the score alone.

    Raises NoList where the forces cannot be read, a number of strings is missing, or copies have been counted already.
    """
    latest_of(hire)  # so that two who press the button make one list
    if hire.items.exclude(sent=None, received=None, back=None).exists():
        raise NoList("Copies of this list have been counted; it stays as it is.")
    work = gather_work(hire.work)
    if work.instrumentation is None:
        raise NoList(f"The parts of “{hire.work.title}” cannot be listed: its instrumentation is not readable.")
    lent = hire.material_set
    played = [gather_performance(row.performance) for row in hire.hired_for.select_related("performance__venue")]
    strengths = strengths_of(
        work,
        played,
        of_set=readable(lent.strings, ()) if lent else (),
        usual=gather_composer(hire.composer).string_strengths,
    )
    try:
        parts = part_list(work.instrumentation, strengths.players, extra=lent.extra if lent else 0)
    except PartsError as error:
        raise NoList(f"The parts of “{hire.work.title}” cannot be listed. {error.reason}") from error
    others = list(hire.items.filter(part={}))
    listed = rows_of(parts) if hire.purpose != Purpose.PERUSAL else parts.parts[:1]
    rows = [
        HireItem(hire=hire, part=part_values(part), expected=part.copies, copy_numbers=copy_numbers(part.copies))
        for part in listed
    ]
    set_rows(existing=HireItem.objects.filter(hire=hire), rows=[*rows, *others], number="position")


@transaction.atomic
def count_list(
    *,
    hire: Hire,
    stage: Stage,
    counted: Mapping[int, Counted],
    now: datetime,
    more: Mapping[str, int] | None = None,
    **columns: Any,
) -> list[Performance]:
    """Keep what was counted of each row, by its id, with the columns of the hire that are noted at the same time.

    ``more`` are things that are no parts, such as errata lists, each with its number. Returns the performances whose
    step “parts delivered” is done by it. Raises Overtaken and ValidationError.
    """
    refuse_overtaken(hire, latest_of(hire))
    for column, value in columns.items():
        setattr(hire, column, value)
    played = [row.performance for row in hire.hired_for.select_related("performance")]
    refuse_set_elsewhere(hire, played, now.date())
    store(hire, now)
    rows = list(hire.items.all())
    for row in rows:
        if row.pk in counted:
            note(row, stage, counted[row.pk])
    last = max((row.position for row in rows), default=0)
    for place, (name, number) in enumerate((more or {}).items(), start=last + 1):
        added = HireItem(hire=hire, name=name, expected=number, position=place)
        note(added, stage, Counted(number))
    return delivered(hire, played, now) if stage is Stage.SENT else []


def delivered(hire: Hire, played: Sequence[Performance], now: datetime) -> list[Performance]:
    """Mark the parts of performances as delivered where every set for them has left whole; return which.

    A step that somebody has said something of stays as it stands.
    """
    done = []
    for performance in played:
        sets = Hire.objects.filter(hired_for__performance=performance, purpose=Purpose.HIRE.value).distinct()
        said = Step.objects.filter(performance=performance, kind=StepKind.PARTS.value).exclude(
            state=StepState.OPEN.value
        )
        if hire.purpose != Purpose.HIRE or said.exists() or not all(has_left(one) for one in sets):
            continue
        day = hire.out_on or now.date()
        mark_step(performance=performance, kind=StepKind.PARTS, state=StepState.DONE, today=day, now=now)
        done.append(performance)
    return done


def has_left(hire: Hire) -> bool:
    """Whether a set is out with all that was expected in it."""
    counts = list(hire.items.values_list("sent", "expected"))
    return hire.out_on is not None and bool(counts) and all((sent or 0) >= (expected or 0) for sent, expected in counts)


def note(row: HireItem, stage: Stage, found: Counted) -> None:
    """Set what was counted of a row, and store it where it is new."""
    before = [getattr(row, one.attname) for one in row._meta.concrete_fields]
    setattr(row, stage.value, found.copies)
    if stage is Stage.BACK:
        row.condition, row.action = found.condition or "", found.action or ""
        row.remark, row.charge = found.remark, found.charge
    if row.pk is None or before != [getattr(row, one.attname) for one in row._meta.concrete_fields]:
        check(row)
        row.save()
