"""What the hires of all composers together can be asked: who, how far each has come, and by when it is due."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import django_filters as filters
from django import forms
from django.db.models import QuerySet
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from catalogue.gathering.hires import hires_that_are, hires_under_way
from catalogue.models import Composer, Hire
from catalogue.models.fields import refuse_unprintable
from catalogue.terms.hires import HireState
from catalogue.web.filters.days import from_day, until_day
from catalogue.web.filters.house import composer_filter, offer
from catalogue.web.filters.records import holding
from catalogue.web.records.of_materials import HIRES

EVERY = "all"
STATES = (
    (HireState.OVERDUE.value, _("Overdue")),
    (HireState.OUT.value, _("Out")),
    (HireState.PLANNED.value, _("Not sent yet")),
    (HireState.BACK.value, _("Back")),
    (HireState.KEPT.value, _("Sold")),
    (EVERY, _("All that ever were")),
)


class HouseHireFilter(filters.FilterSet):
    """A composer, words, how far it has come, and days between which it is due; what is back is left out unasked."""

    q = filters.CharFilter(
        method="holding",
        label=_("Who has it, work, number or note"),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"type": "search", "data-key": "/"}),
    )
    composer = composer_filter()
    state = filters.ChoiceFilter(
        method="having_come_so_far", label=_("How far it has come"), empty_label=_("Not back yet"), choices=STATES
    )
    since = from_day("due_day", _("Due from"))
    until = until_day("due_day", _("Due until"))

    class Meta:
        model = Hire
        fields: list[str] = []

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, **options)
        offer(self, composers)

    def filter_queryset(self, queryset: QuerySet[Hire]) -> QuerySet[Hire]:
        if not self.form.cleaned_data.get("state"):
            queryset = hires_under_way(queryset, timezone.localdate())
        return super().filter_queryset(queryset)

    def holding(self, hires: QuerySet[Hire], _name: str, text: str) -> QuerySet[Hire]:
        return holding(HIRES, hires, text)

    def having_come_so_far(self, hires: QuerySet[Hire], _name: str, word: str) -> QuerySet[Hire]:
        return hires if word == EVERY else hires_that_are(hires, HireState(word), timezone.localdate())
