"""Performances: when and where, who played, and what stood on the programme."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import Any, Generic, Self
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import F, Func, Prefetch, Q
from django.db.models.functions import Right

from catalogue.models.conditions import (
    choices_of,
    country_code,
    known,
    lasts,
    refuse_unknown_country,
    refuse_unknown_zone,
)
from catalogue.models.fields import (
    LONG_LINE,
    DurationField,
    PartialDateField,
    SearchTextField,
    StrengthsField,
    line,
    text,
)
from catalogue.models.indexes import LatestFirst, TextIndex
from catalogue.models.people import Composer, Organisation, Person
from catalogue.models.places import Venue
from catalogue.models.records import Deletable, Guarded, LivingManager, M, Record, SearchableQuerySet, TenantQuerySet
from catalogue.models.works import Work
from catalogue.rules.search import fold
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus, PerformerRole
from catalogue.timing import MomentError, PartialDate, moment_at, occurs, write_date

LONG_TEXTS_OF_WORK = (
    "work__programme_note",
    "work__electronics_note",
    "work__tempo_map",
    "work__notes",
    "work__search_text",
)

LATEST_FIRST = (F("first_day").desc(nulls_last=True), F("time").desc(nulls_last=True), "-pk")
"""How performances stand in a list, where nothing goes before: indexes are made in this order."""


class PerformanceQuerySet(SearchableQuerySet["Performance"]):
    """Questions about performances, asked of the database."""

    def with_everything_printed(self) -> Self:
        """Fetch venue, presenter, performers and programme along: two more queries, however many performances.

        Works that have been deleted are left out of the programme.
        """
        living = ProgrammedWork.objects.filter(work__deleted_at__isnull=True).order_by("order")
        programme = living.select_related("work").defer(*LONG_TEXTS_OF_WORK)
        performers = PerformanceCredit.objects.select_related("person", "organisation").order_by("order", "pk")
        placed = self.select_related("venue", "presenter")
        return placed.prefetch_related(Prefetch("credits", performers)).prefetch_related(
            Prefetch("programme", programme)
        )

    def in_date_order(self) -> Self:
        return self.order_by(F("first_day").asc(nulls_last=True), F("time").asc(nulls_last=True), "pk")

    def latest_first(self) -> Self:
        return self.order_by(*LATEST_FIRST)

    def from_day(self, day: date) -> Self:
        """Return the performances that may take place on this day or later."""
        return self.filter(last_day__gte=day)

    def without_a_day(self) -> Self:
        """Return those whose day is not known for certain: a month, a year, about a day."""
        circa = Right("date", 1, output_field=models.CharField())
        return self.alias(mark=circa).filter(Q(first_day__lt=F("last_day")) | Q(mark="~"))

    def before_day(self, day: date) -> Self:
        return self.filter(last_day__lt=day)

    def of_work(self, work: Work) -> Self:
        return self.filter(pk__in=ProgrammedWork.objects.filter(work=work).values("performance"))

    def matching(self, text: str, *, composer: Composer | None = None) -> Self:
        """Return the performances that hold every word of the text, in any case, with or without marks.

        Words are looked for in the performance, its place, its presenter, its performers and the works it holds. Where
        all performances are one composer's, name that composer: then nothing of others is looked through.
        """
        found = self
        for word in fold(text).split():
            found = found.filter(pk__in=evenings_holding(word, composer))
        return found


class Performance(Record, Deletable, Guarded):
    """One event. ``date`` and ``time`` are those of the clocks where it takes place.

    ``zone`` is needed only where there is no venue that names one; ``second_time`` says of a time that comes twice, as
    the clocks go back, which is meant. ``first_day``, ``last_day`` and ``starts_at`` (UTC)
    are reckoned from these. ``uid`` and ``sequence`` are the identity and the revision of the event in a calendar.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="performances")
    uid = models.UUIDField(default=uuid4, unique=True, editable=False)
    sequence = models.PositiveIntegerField(default=0, editable=False)
    date = PartialDateField()
    first_day = models.DateField(null=True, blank=True, editable=False)
    last_day = models.DateField(null=True, blank=True, editable=False)
    time = models.TimeField(null=True, blank=True)
    zone = line(64, validators=[refuse_unknown_zone])
    second_time = models.BooleanField(null=True, blank=True)
    starts_at = models.DateTimeField(null=True, blank=True, editable=False)
    kind = models.CharField(max_length=30, choices=choices_of(PerformanceKind), default=PerformanceKind.CONCERT.value)
    audience = models.CharField(max_length=20, choices=choices_of(Audience), default=Audience.PUBLIC.value)
    status = models.CharField(
        max_length=20, choices=choices_of(PerformanceStatus), default=PerformanceStatus.GIVEN.value
    )
    event_title = line(LONG_LINE)
    venue = models.ForeignKey(Venue, on_delete=models.RESTRICT, null=True, blank=True, related_name="performances")
    city = line()
    country = line(2, validators=[refuse_unknown_country])
    country_then = line()
    presenter = models.ForeignKey(
        Organisation, on_delete=models.RESTRICT, null=True, blank=True, related_name="presented_performances"
    )
    presenter_name = line()
    series = line()
    string_strengths = StrengthsField()
    notes = text()
    search_text = SearchTextField(of=("event_title", "city", "country_then", "presenter_name", "series", "notes"))

    objects = LivingManager.from_queryset(PerformanceQuerySet)()
    with_deleted = PerformanceQuerySet.as_manager()

    class Meta:
        indexes = [
            LatestFirst(
                fields=["composer", "-first_day", "-time", "-id"],
                condition=Q(deleted_at__isnull=True),
                name="performance_latest_first",
            ),
            *(
                LatestFirst(
                    fields=["composer", column, "-first_day", "-time", "-id"],
                    condition=Q(deleted_at__isnull=True),
                    name=f"performance_by_{column}",
                )
                for column in ("kind", "status")
            ),
            LatestFirst(
                fields=["composer", "venue", "city", "country", "-first_day", "-time", "-id"],
                condition=Q(deleted_at__isnull=True),
                name="performance_by_place",
            ),
            models.Index(
                fields=["composer", "last_day"], condition=Q(deleted_at__isnull=True), name="performance_from_day"
            ),
            models.Index(  # holds all that a long history is counted by, so that its rows need not be read
                fields=["composer", "first_day", "last_day", "status", "venue", "country"],
                condition=Q(deleted_at__isnull=True),
                name="performance_counted",
            ),
            TextIndex(
                fields=["composer", "search_text", "deleted_at"],
                condition=Q(deleted_at__isnull=True, search_text__gt=""),
                name="performance_searched",
            ),
            models.Index(fields=["composer"], condition=Q(deleted_at__isnull=False), name="performance_deleted"),
        ]
        constraints = [
            known("performance", "kind", PerformanceKind),
            known("performance", "audience", Audience),
            known("performance", "status", PerformanceStatus),
            country_code("performance"),
            models.CheckConstraint(
                condition=Q(first_day__isnull=True, last_day__isnull=True) | Q(first_day__lte=F("last_day")),
                name="performance_days_in_order",
            ),
        ]

    def __str__(self) -> str:
        day = write_date(self.date, style="short") if isinstance(self.date, PartialDate) else self.date
        parts = (self.event_title, day, self.venue or self.city)
        return ", ".join(str(part) for part in parts if part) or "Performance"

    @property
    def local_zone(self) -> str:
        """The IANA name of the clocks that the time is told by, empty where none is known."""
        return self.zone or (self.venue.zone if self.venue else "")

    @property
    def presented_by(self) -> str:
        return self.presenter_name or (self.presenter.name if self.presenter else "")

    def clean(self) -> None:
        day = self.date.exact if isinstance(self.date, PartialDate) else None
        if day and self.time and self.local_zone:
            try:
                moment_at(day, self.time, self.local_zone, second=self.second_time)
            except MomentError as mistake:
                code = occurs(day, self.time, self.local_zone)
                raise ValidationError({"time": ValidationError(mistake.reason, code=code)}) from mistake
        for column in ("venue", "presenter"):
            other = getattr(self, column)
            if other is not None and other.composer_id != self.composer_id:
                raise ValidationError({column: f"This {column} stands in another composer’s catalogue."})


class PerformancePartQuerySet(TenantQuerySet[M], Generic[M]):
    memberships_path = "performance__composer__memberships"


class PerformanceCredit(Record):
    """Who did what: a person or an organisation of the catalogue, or a name as billed, or both."""

    performance = models.ForeignKey(Performance, on_delete=models.CASCADE, related_name="credits")
    order = models.PositiveSmallIntegerField(default=1)
    person = models.ForeignKey(
        Person, on_delete=models.RESTRICT, null=True, blank=True, related_name="credits", db_index=False
    )
    organisation = models.ForeignKey(
        Organisation, on_delete=models.RESTRICT, null=True, blank=True, related_name="credits", db_index=False
    )
    name = line()
    role = models.CharField(max_length=20, choices=choices_of(PerformerRole), default=PerformerRole.PERFORMER.value)
    plays = line()
    search_text = SearchTextField(of=("name", "plays"))

    objects = PerformancePartQuerySet["PerformanceCredit"].as_manager()

    class Meta:
        indexes = [
            *(
                models.Index(
                    fields=[somebody, "performance"],
                    condition=Q(**{f"{somebody}__isnull": False}),
                    name=f"credit_of_{somebody}",
                )
                for somebody in ("person", "organisation")
            ),
            TextIndex(fields=["search_text", "performance"], condition=Q(search_text__gt=""), name="credit_searched"),
        ]
        constraints = [
            known("credit", "role", PerformerRole),
            models.CheckConstraint(
                condition=Q(person__isnull=False) | Q(organisation__isnull=False) | ~Q(name=""),
                name="credit_names_somebody",
            ),
            models.CheckConstraint(
                condition=Q(person__isnull=True) | Q(organisation__isnull=True),
                name="credit_is_person_or_organisation",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.billed_name} ({self.plays or self.role})"

    def clean(self) -> None:
        if self.person is not None and self.organisation is not None:
            raise ValidationError(
                {"organisation": "A line is for a person or for an organisation; write one for each."}
            )
        if not self.billed_name:
            raise ValidationError({"name": "Name who performed."})

    @property
    def billed_name(self) -> str:
        return self.name or str(self.person or self.organisation or "")


class ProgrammedWork(Record):
    """A work on a programme. ``part`` says which part where it is not complete, ``duration`` how long it lasted.

    ``claim_override`` is what the playing is to be called whatever is reckoned, and ``claim_reason`` says why.
    """

    performance = models.ForeignKey(Performance, on_delete=models.CASCADE, related_name="programme")
    work = models.ForeignKey(Work, on_delete=models.RESTRICT, related_name="programmed", db_index=False)
    order = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1)])
    extent = models.CharField(max_length=10, choices=choices_of(Extent), default=Extent.COMPLETE.value)
    part = line(LONG_LINE)
    billing = line(LONG_LINE)
    note = line(LONG_LINE)
    duration = DurationField()
    claim_override = line(LONG_LINE)
    claim_reason = line(LONG_LINE)

    objects = PerformancePartQuerySet["ProgrammedWork"].as_manager()

    class Meta:
        indexes = [models.Index(fields=["work", "performance"], name="programmed_of_work")]
        constraints = [
            known("programmed", "extent", Extent),
            lasts("programmed"),
            models.UniqueConstraint(
                fields=["performance", "order"],
                name="programmed_order_once",
                violation_error_message="Another work has this place in the programme.",
            ),
            models.CheckConstraint(condition=Q(order__gte=1), name="programmed_order_from_one"),
            models.CheckConstraint(
                condition=Q(claim_override="") | ~Q(claim_reason=""), name="programmed_override_has_reason"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.work} at {self.performance}"

    def clean(self) -> None:
        if self.work_id and self.performance_id and self.work.composer_id != self.performance.composer_id:
            raise ValidationError({"work": "This work stands in another composer’s catalogue."})
        if self.claim_override and not self.claim_reason.strip():
            raise ValidationError({"claim_reason": "Say why it is to be called that."})


# ---- words


WRITTEN = Func(template="''", arity=0, output_field=models.TextField())
"""Every text that is not empty is greater. It stands in the question itself, so that SQLite finds the index by it."""


def evenings_holding(
    word: str, composer: Composer | int | None, among: Collection[int] | None = None
) -> models.QuerySet[Any, tuple[int, ...]]:
    """Ask for the keys of performances that hold a folded word, deleted ones among them, some of them several times.

    Each place where it can stand is asked for itself: each has an index, all together have none. ``among`` names those
    that may be found, where these are few.
    """
    holds = {"search_text__contains": word}
    whose = {"composer": composer} if composer else {}
    ours, theirs = ({}, {}) if among is None else ({"pk__in": among}, {"performance__in": among})
    works: Any = Work.objects.filter(**whose, **holds).order_by().values("pk")
    named: Any = (model._base_manager.filter(**whose, **holds).values("pk") for model in (Person, Organisation, Venue))
    people, bodies, halls = named
    credits, evenings = PerformanceCredit.objects.filter(**theirs), Performance.with_deleted.filter(**whose, **ours)
    living = Performance.objects.filter(**whose, **ours)
    billed = credits.filter(search_text__gt=WRITTEN, **holds).values("performance")
    places = (
        ProgrammedWork.objects.filter(**theirs, work__in=works).values_list("performance"),
        credits.filter(person__in=people).values_list("performance"),
        credits.filter(organisation__in=bodies).values_list("performance"),
        evenings.filter(pk__in=billed).values_list("pk"),
        living.filter(venue__in=halls).values_list("pk"),
        Performance.with_deleted.filter(**ours, presenter__in=bodies).values_list("pk"),
        living.filter(search_text__gt=WRITTEN, **holds).values_list("pk"),
    )
    return places[0].union(*places[1:], all=True)
