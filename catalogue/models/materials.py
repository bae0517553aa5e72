"""Sets of performance material, the rules on which the house lends them, and what presenters ask of material."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import between, choices_of, filled, known
from catalogue.models.editions import Edition
from catalogue.models.fields import PartialDateField, SearchTextField, StrengthsField, line, text
from catalogue.models.kept import KeptOfComposer, KeptOfWork
from catalogue.models.people import Organisation
from catalogue.rules.preflight import PaperError, read_papers
from catalogue.terms import FileKind
from catalogue.terms.hires import LateStep, MaterialForm, SetCondition

MOST_MONEY = 9_999_999
ASKED_OF = [(FileKind.SCORE.value, "Scores"), (FileKind.PARTS.value, "Parts")]


def money(**options: Any) -> models.DecimalField[Any, Any]:
    """Make a column for an amount, empty where none is agreed; its currency stands beside it."""
    return models.DecimalField(
        max_digits=9, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)], **options
    )


def percentage() -> models.DecimalField[Any, Any]:
    limits = [MinValueValidator(0), MaxValueValidator(1000)]
    return models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True, validators=limits)


def refuse_unknown_currency(code: str) -> None:
    """Raise ValidationError for what has not the form of a code of ISO 4217."""
    if len(code) != 3 or not (code.isascii() and code.isalpha() and code.isupper()):
        raise ValidationError(f"“{code}” is no currency; write its three capital letters, such as EUR.")


def currency() -> models.CharField[str, str]:
    return line(3, validators=[refuse_unknown_currency])


def stave_height() -> models.DecimalField[Any, Any]:
    limits = [MinValueValidator(1), MaxValueValidator(30)]
    return models.DecimalField(max_digits=4, decimal_places=2, null=True, blank=True, validators=limits)


class HireTerms(KeptOfComposer):
    """The rules of the house: periods, charges, and what is printed about markings, copies and the way back.

    Percentages are of the fee; ``days_after`` is how long after the last performance a set is due.
    """

    name = line(blank=False)
    lender = line()
    address = text()
    email = models.EmailField(blank=True, default="")
    telephone = line(50)
    period_days = models.PositiveSmallIntegerField(null=True, blank=True, validators=[MinValueValidator(1)])
    days_after = models.PositiveSmallIntegerField(null=True, blank=True)
    currency = currency()
    extension_percent = percentage()
    late_percent = percentage()
    late_step = models.CharField(max_length=10, choices=choices_of(LateStep), default=LateStep.WEEK.value)
    part_charge = money()
    score_charge = money()
    erasing_rate = money()
    marking = text()
    copying = text()
    returning = text()
    search_text = SearchTextField(of=("name", "lender", "address", "marking", "copying", "returning", "notes"))

    class Meta:
        constraints = [
            filled("hire_terms", "name"),
            known("hire_terms", "late_step", LateStep),
            between("hire_terms", "period_days", 1, 32_767),
            *(
                between("hire_terms", column, 0, MOST_MONEY)
                for column in ("extension_percent", "late_percent", "part_charge", "score_charge", "erasing_rate")
            ),
        ]

    def __str__(self) -> str:
        return self.name


class MaterialSet(KeptOfWork):
    """A set of parts with its number, made up for so many strings; ``extra`` are spare copies of each string part.

    A printed set is in one place at a time; copies of it are numbered 1/n to n/n within each part.
    """

    number = line(20, blank=False)
    form = models.CharField(max_length=10, choices=choices_of(MaterialForm), default=MaterialForm.PRINTED.value)
    edition = models.ForeignKey(Edition, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    strings = StrengthsField()
    extra = models.PositiveSmallIntegerField(default=0, validators=[MaxValueValidator(20)])
    condition = models.CharField(max_length=12, choices=choices_of(SetCondition), default=SetCondition.GOOD.value)
    made = PartialDateField()
    kept_at = line()
    search_text = SearchTextField(of=("number", "kept_at", "notes"))

    class Meta:
        constraints = [
            filled("material_set", "number"),
            known("material_set", "form", MaterialForm),
            known("material_set", "condition", SetCondition),
        ]

    def __str__(self) -> str:
        return f"{self.work}, set {self.number}" if self.work_id else f"set {self.number}"

    def clean(self) -> None:
        super().clean()
        if self.edition is not None and self.edition.work_id != self.work_id:
            raise ValidationError({"edition": "This edition is of another work."})
        same = MaterialSet.objects.filter(work=self.work_id, number=self.number).exclude(pk=self.pk)
        if self.work_id is not None and same.exists():
            raise ValidationError({"number": f"There is a set {self.number} of this work already; choose another."})


class MaterialRequirements(KeptOfComposer):
    """What a presenter asks of scores and parts that are sent as PDF: paper, staves, binding, names, bookmarks.

    ``material`` is the sort of file that it is asked of, empty where it is asked of scores and parts alike.
    ``papers`` are sizes with commas between them, ``file_names`` a pattern with ``*``, ``?`` and ``[0-9]``. How long
    ahead they are wanted stands with the lead times.
    """

    organisation = models.ForeignKey(Organisation, on_delete=models.CASCADE, null=True, blank=True, related_name="+")
    name = line()
    material = models.CharField(max_length=10, choices=ASKED_OF, blank=True, default="")
    papers = line()
    stave_least = stave_height()
    stave_most = stave_height()
    binding = line()
    file_names = line()
    bookmarks = models.BooleanField(default=False)
    search_text = SearchTextField(of=("name", "papers", "binding", "notes"))

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=Q(organisation__isnull=False) | ~Q(name=""), name="material_requirements_name_somebody"
            ),
            models.CheckConstraint(
                condition=Q(material__in=["", *(word for word, _name in ASKED_OF)]),
                name="material_requirements_material_known",
            ),
            between("material_requirements", "stave_least", 1, 30),
            between("material_requirements", "stave_most", 1, 30),
        ]

    def __str__(self) -> str:
        whose = self.name or (self.organisation.name if self.organisation else "")
        return f"{whose}, {self.get_material_display().lower()}" if self.material else whose

    def clean(self) -> None:
        super().clean()
        wrong = {}
        if self.organisation is None and not self.name:
            wrong["organisation"] = "Say who asks for it, or give it a name."
        try:
            read_papers(self.papers)
        except PaperError as mistake:
            wrong["papers"] = mistake.reason
        if self.stave_least is not None and self.stave_most is not None and self.stave_most < self.stave_least:
            wrong["stave_most"] = "This is less than the least height of the staves."
        if wrong:
            raise ValidationError(wrong)
