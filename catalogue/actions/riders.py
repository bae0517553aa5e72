"""Sending riders and taking the answers.

The address of a sending holds a token of 256 random bits, shown once; the database holds its SHA-256 only.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Max

from catalogue.actions.addresses import check_typed, new_token, note_reading, shut
from catalogue.models import Rider, RiderAnswer, RiderSending
from catalogue.models.people import sha256_of
from catalogue.terms import Answer

LASTS = timedelta(days=120)
"""How long an address is open, unless the performance is later."""
AFTER = timedelta(days=14)
"""How long it stays open after the performance."""


@dataclass(frozen=True, slots=True)
class Package:
    """What leaves the house: the items to confirm, the lines to compare with, the files' SHA-256 by their suffix."""

    items: Sequence[Mapping[str, object]]
    lists: Mapping[str, Sequence[str]]
    files: Mapping[str, str]
    language: str


@dataclass(frozen=True, slots=True)
class Said:
    """What was answered to an item."""

    answer: Answer
    remark: str = ""


@transaction.atomic
def send_rider(*, rider: Rider, to: str, package: Package, now: datetime) -> tuple[RiderSending, str]:
    """Keep a revision as it leaves the house; return it with its token, which cannot be found out afterwards.

    What was answered to an item of the revision before holds for the same item of this one.
    """
    Rider.objects.select_for_update().get(pk=rider.pk)  # so that two who send it make two revisions
    before = rider.sendings.order_by("revision").last()
    token = new_token()
    sending = RiderSending(
        rider=rider,
        revision=next_revision(rider),
        sent_at=now,
        sent_to=to,
        language=package.language,
        items=list(package.items),
        lists={head: list(lines) for head, lines in package.lists.items()},
        files=dict(package.files),
        token_sha256=sha256_of(token),
        expires_at=expiry_of(rider, now),
    )
    check_typed(sending, "sent_to")
    sending.save()
    if before is not None:
        carry_answers(before, sending)
    return sending, token


def next_revision(rider: Rider) -> int:
    return (rider.sendings.aggregate(highest=Max("revision"))["highest"] or 0) + 1


def expiry_of(rider: Rider, now: datetime) -> datetime:
    """The moment from which the address leads nowhere."""
    last_day = rider.performance.last_day
    if last_day is None:
        return now + LASTS
    days = (last_day - now.date()).days
    return max(now + LASTS, now + timedelta(days=days) + AFTER)


def carry_answers(before: RiderSending, sending: RiderSending) -> None:
    keys = {item["key"] for item in sending.items}
    kept = before.answers.filter(item__in=keys)
    RiderAnswer.objects.bulk_create(
        RiderAnswer(sending=sending, item=one.item, answer=one.answer, remark=one.remark, answered_at=one.answered_at)
        for one in kept
    )


def withdraw_sending(*, sending: RiderSending, now: datetime) -> None:
    """Shut the address of a sending; what was answered stays."""
    shut(sending, now)


def find_sending(token: str, *, now: datetime) -> RiderSending | None:
    """Return the sending of a token, or None where it is unknown, withdrawn or too old."""
    opened = RiderSending.objects.open_at(now).filter(token_sha256=sha256_of(token))
    return opened.select_related("rider__work", "rider__performance__venue", "rider__composer").first()


def mark_read(*, sending: RiderSending, now: datetime) -> None:
    """Note that the address was opened."""
    note_reading(sending, now)


@transaction.atomic
def take_answers(*, sending: RiderSending, answers: Mapping[str, Said], by: str, message: str, now: datetime) -> None:
    """Keep what was answered; an item that is not among the answers keeps the one it has."""
    RiderSending.objects.select_for_update().get(pk=sending.pk)  # so that a form sent twice answers each item once
    known = {item["key"] for item in sending.items}
    stored = {row.item: row for row in sending.answers.all()}
    for key, said in answers.items():
        if key not in known:
            continue
        row = stored.get(key) or RiderAnswer(sending=sending, item=key)
        if (row.answer, row.remark) != (said.answer, said.remark):
            row.answer, row.remark, row.answered_at = said.answer.value, said.remark, now
            check_typed(row, "remark")
            row.save()
    sending.answered_by, sending.message, sending.answered_at = by, message, now
    check_typed(sending, "answered_by", "message")
    sending.save(update_fields=["answered_by", "message", "answered_at"])
