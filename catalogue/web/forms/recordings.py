"""The recordings of a work, each in a row: who plays, where it came out, how long it lasts."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.models import Recording
from catalogue.models.fields import LONG_LINE, refuse_unprintable
from catalogue.timing import Duration, read_duration
from catalogue.web.forms.fields import DateField, ReadField

PREFIX, MOST = "recordings", 50
COLUMNS = ("performers", "label", "number", "released", "duration")


class RecordingForm(forms.Form):
    """One recording; a row without performers is none. ``row`` says which stored row it changes."""

    row = forms.IntegerField(widget=forms.HiddenInput, required=False)
    performers = forms.CharField(
        label=_("Performers"),
        required=False,
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"dir": "auto"}),
    )
    label = forms.CharField(label=_("Label"), required=False, max_length=200, validators=[refuse_unprintable])
    number = forms.CharField(
        label=_("Number"),
        required=False,
        max_length=50,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    released = DateField(label=_("Released"))
    duration = ReadField(
        read=read_duration, label=_("How long it lasts"), widget=forms.TextInput(attrs={"class": "short"})
    )

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.label_suffix = ""

    def clean_duration(self) -> Duration | None:
        duration: Duration | None = self.cleaned_data["duration"]
        if duration is not None and not duration.seconds:
            raise ValidationError(_("A duration is longer than nothing; leave it empty where it is not known."))
        return duration

    def clean(self) -> dict[str, Any]:
        typed = self.cleaned_data
        if any(typed.get(name) for name in COLUMNS[1:]) and not typed.get("performers"):
            self.add_error("performers", _("Name who plays."))
        return typed


class Recordings(forms.BaseFormSet):
    """The recordings of a work, and an empty row more."""

    def rows(self, stored: Sequence[Recording]) -> list[Recording]:
        """Return the recordings that were typed; those that are there already keep their history."""
        by_key = {one.pk: one for one in stored}
        typed = [form.cleaned_data for form in self.forms if form.cleaned_data.get("performers")]
        return [told(by_key.pop(one.get("row") or 0, Recording()), one) for one in typed]


def told(recording: Recording, typed: dict[str, Any]) -> Recording:
    for name in COLUMNS:
        setattr(recording, name, typed[name])
    return recording


def recording_rows(stored: Sequence[Recording], typed: Any = None) -> Recordings:
    shown = [{"row": one.pk, **{name: getattr(one, name) for name in COLUMNS}} for one in stored]
    return cast(Recordings, RecordingRows(typed, initial=shown, prefix=PREFIX))


RecordingRows = forms.formset_factory(
    RecordingForm, formset=Recordings, extra=1, max_num=MOST, absolute_max=MOST, validate_max=True
)


class SavesForm(forms.Form):
    """Which saving of the work the page was opened with."""

    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)
