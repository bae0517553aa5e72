"""What the questions of every list have in common."""

from __future__ import annotations

import django_filters as filters
from django import forms
from django.utils.functional import cached_property


class ListFilter(filters.FilterSet):
    """Questions whose form takes the fields as they are: a set has copied them for itself when it was made.

    The stock way makes a class of forms for each request, which copies every field, with all its choices, once more.
    """

    @cached_property
    def form(self) -> forms.Form:
        made: forms.Form = self._meta.form(self.data if self.is_bound else None, prefix=self.form_prefix)
        made.fields = {name: one.field for name, one in self.filters.items()}
        return made
