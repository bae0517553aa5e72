"""The forms by which a catalogue is handed over and taken over."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.models.fields import LINE, refuse_unprintable


class HandOverForm(forms.Form):
    """Who is to have the catalogue."""

    to = forms.CharField(
        label=_("To whom"),
        help_text=_("As it is noted here, such as: the composer, or the name of a house."),
        max_length=LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"dir": "auto"}),
    )


class TakeOverForm(forms.Form):
    """A file that was handed over."""

    file = forms.FileField(label=_("The file"), help_text=_("As it was handed over, not unpacked."))
