"""What a work needs besides its players: ways of doing its electronics, and the riders that ask a presenter for it.

The lists of a setup are kept as they are typed, a row a line; what is typed can always be read, since nothing else is
stored.
"""

from __future__ import annotations

from datetime import datetime
from typing import Self

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from catalogue.models.addresses import SecretAddress
from catalogue.models.conditions import between, choices_of, filled, known
from catalogue.models.fields import LONG_LINE, PartialDateField, SearchTextField, line, text
from catalogue.models.kept import KeptOfComposer, KeptOfWork
from catalogue.models.performances import Performance
from catalogue.models.records import TenantQuerySet
from catalogue.models.typed_lists import READERS, refuse_unreadable
from catalogue.models.works import Work
from catalogue.terms import Answer, LayoutName, SetupKind, Synchronisation


class TechnicalSetup(KeptOfWork):
    """A way of doing the electronics of a work: as it is meant, with less, or when something fails.

    Columns named in ``READERS`` hold typed lists. ``documented`` is when all this was last true, ``tested`` when it was
    last set up from nothing; ``good_for`` is how many months either holds before it wants to be done again.
    """

    name = line(blank=False)
    kind = models.CharField(max_length=20, choices=choices_of(SetupKind), default=SetupKind.FULL.value)
    differs = text()
    fixed_media = models.BooleanField(default=False)
    live_processing = models.BooleanField(default=False)
    amplification = models.BooleanField(default=False)
    sampler = models.BooleanField(default=False)
    description = text()
    synchronisation = models.CharField(
        max_length=30, choices=choices_of(Synchronisation), default=Synchronisation.NONE.value
    )
    synchronisation_note = line(LONG_LINE)
    inputs = text()
    outputs = text()
    layout = models.CharField(max_length=30, choices=choices_of(LayoutName), default=LayoutName.NONE.value)
    speakers = text()
    equipment = text()
    software = text()
    media = text()
    sample_rate = models.PositiveIntegerField(
        null=True, blank=True, validators=[MinValueValidator(8000), MaxValueValidator(384_000)]
    )
    bit_depth = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(8), MaxValueValidator(64)]
    )
    latency_ms = models.DecimalField(
        max_digits=6, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)]
    )
    network = text()
    power = text()
    staff = text()
    schedule = text()
    rehearsal = text()
    stage_width = models.DecimalField(
        max_digits=5,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(100)],
    )
    stage_depth = models.DecimalField(
        max_digits=5,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(100)],
    )
    places = text()
    loudest = line(LONG_LINE)
    flashing = line(LONG_LINE)
    setting_up = text()
    when_it_fails = text()
    documented = PartialDateField()
    tested = PartialDateField()
    good_for = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(600)]
    )
    position = models.PositiveSmallIntegerField(default=0)
    search_text = SearchTextField(of=("name", "description", "inputs", "outputs", "equipment", "software", "notes"))

    class Meta:
        constraints = [
            filled("setup", "name"),
            known("setup", "kind", SetupKind),
            known("setup", "synchronisation", Synchronisation),
            known("setup", "layout", LayoutName),
            between("setup", "sample_rate", 8000, 384_000),
            between("setup", "bit_depth", 8, 64),
            between("setup", "stage_width", 1, 100),
            between("setup", "stage_depth", 1, 100),
            between("setup", "good_for", 1, 600),
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        super().clean()
        refuse_unreadable(self, tuple(READERS))
        if self.layout != LayoutName.OWN and self.speakers.strip():
            raise ValidationError(
                {"layout": "Loudspeakers are written out; choose the own layout, or empty their list."}
            )


class Rider(KeptOfComposer):
    """What a presenter is asked for one work in one performance; ``contact_name`` is the one person to ask back.

    ``setup`` is none for a work that needs no electronics; ``equipment`` is what is asked for besides.
    """

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="+")
    performance = models.ForeignKey(Performance, on_delete=models.CASCADE, related_name="+")
    setup = models.ForeignKey(TechnicalSetup, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    contact_name = line(blank=False)
    contact_email = models.EmailField(blank=True, default="")
    contact_telephone = line(50)
    contact_hours = line()
    summary = text()
    equipment = text()
    schedule = text()
    travel = text()
    search_text = SearchTextField(of=("contact_name", "summary", "equipment", "notes"))

    class Meta:
        constraints = [filled("rider", "contact_name")]

    def __str__(self) -> str:
        return f"{self.work}, {self.performance}" if self.work_id and self.performance_id else self.contact_name

    def clean(self) -> None:
        super().clean()
        refuse_unreadable(self, ("equipment", "schedule"))
        if not self.contact_email and not self.contact_telephone:
            raise ValidationError({"contact_email": "Give an e-mail address or a telephone number to ask back."})
        if self.setup is not None and self.setup.work_id != self.work_id:
            raise ValidationError({"setup": "This setup is of another work."})
        if self.performance_id and not self.performance.programme.filter(work=self.work_id).exists():
            raise ValidationError({"performance": "This work is not on the programme of the performance."})


class RiderSendingQuerySet(TenantQuerySet["RiderSending"]):
    memberships_path = "rider__composer__memberships"

    def open_at(self, moment: datetime) -> Self:
        """Return the sendings whose addresses still lead somewhere at this moment."""
        there = {f"rider__{path}deleted_at__isnull": True for path in ("", "work__", "performance__")}
        return self.filter(withdrawn_at__isnull=True, expires_at__gt=moment, **there)


class RiderSending(SecretAddress):
    """A rider as it left the house: its revision, what was asked, and the files by the SHA-256 of their content.

    ``items`` are what can be confirmed, ``lists`` the lines that the next revision is compared with.
    """

    rider = models.ForeignKey(Rider, on_delete=models.CASCADE, related_name="sendings")
    revision = models.PositiveSmallIntegerField()
    sent_to = line(blank=False)
    language = line(35)
    items = models.JSONField(default=list)
    lists = models.JSONField(default=dict)
    files = models.JSONField(default=dict)
    answered_by = line()
    answered_at = models.DateTimeField(null=True)
    message = text()

    objects = RiderSendingQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["rider", "revision"], name="rider_revision_once"),
            models.CheckConstraint(condition=models.Q(revision__gte=1), name="rider_revision_from_one"),
        ]

    def __str__(self) -> str:
        return f"{self.rider}, revision {self.revision}"


class RiderAnswerQuerySet(TenantQuerySet["RiderAnswer"]):
    memberships_path = "sending__rider__composer__memberships"


class RiderAnswer(models.Model):
    """What was answered to one item; ``item`` is its key."""

    sending = models.ForeignKey(RiderSending, on_delete=models.CASCADE, related_name="answers")
    item = models.CharField(max_length=16)
    answer = models.CharField(max_length=10, choices=choices_of(Answer))
    remark = line(LONG_LINE)
    answered_at = models.DateTimeField()

    objects = RiderAnswerQuerySet.as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["sending", "item"], name="rider_item_answered_once"),
            known("rider_answer", "answer", Answer),
        ]

    def __str__(self) -> str:
        return f"{self.item}: {self.answer}"
