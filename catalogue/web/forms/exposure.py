"""What a day was as loud as, typed a session a line; it is reckoned, not kept."""

from __future__ import annotations

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.models.fields import refuse_unprintable
from catalogue.rules.exposure import Session, read_sessions
from catalogue.rules.technical.lists import ListError

MOST = 4000


class ExposureForm(forms.Form):
    sessions = forms.CharField(
        label=_("Sessions of one day"),
        help_text=_("One a line: what it was; its level in dB(A), averaged over it; how long. It is not kept."),
        max_length=MOST,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 6, "spellcheck": "false", "dir": "auto"}),
        error_messages={"required": _("Write one session a line, as in: tutti; 91 dB(A); 1h 30m.")},
    )

    def clean_sessions(self) -> tuple[Session, ...]:
        try:
            return read_sessions(self.cleaned_data["sessions"])
        except ListError as mistake:
            raise ValidationError(mistake.reason) from mistake
