"""What the list of calls and the first room show: when each closes, by the organiser's clock, and what was sent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.drawings.ninety_days import DAYS
from catalogue.models import Call, Composer
from catalogue.packing.plan import Plan
from catalogue.rules.calls.readiness import SOON as READY_IN
from catalogue.terms import SubmissionStatus
from catalogue.timing import PartialDate
from catalogue.web.call_page import closes_text, here_text, still_open
from catalogue.web.days import how_far
from catalogue.web.pack_page import plans_of

SOON = 7


@dataclass(frozen=True, slots=True)
class CallRow:
    """A call in a list. Texts are ready to print; ``look`` marks what is late or soon, ``whose`` it is is said."""

    address: str
    title: str
    organiser: str
    kind: str
    closes: str
    here: str
    far: str
    look: str
    is_open: bool
    state: str
    whose: Composer
    lacking: str = ""
    pack: str = ""


def call_rows(composer: Composer, *, now: datetime, language: str) -> tuple[CallRow, ...]:
    """Return every call, the open ones first by their deadlines, then those that are over; one query."""
    calls = list(Call.objects.filter(composer=composer).select_related("submission").next_first())
    rows = [row_of(call, composer, now, language) for call in calls]
    return (*(row for row in rows if row.is_open), *reversed([row for row in rows if not row.is_open]))


def closing_soon(composer: Composer, *, now: datetime, language: str) -> tuple[CallRow, ...]:
    """Return the calls that close in the coming days, those within a month with what lacks in what is being sent."""
    today = timezone.localdate(now)
    ours = Call.objects.filter(composer=composer, closes_on__lte=today + timedelta(days=DAYS)).open_at(now, today)
    calls = list(ours.select_related("submission").next_first())
    drafts = [call for call in calls if is_draft(call) and call.closes_on and (call.closes_on - today).days <= READY_IN]
    plans = plans_of(composer, drafts, today) if drafts else {}
    rows = ((call, row_of(call, composer, now, language)) for call in calls)
    return tuple(
        replace(row, lacking=lacking_text(plans[call.pk]), pack=reverse("call-pack", args=[composer.slug, call.pk]))
        if call.pk in plans
        else row
        for call, row in rows
    )


def closing_of(composers: Sequence[Composer], *, now: datetime, language: str) -> tuple[CallRow, ...]:
    """Return the calls of some composers that are open, the next to close first; one query."""
    today, whose = timezone.localdate(now), {composer.pk: composer for composer in composers}
    calls = Call.objects.filter(composer__in=composers).open_at(now, today).select_related("submission").next_first()
    return tuple(row_of(call, whose[call.composer_id], now, language) for call in calls)


def is_draft(call: Call) -> bool:
    submission = getattr(call, "submission", None)
    return submission is not None and submission.status == SubmissionStatus.DRAFT


def lacking_text(plan: Plan) -> str:
    number = len(plan.lacking) + len(plan.broken)
    if not number:
        return _("Ready to be sent.")
    return ngettext("%d thing lacks.", "%d things lack.", number) % number


def row_of(call: Call, composer: Composer, now: datetime, language: str) -> CallRow:
    terms, submission = call.asks, getattr(call, "submission", None)
    day, today = call.closes_on, timezone.localdate(now)
    is_open = still_open(terms, now=now, today=today)
    return CallRow(
        address=reverse("call-detail", args=[composer.slug, call.pk]),
        title=call.title,
        organiser=terms.organiser,
        kind=call.kind,
        closes=closes_text(terms, language),
        here=here_text(terms, language),
        far=how_far(PartialDate.of(day), today) if day else "",
        look="soon" if day and is_open and (day - today).days <= SOON else "",
        is_open=is_open,
        state=submission.status if submission else "",
        whose=composer,
    )
