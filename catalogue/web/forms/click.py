"""How a click is wanted: its count-in, its subdivision, its rate; and the media files to be aligned with it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext_lazy as _

from catalogue.timing import Reckoned, reckon
from catalogue.timing.tempo_maps import Gap

MOST_BARS = 8
RATES = (44_100, 48_000, 88_200, 96_000)
NOTES = {
    "": (_("beats alone"), None),
    "q": (_("quarter notes"), Fraction(1, 4)),
    "e": (_("eighth notes"), Fraction(1, 8)),
    "t": (_("eighth-note triplets"), Fraction(1, 12)),
    "s": (_("sixteenth notes"), Fraction(1, 16)),
}


class ClickForm(forms.Form):
    count_in = forms.IntegerField(
        label=_("Bars of count-in"),
        min_value=0,
        max_value=MOST_BARS,
        initial=1,
        widget=forms.NumberInput(attrs={"class": "short"}),
    )
    between = forms.ChoiceField(
        label=_("Between the beats"),
        required=False,
        choices=[(word, name) for word, (name, _length) in NOTES.items()],
        help_text=_("Softer clicks, in all bars with a metre."),
    )
    rate = forms.TypedChoiceField(
        label=_("Sample rate"), coerce=int, choices=[(rate, f"{rate / 1000:g} kHz") for rate in RATES], initial=48_000
    )
    gaps = forms.BooleanField(
        label=_("Let the clock run on between movements"),
        help_text=_("The gaps of the map are silence in the file; otherwise movements follow at once."),
        required=False,
    )

    def __init__(self, *args: Any, text: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.text = text
        if not has_gaps(reckon(text)):
            del self.fields["gaps"]

    @property
    def reckoned(self) -> Reckoned | None:
        """The map, with its gaps where they were asked for; the form is valid."""
        return reckon(self.text, gaps=self.cleaned_data.get("gaps", False))

    @property
    def subdivision(self) -> Fraction | None:
        return NOTES[self.cleaned_data["between"]][1]


def has_gaps(reckoned: Reckoned | None) -> bool:
    return reckoned is not None and any(isinstance(one.before, Gap) for one in reckoned.tempo_map.movements)


class SeveralFiles(forms.ClearableFileInput):
    allow_multiple_selected = True


class FilesField(forms.FileField):
    """One file or several; the clean value is a list."""

    widget = SeveralFiles

    def clean(self, data: Any, initial: Any = None) -> list[UploadedFile]:
        single: Sequence[Any] = data if isinstance(data, list | tuple) else [data]
        return [super(FilesField, self).clean(one, initial) for one in single or [None]]


class SetForm(ClickForm):
    sounds = FilesField(
        label=_("Media files"),
        help_text=_("WAV files as they are named at the cues, all of one rate. They are not kept."),
        widget=SeveralFiles(attrs={"accept": ".wav,audio/wav,audio/x-wav"}),
        error_messages={"required": _("Choose the WAV files that the cues play.")},
    )
    field_order = ("sounds", "count_in", "between", "gaps")

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        del self.fields["rate"]
