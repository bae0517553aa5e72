"""The calls of the invented demo house and what is sent to them (``fixtures/demo/calls.toml``)."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, timedelta

from catalogue.actions.calls import choose_works, note_submission, propose_call
from catalogue.actions.submissions import LetterDays, Readiness, ask_referee, prepare_submission
from catalogue.demo.rows import Row, call_text, identity
from catalogue.models import Call, Composer, Referee, Work
from catalogue.terms import SubmissionStatus


def load_calls(
    rows: Mapping[str, Row], *, composer: Composer, works: Mapping[str, Work], today: date, now: datetime
) -> None:
    """Add the calls that are not there yet, their conditions as they are read from their texts."""
    for slug, row in rows.items():
        if row["composer"] != composer.slug or known_call(slug) is not None:
            continue
        call = propose_call(composer=composer, text=call_text(row, today), now=now)
        Call.objects.filter(pk=call.pk).update(uid=identity("call", slug))
        if "chosen" in row:
            choose_works(call=call, works=[works[one] for one in row["chosen"]])
            load_submission(call, row, today, now)


def known_call(slug: str) -> Call | None:
    return Call.with_deleted.filter(uid=identity("call", slug)).first()


def load_submission(call: Call, row: Row, today: date, now: datetime) -> None:
    """Add what has been decided about a submission, who was asked for a letter, and what became of it."""
    statement = str(row.get("statement", "")).strip()
    ready = Readiness(motto=row.get("motto", ""), statement=statement, by_hand=tuple(row.get("ready", ())))
    submission = prepare_submission(call=call, ready=ready, saves=0, now=now)
    for one in row.get("referees", ()):
        referee = Referee.objects.get(uid=identity("records", one["referee"]))
        ask_referee(call=call, referee=referee, days=letter_days(one, today))
    if "status" in row:
        note_submission(
            call=call,
            status=SubmissionStatus(row["status"]),
            sent_on=before(today, row.get("sent")),
            outcome=row.get("outcome", ""),
            feedback=row.get("feedback", ""),
            decided_on=before(today, row.get("decided")),
            saves=submission.saves,
            now=now,
        )


def letter_days(row: Row, today: date) -> LetterDays:
    return LetterDays(*(before(today, row.get(name)) for name in ("asked", "agreed", "received")))


def before(today: date, days: int | None) -> date | None:
    return None if days is None else today - timedelta(days=days)
