"""The form with which a package of electronics comes back to be checked."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _


class CheckForm(forms.Form):
    package = forms.FileField(
        label=_("Package"),
        help_text=_("The ZIP file as it was taken from here, up to 400 MB. Nothing of it is kept."),
        widget=forms.ClearableFileInput(attrs={"accept": ".zip"}),
    )
