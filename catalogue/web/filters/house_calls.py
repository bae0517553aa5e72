"""What the calls of all composers together can be asked: open or over, what is called for, what was sent, and when."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from operator import or_
from typing import Any

import django_filters as filters
from django import forms
from django.db.models import Q, QuerySet
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from catalogue.models import Call, Composer
from catalogue.models.calls import CallQuerySet
from catalogue.models.conditions import choices_of
from catalogue.models.fields import refuse_unprintable
from catalogue.rules.calls.terms import CallKind
from catalogue.terms import SubmissionStatus
from catalogue.web.filters.days import from_day, until_day
from catalogue.web.filters.house import composer_filter, offer

EVERY, OVER, NOTHING = "all", "over", "nothing"
DECIDED = {one.value for one in SubmissionStatus if one.is_decided}
LOOKED_THROUGH = ("title", "full_text", "notes", "website")


class HouseCallFilter(filters.FilterSet):
    """A composer, words, a kind, how far it has come, and days between which it closes; what is over is left out
    unasked."""

    q = filters.CharFilter(
        method="holding",
        label=_("Words of the call"),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"type": "search", "data-key": "/"}),
    )
    composer = composer_filter()
    state = filters.ChoiceFilter(
        method="standing",
        label=_("Open or over"),
        empty_label=_("Open"),
        choices=((OVER, _("Over")), (EVERY, _("Both"))),
    )
    sent = filters.ChoiceFilter(
        method="having_been_sent",
        label=_("What was sent to it"),
        empty_label=_("Anything or nothing"),
        choices=((NOTHING, _("nothing yet")), *choices_of(SubmissionStatus)),
    )
    kind = filters.ChoiceFilter(label=_("Kind"), empty_label=_("All kinds"), choices=choices_of(CallKind))
    since = from_day("closes_on", _("Closes from"))
    until = until_day("closes_on", _("Closes until"))

    class Meta:
        model = Call
        fields: list[str] = []

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, **options)
        offer(self, composers)

    def filter_queryset(self, queryset: CallQuerySet) -> CallQuerySet:
        asked = self.form.cleaned_data
        if not asked.get("state") and asked.get("sent") not in DECIDED:
            queryset = open_now(queryset)
        return super().filter_queryset(queryset)

    def holding(self, calls: CallQuerySet, _name: str, text: str) -> CallQuerySet:
        for word in text.split():
            calls = calls.filter(reduce(or_, (Q(**{f"{place}__icontains": word}) for place in LOOKED_THROUGH)))
        return calls

    def standing(self, calls: CallQuerySet, _name: str, word: str) -> QuerySet[Call]:
        return calls.exclude(pk__in=open_now(calls).values("pk")) if word == OVER else calls

    def having_been_sent(self, calls: CallQuerySet, _name: str, word: str) -> CallQuerySet:
        return calls.filter(submission=None) if word == NOTHING else calls.filter(submission__status=word)


def open_now(calls: CallQuerySet) -> CallQuerySet:
    """Return the calls that are neither closed nor answered."""
    return calls.open_at(timezone.now(), timezone.localdate()).undecided()
