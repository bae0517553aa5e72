"""What the list of all deadlines can be asked: whose, of which kind, and from which day to which."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer
from catalogue.terms import DeadlineKind
from catalogue.web.forms.composer_field import ComposerField
from catalogue.web.forms.fields import DayField

KINDS = (
    (DeadlineKind.STEP.value, _("Steps around performances")),
    (DeadlineKind.RECORD.value, _("What performances lack")),
    (DeadlineKind.RETURN.value, _("Returns to societies")),
    (DeadlineKind.SET.value, _("Sets due back")),
    (DeadlineKind.CALL.value, _("Calls that close")),
)


def hinted(words: Any) -> forms.TextInput:
    return forms.TextInput(attrs={"class": "short", "placeholder": words})


class DeadlineForm(forms.Form):
    """A composer, a kind and a span of days; nothing asked gives all that is late, and the coming days."""

    composer = ComposerField()
    kind = forms.ChoiceField(label=_("Kind"), required=False, choices=(("", _("All kinds")), *KINDS))
    since = DayField(label=_("From"), widget=hinted(_("all that is late")))
    until = DayField(label=_("To"), widget=hinted(_("90 days from now")))

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["composer"].offer(composers)  # type: ignore[attr-defined]

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or {}
        since, until = cleaned.get("since"), cleaned.get("until")
        if since and until and until < since:
            self.add_error("until", _("This day is before the first one."))
        return cleaned
