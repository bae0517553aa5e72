"""What of the material went to whom: hires, perusals and sales, with what was counted on the way out and back."""

from __future__ import annotations

from datetime import date

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models
from django.db.models import F, Q

from catalogue.models.conditions import between, choices_of, known, known_or_empty, names_somebody
from catalogue.models.fields import LONG_LINE, SearchTextField, line, text
from catalogue.models.kept import KeptOfComposer, Somebody
from catalogue.models.materials import MOST_MONEY, HireTerms, MaterialSet, currency, money
from catalogue.models.performances import Performance
from catalogue.models.records import Record, TenantQuerySet
from catalogue.models.works import Work
from catalogue.terms.hires import PartAction, PartCondition, Purpose

DAYS_IN_ORDER = (
    ("out_on", "due_on", "The set would be due before it goes out."),
    ("due_on", "extended_to", "An extension has to end after the day on which the set was first due."),
    ("out_on", "back_on", "The set would be back before it went out."),
)


class Hire(Somebody, KeptOfComposer):
    """Material of a work that goes, or went, to somebody.

    ``number`` is that of the note; ``due_on`` the day first agreed and ``extended_to`` the one that holds since. The
    name, the person or the organisation is who has the set; ``attention`` is the librarian there.
    """

    work = models.ForeignKey(Work, on_delete=models.CASCADE, related_name="+")
    material_set = models.ForeignKey(MaterialSet, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    purpose = models.CharField(max_length=10, choices=choices_of(Purpose), default=Purpose.HIRE.value)
    number = line(50)
    attention = line()
    address = text()
    email = models.EmailField(blank=True, default="")
    order_number = line(50)
    out_on = models.DateField(null=True, blank=True)
    due_on = models.DateField(null=True, blank=True)
    extended_to = models.DateField(null=True, blank=True)
    back_on = models.DateField(null=True, blank=True)
    carrier = line()
    enclosed = line(LONG_LINE)
    terms = models.ForeignKey(HireTerms, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    fee = money()
    currency = currency()
    extension_fee = money()
    erasing_hours = models.DecimalField(
        max_digits=5, decimal_places=2, null=True, blank=True, validators=[MinValueValidator(0)]
    )
    paid = money()
    search_text = SearchTextField(of=("name", "number", "attention", "address", "order_number", "carrier", "notes"))

    class Meta:
        constraints = [
            *names_somebody("hire"),
            known("hire", "purpose", Purpose),
            *(between("hire", column, 0, MOST_MONEY) for column in ("fee", "extension_fee", "erasing_hours", "paid")),
            *(
                models.CheckConstraint(
                    condition=Q(**{f"{first}__isnull": True})
                    | Q(**{f"{last}__isnull": True})
                    | Q(**{f"{last}__gte": F(first)}),
                    name=f"hire_{first}_before_{last}",
                )
                for first, last, _reason in DAYS_IN_ORDER
            ),
        ]

    def __str__(self) -> str:
        what = ", ".join(part for part in (self.billed_name, str(self.work) if self.work_id else "") if part)
        return f"{self.number}: {what}" if self.number else what

    @property
    def holder(self) -> str:
        """Who has the set."""
        return self.billed_name

    @property
    def due(self) -> date | None:
        """The day by which the set is to be back; never for what is sold."""
        return None if self.purpose == Purpose.SALE else self.extended_to or self.due_on

    def clean(self) -> None:
        super().clean()
        if self.material_set is not None and self.material_set.work_id != self.work_id:
            raise ValidationError({"material_set": "This set is of another work."})
        for first, last, reason in DAYS_IN_ORDER:
            earlier, later = getattr(self, first), getattr(self, last)
            if earlier is not None and later is not None and later < earlier:
                raise ValidationError({last: reason})
        if self.back_on is not None and self.out_on is None:
            raise ValidationError({"out_on": "Say on which day the set went out that is back."})
        amounts = (self.fee, self.extension_fee, self.paid)
        known = self.currency or (self.terms.currency if self.terms else "")
        if not known and any(amount is not None for amount in amounts):
            raise ValidationError({"currency": "Say in which currency the amounts are, such as EUR."})


class HiredPerformanceQuerySet(TenantQuerySet["HiredPerformance"]):
    memberships_path = "hire__composer__memberships"


class HireItemQuerySet(TenantQuerySet["HireItem"]):
    memberships_path = "hire__composer__memberships"


class HiredPerformance(Record):
    """A performance for which a set is hired."""

    hire = models.ForeignKey(Hire, on_delete=models.CASCADE, related_name="hired_for")
    performance = models.ForeignKey(Performance, on_delete=models.CASCADE, related_name="+")

    objects = HiredPerformanceQuerySet.as_manager()

    class Meta:
        constraints = [models.UniqueConstraint(fields=["hire", "performance"], name="hired_performance_once")]

    def __str__(self) -> str:
        return f"{self.performance}"


class HireItem(Record):
    """A row of the list that goes with a set.

    ``part`` holds the plain values of a part of the work's set, as it was made up; it is empty for something else,
    which has a ``name``. What was counted is empty until somebody has counted.
    """

    hire = models.ForeignKey(Hire, on_delete=models.CASCADE, related_name="items")
    position = models.PositiveSmallIntegerField(default=0)
    part = models.JSONField(default=dict, blank=True)
    name = line()
    expected = models.PositiveSmallIntegerField(null=True, blank=True, default=1)
    copy_numbers = line(50)
    sent = models.PositiveSmallIntegerField(null=True, blank=True)
    received = models.PositiveSmallIntegerField(null=True, blank=True)
    back = models.PositiveSmallIntegerField(null=True, blank=True)
    condition = models.CharField(max_length=10, choices=choices_of(PartCondition), blank=True, default="")
    remark = line(LONG_LINE)
    action = models.CharField(max_length=12, choices=choices_of(PartAction), blank=True, default="")
    charge = money()

    objects = HireItemQuerySet.as_manager()

    class Meta:
        ordering = ("position", "pk")
        constraints = [
            known_or_empty("hire_item", "condition", PartCondition),
            known_or_empty("hire_item", "action", PartAction),
            between("hire_item", "charge", 0, MOST_MONEY),
        ]

    def __str__(self) -> str:
        return self.name or f"{self.position}"
