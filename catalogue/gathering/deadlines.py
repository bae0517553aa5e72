"""The deadlines of a composer's calls, and when hired sets are due back, as facts."""

from __future__ import annotations

from datetime import UTC

from catalogue.facts import DeadlineFacts
from catalogue.gathering.hires import still_out
from catalogue.models import Call, Composer, Hire
from catalogue.rules.calls.terms import Call as Terms
from catalogue.terms import SubmissionStatus


def gather_deadlines(composer: Composer) -> tuple[DeadlineFacts, ...]:
    """Return when each call closes and each set that is out is due, those without a day left out; two queries.

    What is done leaves: a set that is back, a call that was answered or withdrawn from.
    """
    calls = Call.objects.filter(composer=composer, closes_on__isnull=False).undecided().next_first()
    calls = calls.select_related("submission")
    due = (gather_due_back(hire) for hire in still_out(composer.pk))
    return (*(gather_deadline(call) for call in calls), *(one for one in due if one.day is not None))


def gather_due_back(hire: Hire) -> DeadlineFacts:
    number = f", set {hire.material_set.number}" if hire.material_set else ""
    return DeadlineFacts(
        id=hire.pk,
        uid=hire.uid,
        title=f"{hire.work.title}{number}",
        organiser=hire.holder,
        day=hire.due,
        changed_at=hire.changed_at,
        sequence=hire.saves,
        is_hire=True,
    )


def gather_deadline(call: Call) -> DeadlineFacts:
    terms, submission = call.asks, getattr(call, "submission", None)
    moments = (call.changed_at, submission.changed_at if submission else None)
    return DeadlineFacts(
        id=call.pk,
        uid=call.uid,
        title=call.title,
        organiser=terms.organiser,
        day=call.closes_on,
        closes_at=call.closes_at.astimezone(UTC) if call.closes_at else None,
        local=local_time(terms),
        changed_at=max((one for one in moments if one), default=None),
        sequence=call.saves + (submission.saves if submission else 0),
        is_sent=submission is not None and submission.status == SubmissionStatus.SENT,
    )


def local_time(terms: Terms) -> str:
    """Return a deadline by the organiser's clock; midnight is told as the end of the day before, 24:00 (ISO 8601-1)."""
    at = terms.deadline
    if at is None:
        return ""
    ends = at.hour == at.minute == 0 and terms.closes is not None and terms.closes < at.date()
    told = f"{terms.closes} 24:00" if ends else f"{at:%Y-%m-%d %H:%M}"
    return f"{told} {terms.deadline_zone}".strip()
