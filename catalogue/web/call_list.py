"""What the list of calls and the first room show: when each closes, by the organiser's clock, and what was sent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum

from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from catalogue.drawings.ninety_days import DAYS
from catalogue.gathering.among import among
from catalogue.models import Call, Composer
from catalogue.packing.plan import Plan
from catalogue.rules.calls.readiness import SOON as READY_IN
from catalogue.terms import SubmissionStatus
from catalogue.timing import PartialDate
from catalogue.web.call_page import closes_text, here_text, still_open
from catalogue.web.days import how_far
from catalogue.web.pack_page import plans_of

SOON = 7


class Group(StrEnum):
    """Under which heading a call stands: to be answered, answered and waited for, or neither any more."""

    OPEN = "open"
    SENT = "sent"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class CallRow:
    """A call in a list. Texts are ready to print; ``look`` marks what is late or soon, ``whose`` it is is said.

    ``closes_at`` is the moment where an hour is known.
    """

    address: str
    title: str
    organiser: str
    kind: str
    closes: str
    here: str
    far: str
    look: str
    group: Group
    state: str
    whose: Composer
    lacking: str = ""
    pack: str = ""
    closes_at: datetime | None = None


def call_rows(composer: Composer, *, now: datetime, language: str) -> tuple[CallRow, ...]:
    """Return every call: the open ones by their deadlines, those that were answered, those that are over; one query."""
    calls = list(Call.objects.filter(composer=composer).select_related("submission").next_first())
    rows = [row_of(call, composer, now, language) for call in calls]
    over = [row for row in rows if row.group is Group.OVER]
    return (
        *(row for row in rows if row.group is Group.OPEN),
        *(row for row in rows if row.group is Group.SENT),
        *over[::-1],
    )


def closing_soon(composer: Composer, *, now: datetime, language: str) -> tuple[CallRow, ...]:
    """Return the calls that close in the coming days, those within a month with what lacks in what is being sent."""
    today = timezone.localdate(now)
    ours = (
        Call.objects.filter(composer=composer, closes_on__lte=today + timedelta(days=DAYS))
        .open_at(now, today)
        .undecided()
    )
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


@dataclass(frozen=True, slots=True)
class Closing:
    """A call that is open, and the moment at which it closes where it names an hour."""

    row: CallRow
    moment: datetime | None


def closing_of(composers: Sequence[Composer], *, now: datetime, language: str, most: int) -> tuple[Closing, ...]:
    """Return the calls of some composers that are open, the next ``most`` to close; one query."""
    today, whose = timezone.localdate(now), {composer.pk: composer for composer in composers}
    ours = Call.objects.filter(among("composer_id", whose)).open_at(now, today).undecided()
    calls = ours.select_related("submission").next_first()[:most]
    return tuple(Closing(row_of(call, whose[call.composer_id], now, language), call.closes_at) for call in calls)


def group_of(status: str, *, is_open: bool) -> Group:
    """
    >>> group_of("not chosen", is_open=True), group_of("sent", is_open=False), group_of("draft", is_open=False)
    (<Group.OVER: 'over'>, <Group.SENT: 'sent'>, <Group.OVER: 'over'>)
    """
    if status == SubmissionStatus.SENT:
        return Group.SENT
    return Group.OPEN if is_open and not (status and SubmissionStatus(status).is_decided) else Group.OVER


def is_draft(call: Call) -> bool:
    submission = getattr(call, "submission", None)
    return submission is not None and submission.status == SubmissionStatus.DRAFT


def lacking_text(plan: Plan) -> str:
    number = len(plan.lacking) + len(plan.broken)
    if not number:
        return _("Ready to be sent.")
    return ngettext("%d thing is missing.", "%d things are missing.", number) % number


def row_of(call: Call, composer: Composer, now: datetime, language: str) -> CallRow:
    terms, submission = call.asks, getattr(call, "submission", None)
    day, today = call.closes_on, timezone.localdate(now)
    group = group_of(submission.status if submission else "", is_open=still_open(terms, now=now, today=today))
    return CallRow(
        address=reverse("call-detail", args=[composer.slug, call.pk]),
        title=call.title,
        organiser=terms.organiser,
        kind=call.kind,
        closes=closes_text(terms, language),
        here=here_text(terms, language),
        far=how_far(PartialDate.of(day), today) if day else "",
        look="soon" if day and group is Group.OPEN and (day - today).days <= SOON else "",
        group=group,
        state=submission.status if submission else "",
        whose=composer,
        closes_at=terms.deadline,
    )
