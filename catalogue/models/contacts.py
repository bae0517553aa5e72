"""Whom to ring up at an organisation, and under which names people and bodies have been billed."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import choices_of, filled, known
from catalogue.models.fields import PartialDateField, SearchTextField, line
from catalogue.models.kept import KeptOfComposer
from catalogue.models.people import Organisation, Person
from catalogue.terms import ContactRole


class ContactPerson(KeptOfComposer):
    """Somebody at an organisation: what they are asked about, and how they are reached."""

    organisation = models.ForeignKey(Organisation, on_delete=models.CASCADE, related_name="+")
    name = line(blank=False)
    role = models.CharField(max_length=20, choices=choices_of(ContactRole), default=ContactRole.PRODUCTION.value)
    position = line()
    email = models.EmailField(blank=True, default="")
    telephone = line(50)
    hours = line()
    person = models.ForeignKey(Person, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    since = PartialDateField()
    until = PartialDateField()
    search_text = SearchTextField(of=("name", "position", "notes"))

    class Meta:
        constraints = [known("contact", "role", ContactRole), filled("contact", "name")]

    def __str__(self) -> str:
        return f"{self.name} ({self.position or self.role})"


class BilledName(KeptOfComposer):
    """A name under which a person or an organisation was or wants to be billed, other than its usual one."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, null=True, blank=True, related_name="+")
    organisation = models.ForeignKey(Organisation, on_delete=models.CASCADE, null=True, blank=True, related_name="+")
    name = line(blank=False)
    language = line(35)
    since = PartialDateField()
    until = PartialDateField()
    search_text = SearchTextField(of=("name", "notes"))

    class Meta:
        constraints = [
            filled("billed_name", "name"),
            models.CheckConstraint(
                condition=Q(person__isnull=False, organisation__isnull=True)
                | Q(person__isnull=True, organisation__isnull=False),
                name="billed_name_is_somebodys",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def clean(self) -> None:
        super().clean()
        if (self.person is None) == (self.organisation is None):
            raise ValidationError({"person": "Say whose name it is: one person’s or one organisation’s."})
