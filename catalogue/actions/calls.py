"""Keeping calls and what is sent to them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from django.db import transaction

from catalogue.actions.saving import Overtaken, latest_of, refuse_overtaken, store
from catalogue.models import Call, Composer, Submission, SubmittedWork, Work
from catalogue.rules.calls.plain_values import call_values
from catalogue.rules.calls.reading import read_call
from catalogue.rules.calls.terms import Call as Terms
from catalogue.terms import SubmissionStatus


class AlreadySent(ValueError):
    """A work that a call wants for itself stands in another submission."""

    def __init__(self, work: Work, call: Call) -> None:
        self.reason = f"“{work}” is with “{call}”, which wants it for itself until it is decided."
        super().__init__(self.reason)


@transaction.atomic
def propose_call(*, composer: Composer, text: str, now: datetime) -> Call:
    """Store a call with what was read from its text, to be confirmed. Raises CallError and ValidationError."""
    terms = read_call(text).call
    call = Call(
        composer=composer,
        full_text=text,
        title=terms.title or "A call",
        kind=terms.kind.value,
        terms=call_values(terms),
    )
    store(call, now)
    return call


@transaction.atomic
def begin_call(*, composer: Composer, title: str, now: datetime) -> Call:
    """Store a call of which nothing is known yet but its title. Raises ValidationError."""
    terms = Terms(title=title)
    call = Call(composer=composer, title=title, kind=terms.kind.value, terms=call_values(terms))
    store(call, now)
    return call


@transaction.atomic
def save_call(*, call: Call, terms: Terms, now: datetime) -> Call:
    """Store a call with its terms. Raises Overtaken and ValidationError."""
    refuse_overtaken(call, latest_of(call))
    call.title, call.kind, call.terms = terms.title, terms.kind.value, call_values(terms)
    store(call, now)
    return call


@transaction.atomic
def choose_works(*, call: Call, works: Sequence[Work]) -> Submission:
    """Make these works, in this order, the ones that are sent to a call. Raises AlreadySent."""
    for work in works:
        refuse_twice(work, call)
    submission = submission_as_stored(call)  # locked, so that a form sent twice adds each work once
    kept = {row.work_id: row for row in submission.works.all()}
    for work_id, row in kept.items():
        if work_id not in {work.pk for work in works}:
            row.delete()
    for order, work in enumerate(works, start=1):
        row = kept.get(work.pk) or SubmittedWork(submission=submission, work=work)
        if row.pk is None or row.order != order:
            row.order = order
            row.full_clean(validate_unique=False, validate_constraints=False)
            row.save()
    return submission


@transaction.atomic
def choose_or_leave(*, call: Call, work: Work) -> Submission:
    """Choose a work for a call behind those that are chosen, or let it go where it is. Raises AlreadySent."""
    submission = submission_as_stored(call)
    chosen = list(Work.objects.filter(submitted__submission=submission).order_by("submitted__order"))
    return choose_works(call=call, works=[one for one in chosen if one != work] if work in chosen else [*chosen, work])


def refuse_twice(work: Work, call: Call) -> None:
    """Raise AlreadySent where the work is out with a call that wants it for itself, or this call does and it is out."""
    out = Submission.objects.filter(works__work=work, status=SubmissionStatus.SENT).exclude(call=call)
    for other in out.select_related("call"):
        if other.call.deleted_at is None and (other.call.asks.exclusive or call.asks.exclusive):
            raise AlreadySent(work, other.call)


@transaction.atomic
def note_submission(
    *,
    call: Call,
    status: SubmissionStatus,
    sent_on: date | None,
    outcome: str,
    feedback: str,
    decided_on: date | None = None,
    saves: int,
    now: datetime,
) -> Submission:
    """Note how far a submission has come; ``saves`` is its number of saves that was seen.

    Raises AlreadySent, Overtaken and ValidationError.
    """
    submission = submission_as_seen(call, saves)
    if status is SubmissionStatus.SENT:
        for row in submission.works.select_related("work"):
            refuse_twice(row.work, call)
    submission.status, submission.sent_on, submission.decided_on = status.value, sent_on, decided_on
    submission.outcome, submission.feedback = outcome, feedback
    store(submission, now)
    return submission


def submission_as_seen(call: Call, saves: int) -> Submission:
    """Return the submission to a call, locked, made where there is none. Raises Overtaken where it was saved since."""
    submission = submission_as_stored(call)
    if submission.saves != saves:
        raise Overtaken(submission)
    return submission


def submission_as_stored(call: Call) -> Submission:
    """Return the submission to a call, made where there is none, its row locked until the transaction ends."""
    submission, _made = Submission.objects.get_or_create(call=call)
    return Submission.objects.select_for_update().get(pk=submission.pk)
