"""The deadlines of a composer's calls as facts."""

from __future__ import annotations

from datetime import UTC

from catalogue.facts import DeadlineFacts
from catalogue.models import Call, Composer


def gather_deadlines(composer: Composer) -> tuple[DeadlineFacts, ...]:
    """Return when each call closes, those without a day left out; one query."""
    calls = Call.objects.filter(composer=composer, closes_on__isnull=False).next_first()
    return tuple(gather_deadline(call) for call in calls)


def gather_deadline(call: Call) -> DeadlineFacts:
    terms = call.asks
    local = f"{terms.deadline:%Y-%m-%d %H:%M} {terms.deadline_zone}".strip() if terms.deadline else ""
    return DeadlineFacts(
        id=call.pk,
        uid=call.uid,
        title=call.title,
        organiser=terms.organiser,
        day=call.closes_on,
        closes_at=call.closes_at.astimezone(UTC) if call.closes_at else None,
        local=local,
        changed_at=call.changed_at,
        sequence=call.saves,
    )
