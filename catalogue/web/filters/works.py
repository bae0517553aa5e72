"""What a list of works can be asked."""

from __future__ import annotations

from typing import Any

import django_filters as filters
from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Q, QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from catalogue.instrumentation import Instrumentation
from catalogue.instrumentation.vocabulary import key_of, keys
from catalogue.models import InstrumentationLine, Work
from catalogue.models.conditions import choices_of
from catalogue.models.fields import refuse_unprintable
from catalogue.terms import Category
from catalogue.web.filters.forces import LONGEST, ForcesFilter, playable
from catalogue.web.filters.sets import ListFilter

# how it is asked -> least and most seconds
LENGTHS: dict[str, tuple[int | None, int | None]] = {
    "-10": (None, 600),
    "10-20": (600, 1200),
    "20-": (1200, None),
}
LENGTH_WORDS = (
    ("-10", gettext_lazy("Up to 10 minutes")),
    ("10-20", gettext_lazy("10 to 20 minutes")),
    ("20-", gettext_lazy("20 minutes and more")),
)


class InstrumentField(forms.CharField):
    """The name of an instrument in any of its spellings; its value is the slugs that are spelled so."""

    def clean(self, value: Any) -> tuple[str, ...]:
        text = super().clean(value)
        slugs = keys().get(key_of(text), ()) if text else ()
        if text and not slugs:
            raise ValidationError(_("No instrument is called “%(name)s”."), params={"name": text})
        return slugs


class InstrumentFilter(filters.Filter):
    field_class = InstrumentField


class WorkFilter(ListFilter):
    """Words in any searched field, a category, an instrument, how many or which players are there, a length."""

    q = filters.CharFilter(
        method="holding",
        label=gettext_lazy("Title, number, text or dedication"),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"type": "search", "data-key": "/"}),
    )
    category = filters.ChoiceFilter(
        label=gettext_lazy("Category"), choices=choices_of(Category), empty_label=gettext_lazy("All categories")
    )
    instrument = InstrumentFilter(
        method="calling_for",
        label=gettext_lazy("With the instrument"),
        max_length=60,
        widget=forms.TextInput(attrs={"placeholder": gettext_lazy("e.g. harp")}),
    )
    players = filters.NumberFilter(
        method="for_at_most",
        label=gettext_lazy("Players, at most"),
        min_value=1,
        max_value=9999,
        decimal_places=0,
        widget=forms.TextInput(attrs={"inputmode": "numeric"}),
    )
    length = filters.ChoiceFilter(
        method="lasting", label=gettext_lazy("Duration"), choices=LENGTH_WORDS, empty_label=gettext_lazy("Any")
    )
    forces = ForcesFilter(
        method="playable_by",
        label=gettext_lazy("Playable by"),
        max_length=LONGEST,
        widget=forms.TextInput(
            attrs={"placeholder": gettext_lazy("e.g. 2.2.2.2 – 2.2.0.0 – timp – str"), "spellcheck": "false"}
        ),
    )

    open_works = 0
    """How many works are left out because it cannot be told whether these players can play them."""

    class Meta:
        model = Work
        fields: list[str] = []

    def holding(self, works: Any, _name: str, text: str) -> QuerySet[Work]:
        return works.matching(text)

    def calling_for(self, works: QuerySet[Work], _name: str, slugs: tuple[str, ...]) -> QuerySet[Work]:
        lines = InstrumentationLine.objects.filter(instrument__in=slugs)
        return works.filter(Q(pk__in=lines.values("work"))) if slugs else works

    def for_at_most(self, works: Any, _name: str, players: int) -> QuerySet[Work]:
        return works.for_at_most(int(players))

    def playable_by(self, works: QuerySet[Work], _name: str, forces: Instrumentation) -> QuerySet[Work]:
        found = playable(works, forces)
        self.open_works = len(found.perhaps)
        return works.filter(pk__in=found.surely)

    def lasting(self, works: Any, _name: str, asked: str) -> QuerySet[Work]:
        least, most = LENGTHS[asked]
        return works.lasting(least=least, most=most)
