"""What a librarian can ask of the lists of works and performances: nothing that looks through notes or names."""

from __future__ import annotations

import django_filters as filters
from django import forms
from django.db.models import Q, QuerySet
from django.utils.translation import gettext_lazy as _

from catalogue.models import Work
from catalogue.models.fields import refuse_unprintable
from catalogue.web.filters.performances import EventFilter
from catalogue.web.filters.works import WorkFilter


class LibraryWorkFilter(WorkFilter):
    """A title or number, and what is asked of works."""

    q = filters.CharFilter(
        method="holding",
        label=_("Title or number"),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"type": "search", "data-key": "/"}),
    )

    def holding(self, works: QuerySet[Work], _name: str, text: str) -> QuerySet[Work]:
        return works.filter(Q(title__icontains=text) | Q(catalogue_number__icontains=text))


class LibraryPerformanceFilter(EventFilter):
    """Years, country and kind, and what has become of it."""

    q = None
