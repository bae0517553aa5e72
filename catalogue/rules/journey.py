"""What has to happen around a performance, by when, and whether it has.

Days are counted back from the first day of a performance, or on from its last, by lead times: the presenter's own, else
the composer's, else the usual ones of ``journey.toml``. What the records show already, as a recording that is there, is
done without being said. Sets that were hired say themselves whether parts are delivered and by when they are back.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING
from uuid import UUID

from catalogue.rules.filing import Filing
from catalogue.rules.playings import DID_NOT_HAPPEN, is_to_come
from catalogue.terms import StepKind, StepState

if TYPE_CHECKING:  # the records read lead times, and need no reader of instrumentations for it
    from catalogue.facts import PerformanceFacts

MOST_DAYS = 1500
DAYS_IN = {"day": 1, "week": 7, "month": 30}
TYPED = re.compile(r"(\d{1,4})\s*(days?|weeks?|months?|)", re.ASCII | re.IGNORECASE)
NEVER = ("not needed", "never", "no", "none")


class LeadError(ValueError):
    """A lead time that cannot be read; ``reason`` is one sentence, the places are characters of ``text``."""

    def __init__(self, reason: str, text: str) -> None:
        super().__init__(reason)
        self.reason, self.text, self.start, self.end = reason, text, 0, len(text)


@dataclass(frozen=True, slots=True)
class Lead:
    """How many days before or after a performance a step is due; none where the step is not needed."""

    days: int | None

    def __str__(self) -> str:
        if self.days is None:
            return NEVER[0]
        number, unit = (self.days // 7, "week") if self.days and self.days % 7 == 0 else (self.days, "day")
        return f"{number} {unit}{'' if number == 1 else 's'}"


def read_lead(text: str) -> Lead:
    """Read a number of days, weeks or months of thirty days, or that a step is not needed. Raises LeadError.

    >>> read_lead("6 weeks"), read_lead("10"), read_lead("not needed")
    (Lead(days=42), Lead(days=10), Lead(days=None))
    """
    typed = text.strip()
    if typed.casefold() in NEVER:
        return Lead(None)
    found = TYPED.fullmatch(typed)
    if found is None:
        raise LeadError("Write a number of days or weeks, such as 10 days or 6 weeks, or “not needed”.", text)
    days = int(found[1]) * DAYS_IN[found[2].lower().rstrip("s") or "day"]
    if days > MOST_DAYS:
        raise LeadError(f"A lead time is at most {MOST_DAYS} days.", text)
    return Lead(days)


Leads = Mapping[StepKind, Lead]


@dataclass(frozen=True, slots=True)
class StepFacts:
    """What somebody has said of a step; ``due`` is a day set by hand, ``label`` names a step of its own."""

    kind: StepKind
    state: StepState = StepState.OPEN
    due: date | None = None
    done_on: date | None = None
    note: str = ""
    label: str = ""
    id: int | None = None
    uid: UUID | None = None
    changed_at: datetime | None = None
    saves: int = 0


class Standing(StrEnum):
    """How a step stands: a missed one is asked for no longer."""

    OPEN = "open"
    LATE = "late"
    DONE = "done"
    NOT_NEEDED = "not needed"
    MISSED = "missed"


@dataclass(frozen=True, slots=True)
class Stage:
    """A step with its day, as far as one is known, and how it stands.

    ``is_shown`` says that the records themselves show that it is done, ``step`` is what somebody has said of it;
    ``filings`` are the societies that are still to be told, the most urgent first.
    """

    kind: StepKind
    is_after: bool
    standing: Standing
    due: date | None = None
    is_shown: bool = False
    step: StepFacts | None = None
    filings: tuple[Filing, ...] = ()

    @property
    def is_open(self) -> bool:
        return self.standing in {Standing.OPEN, Standing.LATE}


@dataclass(frozen=True, slots=True)
class Lent:
    """Material of a work that goes to somebody for a performance; ``is_for_good`` where it is sold."""

    work: int
    out_on: date | None = None
    due: date | None = None
    back_on: date | None = None
    is_for_good: bool = False

    @property
    def is_missed(self) -> bool:
        """Whether it is out and has a day by which it is to be back, of which its own record reminds."""
        return self.out_on is not None and self.back_on is None and self.due is not None


@dataclass(frozen=True, slots=True)
class Around:
    """What is known around a performance: its lead times, what was said, what the records show and rule out.

    ``of_presenter`` and ``of_composer`` are the lead times of which ``leads`` are made up, beside the usual ones.
    ``with_parts`` are the works on the programme that have parts, ``lent`` the sets that go out for it.
    ``filings`` are the societies that are still to be told of it, by the deadlines that the composer keeps; they go
    before the lead time of a return.
    """

    leads: Leads
    steps: tuple[StepFacts, ...] = ()
    shown: frozenset[StepKind] = frozenset()
    needless: frozenset[StepKind] = frozenset()
    of_presenter: Leads = field(default_factory=dict)
    of_composer: Leads = field(default_factory=dict)
    with_parts: frozenset[int] = frozenset()
    lent: tuple[Lent, ...] = ()
    filings: tuple[Filing, ...] = ()

    @property
    def to_come_back(self) -> tuple[Lent, ...]:
        return tuple(one for one in self.lent if not one.is_for_good)

    def shows(self, kind: StepKind, today: date) -> bool:
        """Whether the records show that a step is done."""
        if kind is StepKind.PARTS and self.with_parts:
            gone = {one.work for one in self.lent if one.out_on is not None and one.out_on <= today}
            return self.with_parts <= gone
        if kind is StepKind.SET_BACK and self.to_come_back:
            return all(one.back_on is not None and one.back_on <= today for one in self.to_come_back)
        return kind in self.shown

    def day_agreed(self, kind: StepKind) -> date | None:
        """Return the day that was agreed for a step, which goes before its lead time: the last one for a set."""
        days = [one.due for one in self.to_come_back if one.due] if kind is StepKind.SET_BACK else []
        return max(days, default=None)

    def filings_for(self, kind: StepKind) -> tuple[Filing, ...]:
        """Return the societies that a step is about: those of a return, where one is needed."""
        return self.filings if kind is StepKind.RETURN and kind not in self.needless else ()


def journey_of(event: PerformanceFacts, around: Around, *, today: date) -> tuple[Stage, ...]:
    """Return every step of a performance, by its day, those without one last.

    Nothing where it does not take place, or where nobody knows when.
    """
    if event.status in DID_NOT_HAPPEN or event.date is None:
        return ()
    said: dict[StepKind, StepFacts] = {step.kind: step for step in around.steps if step.kind is not StepKind.OTHER}
    stages = [stage_of(kind, said.get(kind), event, around, today=today) for kind in (*before(), *after())]
    own = [own_stage(step, event, today=today) for step in around.steps if step.kind is StepKind.OTHER]
    return tuple(sorted([*stages, *own], key=lambda stage: (stage.due is None, stage.due or date.max)))


def stage_of(kind: StepKind, step: StepFacts | None, event: PerformanceFacts, around: Around, *, today: date) -> Stage:
    is_after, lead = kind in after(), around.leads[kind]
    filings = around.filings_for(kind)
    set_day = step.due if step and step.due else around.day_agreed(kind)
    due = set_day or (filings[0].due if filings else due_day(event, lead, is_after=is_after))
    is_shown = around.shows(kind, today) and not filings
    said = step.state if step else StepState.OPEN
    is_set = set_day is not None
    if said is StepState.DONE or (is_shown and said is StepState.OPEN):
        standing = Standing.DONE
    elif said is StepState.NOT_NEEDED or (not (is_set or filings) and (lead.days is None or kind in around.needless)):
        standing = Standing.NOT_NEEDED
    else:
        standing = open_standing(kind, due, event, is_set=is_set, today=today)
    return Stage(kind, is_after, standing, due, is_shown, step, filings)


def open_standing(kind: StepKind, due: date | None, event: PerformanceFacts, *, is_set: bool, today: date) -> Standing:
    """Say whether what is not done is still asked for, and whether it is late."""
    if due is None:
        return Standing.OPEN if is_to_come(event, today=today) else Standing.MISSED
    if kind not in after() and not is_to_come(event, today=today):
        return Standing.MISSED
    if kind in after() and not is_set and due + timedelta(days=asked_for()[kind]) < today:
        return Standing.MISSED
    return Standing.LATE if due < today else Standing.OPEN


def own_stage(step: StepFacts, event: PerformanceFacts, *, today: date) -> Stage:
    """Place a step that the composer has named."""
    last = event.date.last if event.date else None
    is_after = bool(last and step.due and step.due > last)
    if step.state is StepState.OPEN:
        standing = Standing.LATE if step.due and step.due < today else Standing.OPEN
    else:
        standing = Standing.DONE if step.state is StepState.DONE else Standing.NOT_NEEDED
    return Stage(StepKind.OTHER, is_after, standing, step.due, step=step)


def due_day(event: PerformanceFacts, lead: Lead, *, is_after: bool) -> date | None:
    if event.date is None or lead.days is None:
        return None
    try:
        if is_after:
            return event.date.last + timedelta(days=lead.days)
        return event.date.first - timedelta(days=lead.days)
    except OverflowError:
        return None


def leads_of(*said: Leads) -> Leads:
    """Return the lead times that hold: those said first go before the others, the usual ones come last."""
    return {**usual_leads(), **{kind: lead for leads in reversed(said) for kind, lead in leads.items()}}


def is_told_by_its_set(stage: Stage, around: Around) -> bool:
    """Whether sets that are out remind by themselves of what a step would remind of once more."""
    said = stage.step is not None and stage.step.due is not None
    return stage.kind is StepKind.SET_BACK and not said and any(one.is_missed for one in around.to_come_back)


def asked_until(stages: Iterable[Stage], last: date) -> Sequence[Stage]:
    """Return what is open and due until a day, the most urgent first."""
    return [stage for stage in stages if stage.is_open and stage.due is not None and stage.due <= last]


# ---- the table


@cache
def usual_leads() -> Leads:
    """Return the lead times of ``journey.toml``, in days: those that count where nobody has named others."""
    return {kind: Lead(days) for kind, days in (before() | after()).items()}


@cache
def before() -> dict[StepKind, int]:
    return days_in("before")


@cache
def after() -> dict[StepKind, int]:
    return days_in("after")


@cache
def asked_for() -> dict[StepKind, int]:
    return days_in("asked_for")


def days_in(table: str) -> dict[StepKind, int]:
    read = tomllib.loads((files("catalogue.rules") / "journey.toml").read_text(encoding="utf-8"))
    return {StepKind(word): days for word, days in read[table].items()}
