"""Calls for works and what is sent to them."""

from __future__ import annotations

from datetime import date
from typing import Self
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import F, Q

from catalogue.models.conditions import choices_of, known
from catalogue.models.fields import LONG_LINE, line, text
from catalogue.models.people import Composer
from catalogue.models.records import Deletable, Guarded, LivingManager, Record, TenantQuerySet
from catalogue.models.works import Work
from catalogue.rules.calls.plain_values import call_of
from catalogue.rules.calls.terms import Call as Terms
from catalogue.rules.calls.terms import CallKind
from catalogue.terms import SubmissionStatus


class CallQuerySet(TenantQuerySet["Call"]):
    def next_first(self) -> Self:
        """Return the calls by the day on which they close, those without a day last."""
        return self.order_by(F("closes_on").asc(nulls_last=True), "title", "pk")

    def open_on(self, day: date) -> Self:
        """Return the calls that close on that day or later, and those of which the day is not known."""
        return self.filter(Q(closes_on__gte=day) | Q(closes_on__isnull=True))


class Call(Record, Deletable, Guarded):
    """A call with its ``full_text`` as it was published and its ``terms`` as the composer has confirmed them.

    ``terms`` are the plain values of ``rules.calls.terms.Call``. The columns beside them are taken from the terms when
    the call is saved, to be sorted and asked for: ``closes_on`` is the last day on the organiser's calendar,
    ``closes_at`` the moment where an hour is named.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="calls")
    uid = models.UUIDField(default=uuid4, unique=True, editable=False)
    title = line(LONG_LINE, blank=False)
    kind = models.CharField(max_length=20, choices=choices_of(CallKind), default=CallKind.CALL.value)
    closes_on = models.DateField(null=True, blank=True, editable=False, db_index=True)
    closes_at = models.DateTimeField(null=True, blank=True, editable=False)
    website = models.URLField(max_length=500, blank=True, default="")
    full_text = text()
    terms = models.JSONField(default=dict, blank=True)
    notes = text()

    objects = LivingManager.from_queryset(CallQuerySet)()
    with_deleted = CallQuerySet.as_manager()

    class Meta:
        constraints = [known("call", "kind", CallKind)]

    def __str__(self) -> str:
        return self.title

    @property
    def asks(self) -> Terms:
        """What the call asks for."""
        return call_of(self.terms)

    def clean(self) -> None:
        try:
            terms = self.asks
        except (TypeError, ValueError, KeyError, AttributeError) as fault:
            raise ValidationError({"terms": "The conditions of this call cannot be read."}) from fault
        self.closes_on, self.closes_at = terms.closes, terms.deadline


class SubmissionQuerySet(TenantQuerySet["Submission"]):
    memberships_path = "call__composer__memberships"


class SubmittedWorkQuerySet(TenantQuerySet["SubmittedWork"]):
    memberships_path = "submission__call__composer__memberships"


class Submission(Record):
    """What is sent to a call, and what has become of it."""

    call = models.OneToOneField(Call, on_delete=models.CASCADE, related_name="submission")
    status = models.CharField(max_length=12, choices=choices_of(SubmissionStatus), default=SubmissionStatus.DRAFT.value)
    sent_on = models.DateField(null=True, blank=True)
    outcome = line(LONG_LINE)
    feedback = text()

    objects = SubmissionQuerySet.as_manager()

    class Meta:
        constraints = [known("submission", "status", SubmissionStatus)]

    def __str__(self) -> str:
        return f"{self.call}, {self.status}"


class SubmittedWork(Record):
    """A work in a submission, in the order in which it is sent."""

    submission = models.ForeignKey(Submission, on_delete=models.CASCADE, related_name="works")
    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="submitted")
    order = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1)])

    objects = SubmittedWorkQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["submission", "work"], name="submitted_work_once"),
            models.CheckConstraint(condition=Q(order__gte=1), name="submitted_work_order_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.work} in {self.submission}"
