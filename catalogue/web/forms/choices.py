"""What counts in a choice of works, and how many may be sent."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

MOST_WEIGHT, MOST_WORKS, MOST_MINUTES = 5, 30, 600


def weight(label: Any, usual: int) -> forms.IntegerField:
    box = forms.NumberInput(attrs={"class": "short"})
    return forms.IntegerField(
        label=label, required=False, min_value=0, max_value=MOST_WEIGHT, initial=usual, widget=box
    )


def number(label: Any, most: int) -> forms.IntegerField:
    box = forms.NumberInput(attrs={"class": "short"})
    return forms.IntegerField(label=label, required=False, min_value=1, max_value=most, widget=box)


class ChoiceForm(forms.Form):
    """Weights from 0 to 5; an empty one is 0."""

    strength = weight(_("Works you mark as strong"), 3)
    recent = weight(_("Newer works"), 2)
    played = weight(_("Works often played"), 1)
    recorded = weight(_("Works that are recorded"), 2)
    quality = weight(_("Recordings you mark as good"), 1)
    contrast = weight(_("Contrast of forces"), 2)
    works = number(_("Works, exactly"), MOST_WORKS)
    minutes = number(_("Minutes together, at most"), MOST_MINUTES)
    doubtful = forms.BooleanField(label=_("Also works for which it cannot be told"), required=False)
