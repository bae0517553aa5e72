"""The forms by which a catalogue is handed over and taken over."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.models.fields import LINE, refuse_unprintable
from catalogue.web.uploads import is_too_large


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

    file = forms.FileField(
        label=_("The file"),
        help_text=_(
            "As it was handed over, not unpacked, up to 400 MB. Whoever keeps the machine takes larger ones over with "
            "the command take_over."
        ),
    )

    def __init__(self, *args: Any, request: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if is_too_large(request, "file"):
            self.fields["file"].error_messages["required"] = _("This file is larger than 400 MB.")
