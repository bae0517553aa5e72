"""Saying how a step around a performance stands."""

from __future__ import annotations

from datetime import date, datetime

from django.db import transaction

from catalogue.actions.records import save_record
from catalogue.models import Performance, Step
from catalogue.terms import StepKind, StepState
from catalogue.timing import PartialDate


@transaction.atomic
def mark_step(*, performance: Performance, kind: StepKind, state: StepState, today: date, now: datetime) -> Step:
    """Say how a step stands, done on that day where it is done; what was noted of it stays.

    Saying the same twice changes nothing. Raises ValidationError for what must not be stored.
    """
    Performance.objects.select_for_update().get(pk=performance.pk)  # so that two who say it make one step
    step = Step.objects.filter(performance=performance, kind=kind.value).first()
    if step is None:
        step = Step(composer=performance.composer, performance=performance, kind=kind.value)
    elif step.state == state:
        return step
    step.state = state.value
    step.done_on = PartialDate.of(today) if state is StepState.DONE else None
    save_record(record=step, now=now)
    return step
