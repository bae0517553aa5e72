"""Calls for works and what is sent to them."""

from __future__ import annotations

from datetime import date, datetime
from typing import Self
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q

from catalogue.models.conditions import choices_of, filled, known
from catalogue.models.editions import Edition
from catalogue.models.fields import LONG_LINE, SearchTextField, line, text
from catalogue.models.kept import KeptOfComposer
from catalogue.models.people import Composer
from catalogue.models.recordings import Recording
from catalogue.models.records import Contact, Deletable, Guarded, LivingManager, Record, TenantQuerySet
from catalogue.models.works import Work
from catalogue.models.writings import ProgrammeNote
from catalogue.rules.calls.plain_values import call_of
from catalogue.rules.calls.terms import Call as Terms
from catalogue.rules.calls.terms import CallKind
from catalogue.terms import SubmissionStatus


class CallQuerySet(TenantQuerySet["Call"]):
    """Questions about calls, asked of the database."""

    def next_first(self) -> Self:
        """Return the calls by the day on which they close, those without a day last."""
        return self.order_by(F("closes_on").asc(nulls_last=True), "title", "pk")

    def open_at(self, now: datetime, day: date) -> Self:
        """Return the calls that close after a moment, or on that day or later where no hour is known."""
        at_an_hour = Q(closes_at__gt=now)
        on_a_day = Q(closes_at__isnull=True) & (Q(closes_on__gte=day) | Q(closes_on__isnull=True))
        return self.filter(at_an_hour | on_a_day)

    def undecided(self) -> Self:
        """Return the calls whose answer is not known yet, those to which nothing was sent among them."""
        return self.exclude(submission__status__in=[one.value for one in SubmissionStatus if one.is_decided])


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


class Submission(Record, Guarded):
    """What is sent to a call, and what has become of it.

    ``language`` (BCP 47) is that of the papers, empty for the composer's. ``motto`` stands for the name where the call
    is anonymous. ``by_hand`` are the keys of the things that the composer
    has made ready without this program; ``sent_files`` what left the house: name, bytes and SHA-256 of each file.
    """

    call = models.OneToOneField(Call, on_delete=models.CASCADE, related_name="submission")
    status = models.CharField(max_length=12, choices=choices_of(SubmissionStatus), default=SubmissionStatus.DRAFT.value)
    sent_on = models.DateField(null=True, blank=True)
    decided_on = models.DateField(null=True, blank=True)
    outcome = line(LONG_LINE)
    feedback = text()
    language = line(35)
    motto = line()
    statement = text()
    by_hand = models.JSONField(default=list, blank=True)
    sent_files = models.JSONField(default=list, blank=True, editable=False)

    objects = SubmissionQuerySet.as_manager()

    class Meta:
        constraints = [known("submission", "status", SubmissionStatus)]

    def __str__(self) -> str:
        return f"{self.call}, {self.status}"


class SubmittedWork(Record):
    """A work in a submission, in the order in which it is sent.

    ``note``, ``recording`` and ``edition`` are what is sent of it where the composer has chosen, else the tool does.
    ``cover_pages`` are the first pages of the score's file, which a cover of the pack takes the place of.
    """

    submission = models.ForeignKey(Submission, on_delete=models.CASCADE, related_name="works")
    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="submitted")
    order = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1)])
    note = models.ForeignKey(ProgrammeNote, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    recording = models.ForeignKey(Recording, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    edition = models.ForeignKey(Edition, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    cover_pages = models.PositiveSmallIntegerField(default=0, validators=[MaxValueValidator(20)])

    objects = SubmittedWorkQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["submission", "work"], name="submitted_work_once"),
            models.CheckConstraint(condition=Q(order__gte=1), name="submitted_work_order_from_one"),
            models.CheckConstraint(condition=Q(cover_pages__lte=20), name="submitted_work_cover_pages_few"),
        ]

    def __str__(self) -> str:
        return f"{self.work} in {self.submission}"

    def clean(self) -> None:
        for name in ("note", "recording", "edition"):
            chosen = getattr(self, name)
            if chosen is not None and chosen.work_id != self.work_id:
                raise ValidationError({name: f"“{chosen}” is of another work."})


class Referee(KeptOfComposer, Contact):
    """Somebody who writes references for the composer: who they are and where, and how they are reached."""

    name = line(blank=False)
    position = line(LONG_LINE)
    institution = line(LONG_LINE)
    knows_as = line(LONG_LINE)
    search_text = SearchTextField(of=("name", "position", "institution", "notes"))

    class Meta:
        constraints = [filled("referee", "name")]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.name, self.institution) if part)


class ReferenceQuerySet(TenantQuerySet["Reference"]):
    memberships_path = "submission__call__composer__memberships"


class Reference(Record):
    """A referee's letter for a submission: when it was asked for, agreed to, and received."""

    submission = models.ForeignKey(Submission, on_delete=models.CASCADE, related_name="references")
    referee = models.ForeignKey(Referee, on_delete=models.CASCADE, related_name="references")
    asked_on = models.DateField(null=True, blank=True)
    agreed_on = models.DateField(null=True, blank=True)
    received_on = models.DateField(null=True, blank=True)

    objects = ReferenceQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["submission", "referee"], name="reference_once")]

    def __str__(self) -> str:
        return f"{self.referee} for {self.submission}"
