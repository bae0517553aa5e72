"""What is around a performance: lead times, steps to be taken, sessions at hours of their own, returns to societies."""

from __future__ import annotations

from datetime import date, time
from typing import Any

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import (
    choices_of,
    country_code,
    filled,
    known,
    refuse_unknown_country,
    refuse_unknown_zone,
)
from catalogue.models.fields import (
    IDENTIFIER,
    LONG_LINE,
    PartialDateField,
    SearchTextField,
    ValueField,
    line,
)
from catalogue.models.kept import KeptOfComposer, KeptQuerySet
from catalogue.models.people import Organisation
from catalogue.models.performances import Performance
from catalogue.models.records import LivingManager
from catalogue.rules.filing import FilingRule, FilingScope, read_filing_rule
from catalogue.rules.journey import Lead, read_lead
from catalogue.terms import SessionKind, StepKind, StepState
from catalogue.timing import MomentError, PartialDate, moment_at, steady_clocks


class LeadField(ValueField):
    """A lead time: its days, or a minus sign where the step is not needed; empty where nothing is said."""

    _pyi_private_set_type: Lead | None
    _pyi_private_get_type: Lead | None

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"null": True, "max_length": 4, **options})

    def parse(self, stored: str) -> Lead:
        if stored == "-":
            return Lead(None)
        if not (stored.isascii() and stored.isdigit()):
            raise ValueError(f"“{stored}” is no stored lead time.")
        return Lead(int(stored))

    def typed(self, text: str) -> Lead:
        return read_lead(text)

    def write(self, value: Lead) -> str:
        return "-" if value.days is None else str(value.days)


class FilingRuleField(ValueField):
    """Until when a society takes returns, in the words in which ``filing`` writes it."""

    _pyi_private_set_type: FilingRule | None
    _pyi_private_get_type: FilingRule | None

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **{"null": True, "blank": False, "max_length": 80, **options})

    def parse(self, stored: str) -> FilingRule:
        return read_filing_rule(stored)

    def write(self, value: FilingRule) -> str:
        return str(value)


class LivingOfOrganisationManager(LivingManager):
    """Leaves out what has been deleted, and what is for a body that has been deleted or merged with another."""

    def get_queryset(self) -> Any:
        return super().get_queryset().filter(organisation__deleted_at__isnull=True)


class LeadTimes(KeptOfComposer):
    """How long before or after a performance each step is due: for one presenter, or where none is named for all."""

    organisation = models.ForeignKey(Organisation, on_delete=models.CASCADE, null=True, blank=True, related_name="+")
    contract = LeadField()
    rider = LeadField()
    parts = LeadField()
    texts = LeadField()
    stream = LeadField()
    recording_request = LeadField()
    travel = LeadField()
    electronics = LeadField()
    lasted = LeadField()
    thanks = LeadField()
    set_back = LeadField()
    recording = LeadField()
    review = LeadField()
    filing = LeadField()
    search_text = SearchTextField(of=("notes",))

    objects = LivingOfOrganisationManager.from_queryset(KeptQuerySet)()  # type: ignore[misc,assignment]

    class Meta:
        verbose_name_plural = "lead times"

    def __str__(self) -> str:
        return str(self.organisation) if self.organisation else "All presenters"

    def clean(self) -> None:
        super().clean()
        others = LeadTimes.objects.filter(composer=self.composer_id, organisation=self.organisation_id)
        if self.composer_id and self.deleted_at is None and others.exclude(pk=self.pk).exists():
            raise ValidationError({"organisation": f"The lead times for {str(self).lower()} are kept already."})

    def said(self) -> dict[StepKind, Lead]:
        """Return the lead times that are filled in."""
        found = {kind: getattr(self, column) for kind, column in COLUMN_OF.items()}
        return {kind: lead for kind, lead in found.items() if isinstance(lead, Lead)}


COLUMN_OF = {
    kind: "filing" if kind is StepKind.RETURN else kind.name.lower() for kind in StepKind if kind is not StepKind.OTHER
}
"""In which column the lead time of a step stands; a return is filed, and no column may be called as Python's word."""


class LivingOfPerformanceManager(LivingManager):
    """Leaves out what has been deleted, and what hangs on a performance that has been."""

    def get_queryset(self) -> Any:
        return super().get_queryset().filter(performance__deleted_at__isnull=True)


class KeptOfPerformance(KeptOfComposer):
    """A record of one performance."""

    performance = models.ForeignKey(Performance, on_delete=models.CASCADE, related_name="+")

    objects = LivingOfPerformanceManager.from_queryset(KeptQuerySet)()  # type: ignore[misc,assignment]

    class Meta:
        abstract = True


def exact_day(column: str, value: object) -> None:
    """Raise ValidationError at a column where a date is not one day for certain."""
    if isinstance(value, PartialDate) and value.exact is None:
        raise ValidationError({column: "Name the day: a month or a year alone is not enough here."})


class Step(KeptOfPerformance):
    """A step around a performance as somebody has said it stands; ``label`` names one of the composer's own.

    ``due`` is a day that goes before every lead time.
    """

    kind = models.CharField(max_length=30, choices=choices_of(StepKind), default=StepKind.OTHER.value)
    label = line()
    state = models.CharField(max_length=20, choices=choices_of(StepState), default=StepState.OPEN.value)
    due = PartialDateField()
    done_on = PartialDateField()
    search_text = SearchTextField(of=("label", "notes"))

    class Meta:
        constraints = [
            known("step", "kind", StepKind),
            known("step", "state", StepState),
            models.CheckConstraint(condition=~Q(kind=StepKind.OTHER.value) | ~Q(label=""), name="step_other_is_named"),
        ]

    def __str__(self) -> str:
        return self.label or self.get_kind_display()

    def clean(self) -> None:
        super().clean()
        exact_day("due", self.due)
        exact_day("done_on", self.done_on)
        if self.kind == StepKind.OTHER and not self.label.strip():
            raise ValidationError({"label": "Name the step, or choose one of the list."})
        if self.kind != StepKind.OTHER and self.performance_id and self.deleted_at is None:
            alike = Step.objects.filter(performance=self.performance_id, kind=self.kind)
            if alike.exclude(pk=self.pk).exists():
                raise ValidationError({"kind": "This step of the performance is kept already."})


def refuse_unclear_hour(column: str, day: date, at: time, zone: str) -> None:
    """Raise ValidationError at a column whose hour the clocks never show, or show twice without it being said which."""
    try:
        moment_at(day, at, zone)
    except MomentError as mistake:
        steady = steady_clocks(day, at, zone)
        which = f" Write {steady[0]} as the clocks for the first, {steady[1]} for the second." if steady else ""
        raise ValidationError({column: mistake.reason + which}) from mistake


class Session(KeptOfPerformance):
    """A rehearsal, a get-in, a line check or a talk: its day and hours by the clocks of the performance."""

    kind = models.CharField(max_length=20, choices=choices_of(SessionKind), default=SessionKind.REHEARSAL.value)
    title = line()
    date = PartialDateField(blank=False)
    time = models.TimeField(null=True, blank=True)
    until = models.TimeField(null=True, blank=True)
    zone = line(64, validators=[refuse_unknown_zone])
    place = line(LONG_LINE)
    search_text = SearchTextField(of=("title", "place", "notes"))

    class Meta:
        constraints = [known("session", "kind", SessionKind)]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.title or self.get_kind_display(), str(self.date or "")) if part)

    @property
    def local_zone(self) -> str:
        return self.zone or (self.performance.local_zone if self.performance_id else "")

    def clean(self) -> None:
        super().clean()
        exact_day("date", self.date)
        if self.until and not self.time:
            raise ValidationError({"time": "Say when it begins as well."})
        day = self.date.exact if isinstance(self.date, PartialDate) else None
        for column in ("time", "until"):
            at = getattr(self, column)
            if day and at and self.local_zone:
                refuse_unclear_hour(column, day, at, self.local_zone)


class Return(KeptOfPerformance):
    """What a society was told of a performance; one performance may need several returns.

    ``reference`` is what the society answers with, ``until`` the last day it takes it, read on ``rule_read``.
    """

    society = line(blank=False)
    filed = PartialDateField()
    reference = line(IDENTIFIER)
    until = PartialDateField()
    rule_read = PartialDateField()
    answer = line(LONG_LINE)
    search_text = SearchTextField(of=("society", "reference", "answer", "notes"))

    class Meta:
        constraints = [filled("return", "society")]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.society, self.reference) if part)


class SocietyDeadline(KeptOfComposer):
    """Until when a society takes returns, as somebody read it there: societies differ, and change what they ask.

    ``scope`` and ``country`` say which performances it is about, ``source`` where it stands, ``read_on`` when it was
    read.
    """

    society = line(blank=False)
    rule = FilingRuleField()
    what = line()
    scope = models.CharField(max_length=20, choices=choices_of(FilingScope), default=FilingScope.EVERYWHERE.value)
    country = line(2, validators=[refuse_unknown_country])
    source = line(LONG_LINE, blank=False)
    read_on = PartialDateField(blank=False)
    search_text = SearchTextField(of=("society", "what", "source", "notes"))

    class Meta:
        constraints = [
            filled("deadline", "society", "source"),
            known("deadline", "scope", FilingScope),
            country_code("deadline"),
        ]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.society, str(self.rule or "")) if part)

    def clean(self) -> None:
        super().clean()
        exact_day("read_on", self.read_on)
        if bool(self.country) is (self.scope == FilingScope.EVERYWHERE):
            raise ValidationError({"country": "Name a country where the deadline is about one, and only there."})
