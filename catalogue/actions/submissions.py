"""Making a submission ready: its name and texts, what is sent of each work, the referees, what left the house."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from django.db import transaction

from catalogue.actions.calls import refuse_twice, submission_as_seen, submission_as_stored
from catalogue.actions.records import save_record
from catalogue.actions.saving import store
from catalogue.models import Call, Composer, Referee, Reference, Submission
from catalogue.terms import SubmissionStatus


@dataclass(frozen=True, slots=True)
class Choices:
    """What is sent of one work, by the ids of the records; ``None`` leaves it to the tool."""

    note: int | None = None
    recording: int | None = None
    edition: int | None = None
    cover_pages: int = 0


@dataclass(frozen=True, slots=True)
class Readiness:
    """What the composer has decided and made ready; ``of_works`` by the ids of the works."""

    language: str = ""
    motto: str = ""
    statement: str = ""
    by_hand: tuple[str, ...] = ()
    of_works: Mapping[int, Choices] = field(default_factory=dict)


@transaction.atomic
def prepare_submission(*, call: Call, ready: Readiness, saves: int, now: datetime) -> Submission:
    """Keep what has been decided; ``saves`` is the number of saves that was seen. Raises Overtaken, ValidationError."""
    submission = submission_as_seen(call, saves)
    submission.language, submission.motto, submission.statement = ready.language, ready.motto, ready.statement
    submission.by_hand = list(ready.by_hand)
    store(submission, now)
    for row in submission.works.select_related("work"):
        chosen = ready.of_works.get(row.work_id)
        before = Choices(row.note_id, row.recording_id, row.edition_id, row.cover_pages)
        if chosen is not None and chosen != before:
            row.note_id, row.recording_id, row.edition_id = chosen.note, chosen.recording, chosen.edition
            row.cover_pages = chosen.cover_pages
            row.full_clean(validate_constraints=False)
            row.save()
    return submission


@transaction.atomic
def reuse_submission(*, call: Call, earlier: Submission, now: datetime) -> Submission:
    """Take over from an earlier submission: its statement where there is none yet, and what was sent of the same works.

    Works that are chosen already stay; those of the earlier one are not added, a call has its own conditions.
    """
    submission = submission_as_stored(call)
    if not submission.statement:
        submission.statement = earlier.statement
    submission.language = submission.language or earlier.language
    store(submission, now)
    known = {row.work_id: row for row in earlier.works.all()}
    for row in submission.works.all():
        before = known.get(row.work_id)
        if before is not None and (row.note_id, row.recording_id, row.edition_id) == (None, None, None):
            row.note_id, row.recording_id, row.edition_id = before.note_id, before.recording_id, before.edition_id
            row.cover_pages = before.cover_pages
            row.save()
    return submission


@transaction.atomic
def send_submission(*, call: Call, files: Iterable[Mapping[str, object]], sent_on: date, now: datetime) -> Submission:
    """Note that a submission has left the house with these files (name, bytes, SHA-256). Raises AlreadySent."""
    submission = submission_as_stored(call)
    for row in submission.works.select_related("work"):
        refuse_twice(row.work, call)
    submission.status, submission.sent_on = SubmissionStatus.SENT.value, sent_on
    submission.sent_files = [dict(one) for one in files]
    store(submission, now)
    return submission


# ---- referees


@dataclass(frozen=True, slots=True)
class LetterDays:
    """How far a letter has come."""

    asked_on: date | None = None
    agreed_on: date | None = None
    received_on: date | None = None


@transaction.atomic
def ask_referee(*, call: Call, referee: Referee, days: LetterDays) -> Reference:
    """Make somebody a referee of a submission; somebody who is one already stays as they are."""
    submission, _made = Submission.objects.get_or_create(call=call)
    letter, _new = Reference.objects.get_or_create(
        submission=submission,
        referee=referee,
        defaults={"asked_on": days.asked_on, "agreed_on": days.agreed_on, "received_on": days.received_on},
    )
    return letter


@transaction.atomic
def new_referee(*, composer: Composer, name: str, institution: str, email: str, now: datetime) -> Referee:
    """Return the referee of that name, added where there is none yet. Raises ValidationError."""
    known = Referee.objects.filter(composer=composer, name__iexact=name).first()
    if known is not None:
        return known
    referee = Referee(composer=composer, name=name, institution=institution, email=email)
    save_record(record=referee, now=now)
    return referee


@transaction.atomic
def note_letters(*, call: Call, days: Mapping[int, LetterDays], gone: Iterable[int] = ()) -> None:
    """Note how far the letters of a submission have come, by their ids; those that are ``gone`` are asked no more."""
    ours = Reference.objects.filter(submission__call=call)
    for letter in ours.filter(pk__in=list(gone)):
        letter.delete()
    for letter in ours.filter(pk__in=list(days)):
        told = days[letter.pk]
        if (letter.asked_on, letter.agreed_on, letter.received_on) != (told.asked_on, told.agreed_on, told.received_on):
            letter.asked_on, letter.agreed_on, letter.received_on = told.asked_on, told.agreed_on, told.received_on
            letter.save()
