"""Works as they stand in a catalogue, with their movements, commissions and the index of their forces."""

from __future__ import annotations

from itertools import pairwise
from typing import Generic, Self
from uuid import uuid4

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import F, Prefetch, Q

from catalogue.models.conditions import between, choices_of, known, known_or_empty, lasts
from catalogue.models.fields import (
    IDENTIFIER,
    LONG_LINE,
    DurationField,
    PartialDateField,
    SearchTextField,
    StrengthsField,
    line,
    mark,
    text,
)
from catalogue.models.indexes import TextIndex
from catalogue.models.kept import KeptOfWork
from catalogue.models.ordering import Folded
from catalogue.models.people import Composer, Organisation
from catalogue.models.records import Deletable, Guarded, LivingManager, M, Record, SearchableQuerySet, TenantQuerySet
from catalogue.rules.search import fold
from catalogue.terms import Category, VersionKind, WorkStatus
from catalogue.timing import Duration


class WorkQuerySet(SearchableQuerySet["Work"]):
    """Questions about works, asked of the database."""

    def matching(self, text: str) -> Self:
        """Return the works that hold every word of the text, in any case, with or without marks.

        They are found by themselves, and put in order afterwards: else SQLite goes by an index in that order and reads
        every row for its text.
        """
        words = fold(text).split()
        holding = self.order_by()
        for word in words:
            holding = holding.filter(search_text__contains=word)
        return self.filter(pk__in=holding.values("pk")) if words else self

    def with_everything_printed(self) -> Self:
        """Fetch movements and commissions along: two more queries, however many works."""
        commissions = Commission.objects.select_related("organisation").order_by("pk")
        return self.prefetch_related(Prefetch("movements", Movement.objects.order_by("number"))).prefetch_related(
            Prefetch("commissions", commissions)
        )

    def in_title_order(self) -> Self:
        """Order by title, those of one title as they were entered."""
        return self.order_by(Folded("title"), "pk")

    def newest_first(self) -> Self:
        return self.order_by(F("completed").desc(nulls_last=True), Folded("title"), "pk")

    def lasting(self, *, least: int | None = None, most: int | None = None) -> Self:
        """Return the works of a known duration between so many seconds, approximate ones included."""
        found = self.filter(duration__isnull=False)
        if least is not None:
            found = found.filter(duration__gte=Duration(least))
        return found if most is None else found.filter(duration__lt=Duration(most + 1))

    def calling_for(self, instrument: str) -> Self:
        """Return the works in which somebody plays the instrument, as the main one or as a doubling."""
        return self.filter(pk__in=InstrumentationLine.objects.filter(instrument=instrument).values("work"))

    def for_at_most(self, players: int) -> Self:
        """Return the works that so many instrumentalists can play; works with open numbers are left out."""
        return self.filter(least_players__lte=players)


class Work(Record, Deletable, Guarded):
    """A work, or a version of one (``version_of`` names the first version). A title alone is enough.

    ``instrumentation`` is the canonical text and stays empty where what was typed cannot be read;
    ``instrumentation_typed`` and ``duration_typed`` keep what was typed. ``least_players``, ``most_players`` and
    ``electronics`` are reckoned from the instrumentation, as the index rows are. ``duration`` is the published one, of
    an open form the usual one between ``least_duration`` and ``most_duration``. ``tempo_map`` stands as it was typed;
    ``tempo_map_dated`` is the day on which it was last changed, ``cue_letters`` says who the letters at the cues are.
    ``is_public`` puts it on the composer's public pages, where these are open. ``strength`` is the composer's own mark,
    for choosing what to send; it is printed nowhere.
    """

    composer = models.ForeignKey(Composer, on_delete=models.CASCADE, related_name="works")
    uid = models.UUIDField(default=uuid4, unique=True, editable=False)
    title = line(LONG_LINE, blank=False)
    title_language = line(35)
    original_title = line(LONG_LINE)
    original_language = line(35)
    transliteration = line(LONG_LINE)
    translated_title = line(LONG_LINE)
    subtitle = line(LONG_LINE)
    catalogue_number = line(50)
    begun = PartialDateField()
    completed = PartialDateField(db_index=True)
    revised = PartialDateField()
    published = PartialDateField()
    category = models.CharField(max_length=30, choices=choices_of(Category), default=Category.OTHER.value)
    status = models.CharField(max_length=20, choices=choices_of(WorkStatus), default=WorkStatus.ACTIVE.value)
    instrumentation = text()
    instrumentation_typed = text()
    least_players = models.PositiveIntegerField(null=True, blank=True, editable=False)
    most_players = models.PositiveIntegerField(null=True, blank=True, editable=False)
    electronics = line(20, editable=False)
    duration = DurationField(db_index=True)
    duration_typed = line()
    least_duration = DurationField()
    most_duration = DurationField()
    tempo_map = text()
    tempo_map_dated = models.DateField(null=True, blank=True, editable=False)
    cue_letters = line(LONG_LINE)
    string_strengths = StrengthsField()
    dedication = line(LONG_LINE)
    text_author = line(LONG_LINE)
    text_language = line(35)
    version_of = models.ForeignKey("self", on_delete=models.RESTRICT, null=True, blank=True, related_name="versions")
    version_label = line()
    version_kind = models.CharField(max_length=20, choices=choices_of(VersionKind), blank=True, default="")
    publisher = line()
    iswc = line(IDENTIFIER)
    ismn = line(IDENTIFIER)
    parts_on_hire = models.BooleanField(default=False)
    is_public = models.BooleanField(default=False)
    strength = mark()
    programme_note = text()
    electronics_note = text()
    notes = text()
    search_text = SearchTextField(
        of=(
            "title", "original_title", "transliteration", "translated_title", "subtitle", "catalogue_number",
            "version_label", "dedication", "text_author", "publisher", "instrumentation_typed", "notes",
        )
    )  # fmt: skip

    objects = LivingManager.from_queryset(WorkQuerySet)()
    with_deleted = WorkQuerySet.as_manager()

    class Meta:
        indexes = [
            models.Index(fields=["composer", "title"], name="work_by_title"),
            models.Index(fields=["composer", "-completed"], name="work_newest_first"),
            TextIndex(
                fields=["composer", "search_text", "deleted_at"],
                condition=Q(deleted_at__isnull=True),
                name="work_searched",
            ),
        ]
        constraints = [
            known("work", "category", Category),
            known("work", "status", WorkStatus),
            known_or_empty("work", "version_kind", VersionKind),
            between("work", "strength", 1, 5),
            lasts("work"),
            lasts("work", "least_duration"),
            lasts("work", "most_duration"),
            models.CheckConstraint(
                condition=Q(version_of__isnull=True) | ~Q(version_of=F("id")), name="work_is_no_version_of_itself"
            ),
            # A version may stand under the number of its first version.
            models.UniqueConstraint(
                fields=["composer", "catalogue_number"],
                condition=Q(deleted_at__isnull=True) & Q(version_of__isnull=True) & ~Q(catalogue_number=""),
                name="work_catalogue_number_once",
                violation_error_message="Another work has this catalogue number.",
            ),
        ]

    def __str__(self) -> str:
        return self.title

    def clean(self) -> None:
        self._refuse_number_of_another()
        self._refuse_tangled_version()
        self._refuse_durations_out_of_order()

    def _refuse_durations_out_of_order(self) -> None:
        known = [one for one in (self.least_duration, self.duration, self.most_duration) if isinstance(one, Duration)]
        if any(one.seconds > other.seconds for one, other in pairwise(known)):
            reason = "The durations of an open form have to rise: the shortest, the usual, the longest."
            raise ValidationError({"most_duration" if self.most_duration else "least_duration": reason})

    def _refuse_number_of_another(self) -> None:
        if not self.catalogue_number or self.composer_id is None:
            return
        others = Work.objects.filter(composer_id=self.composer_id, catalogue_number=self.catalogue_number)
        first = self.version_of_id or self.pk
        if first is not None:
            others = others.exclude(Q(pk__in=(first, self.pk or first)) | Q(version_of__isnull=False, version_of=first))
        other = others.order_by("pk").first()
        if other is not None:
            raise ValidationError({"catalogue_number": f"“{other.title}” has this catalogue number."})

    def _refuse_tangled_version(self) -> None:
        if self.version_of is None:
            return
        if self.version_of_id == self.pk:
            raise ValidationError({"version_of": "A work cannot be a version of itself."})
        if self.version_of.composer_id != self.composer_id:
            raise ValidationError({"version_of": "A version belongs to the same composer as its first version."})
        if self.version_of.version_of_id is not None:
            raise ValidationError({"version_of": f"“{self.version_of}” is a version itself; name the first version."})
        if self.pk is not None and self.versions.exists():
            raise ValidationError({"version_of": "This work has versions of its own, so it is the first version."})


class WorkPartQuerySet(TenantQuerySet[M], Generic[M]):
    memberships_path = "work__composer__memberships"


class Movement(Record):
    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="movements")
    number = models.PositiveSmallIntegerField(validators=[MinValueValidator(1)])
    title = line(LONG_LINE)
    duration = DurationField()
    attacca = models.BooleanField(default=False)

    objects = WorkPartQuerySet["Movement"].as_manager()

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["work", "number"],
                name="movement_number_once",
                violation_error_message="Another movement has this number.",
            ),
            models.CheckConstraint(condition=Q(number__gte=1), name="movement_number_from_one"),
            lasts("movement"),
        ]

    def __str__(self) -> str:
        return f"{self.number}. {self.title}"


class Commission(KeptOfWork):
    """Who commissioned a work: an organisation of the catalogue, or a name as it is to be printed, or both.

    ``due`` is when it was to be delivered, ``delivered`` when it was; ``fee`` and ``reference`` are never printed.
    """

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="commissions")
    organisation = models.ForeignKey(
        Organisation, on_delete=models.RESTRICT, null=True, blank=True, related_name="commissions"
    )
    name = line()
    place = line()
    funder = line()
    agreed = PartialDateField()
    due = PartialDateField()
    delivered = PartialDateField()
    fee = line(50)
    reference = line(IDENTIFIER)
    search_text = SearchTextField(of=("name", "place", "funder", "reference", "notes"))

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(organisation__isnull=False) | ~Q(name=""),
                name="commission_has_body",
            )
        ]

    def __str__(self) -> str:
        return self.body

    def clean(self) -> None:
        super().clean()
        if not self.body:
            raise ValidationError({"name": "Name who commissioned the work."})

    @property
    def body(self) -> str:
        return self.name or (self.organisation.name if self.organisation else "")


class InstrumentationLine(models.Model):
    """One instrument of a work's forces, for filters and screening: derived, rebuilt whenever the work is saved.

    ``is_doubling`` marks an instrument that its player takes up beside another. An open number is null.
    """

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="instrumentation_lines")
    instrument = models.CharField(max_length=60)
    family = models.CharField(max_length=30)
    role = models.CharField(max_length=30)
    least_players = models.PositiveIntegerField(null=True)
    most_players = models.PositiveIntegerField(null=True)
    is_doubling = models.BooleanField(default=False)

    objects = WorkPartQuerySet["InstrumentationLine"].as_manager()

    class Meta:
        indexes = [models.Index(fields=["instrument", "work"], name="line_by_instrument")]

    def __str__(self) -> str:
        return f"{self.instrument} in {self.work}"
