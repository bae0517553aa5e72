"""The form of a work's timing: its tempo map, who acts, and its cues, each in a row.

A tempo map that cannot be read comes back with the mistake at its line and column, and with the offer to keep it as
typed. A cue outside the map is kept and has no time.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.urls import reverse
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from catalogue.facts import CueFacts
from catalogue.models import Composer, Cue, Work
from catalogue.models.fields import LONG_LINE, refuse_unprintable
from catalogue.rules.cues import in_playing_order, mistake_in, placed_cue
from catalogue.timing import Duration, Reckoned, TempoError, read_duration, reckon, write_duration
from catalogue.web.forms.fields import ReadField
from catalogue.web.forms.rows import in_words

PREFIX, MOST = "cues", 500
BESIDE = ("medium", "length", "notes")
COLUMNS = {
    "number": "number", "place": "place", "action": "action", "medium": "media", "length": "length", "who": "who",
    "notes": "notes",
}  # fmt: skip


class TimingForm(forms.ModelForm):
    keep_tempo_map = forms.BooleanField(label=_("Keep it as typed"), required=False)
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)

    class Meta:
        model = Work
        fields = ["tempo_map", "cue_letters"]
        labels = {"tempo_map": _("Tempo map"), "cue_letters": _("Who the letters are")}
        help_texts = {
            "tempo_map": _("One passage a line: bars, metre, tempo. The lines below show what can be written."),
            "cue_letters": _("Such as: E electronics, C conductor, P piano pedal. It stands at the head of the sheet."),
        }
        widgets = {
            "tempo_map": forms.Textarea(attrs={"rows": 10, "class": "code", "spellcheck": "false", "dir": "ltr"}),
            "cue_letters": forms.TextInput(attrs={"dir": "auto"}),
        }

    def __init__(self, *args: Any, composer: Composer, **options: Any) -> None:
        super().__init__(*args, **options)
        self.reckoned: Reckoned | None = None
        self.initial["saves"] = self.instance.saves
        cast(forms.CharField, self.fields["tempo_map"]).strip = False
        self.fields["tempo_map"].widget.attrs |= {
            "data-hx-post": reverse("timing-reading", args=[composer.slug, self.instance.pk]),
            "data-hx-trigger": "input changed delay:400ms",
            "data-hx-target": "#tempo-reading",
        }

    def clean_tempo_map(self) -> str:
        text: str = self.cleaned_data["tempo_map"].replace("\r\n", "\n")
        return text if text.strip() else ""

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.instance.saves = cleaned.get("saves") or 0
        try:
            self.reckoned = reckon(cleaned.get("tempo_map", ""))
        except TempoError as mistake:
            if not cleaned.get("keep_tempo_map"):
                self.add_error("tempo_map", mistake.reason)
        return cleaned


class CueForm(forms.Form):
    """One cue; a row without a number, a place and an action is none. ``row`` says which stored row it changes."""

    row = forms.IntegerField(widget=forms.HiddenInput, required=False)
    number = forms.CharField(
        label=_("Cue"),
        required=False,
        max_length=10,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    place = forms.CharField(
        label=_("Bar and beat, or time"),
        required=False,
        max_length=40,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"class": "short", "spellcheck": "false"}),
    )
    who = forms.CharField(
        label=_("Who"),
        required=False,
        max_length=60,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"class": "short", "dir": "auto"}),
    )
    action = forms.CharField(
        label=_("What happens"),
        required=False,
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"dir": "auto"}),
    )
    medium = forms.CharField(
        label=_("Media file"),
        required=False,
        max_length=200,
        validators=[refuse_unprintable],
    )
    length = ReadField(
        read=read_duration,
        write=lambda length: write_duration(length, "clock"),
        label=_("Length"),
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    notes = forms.CharField(label=_("Remark"), required=False, max_length=LONG_LINE, validators=[refuse_unprintable])

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.label_suffix = ""

    def clean_place(self) -> str:
        place: str = self.cleaned_data["place"]
        mistake = mistake_in(place)
        if mistake:
            raise ValidationError(mistake.reason)
        return place

    def clean_length(self) -> Duration | None:
        length: Duration | None = self.cleaned_data["length"]
        if length is not None and not length.seconds:
            raise ValidationError(_("A length is more than nothing; leave it empty where it is not known."))
        return length

    def clean(self) -> dict[str, Any]:
        typed = self.cleaned_data
        if any(typed.get(name) for name in ("number", "place", "who", *BESIDE)) and not typed.get("action"):
            self.add_error("action", _("Say what happens at this cue."))
        return typed


class Cues(forms.BaseFormSet):
    """The cues of a work, and an empty row more."""

    def clean(self) -> None:
        numbers = [form.cleaned_data["number"] for form in self.told() if form.cleaned_data.get("number")]
        twice = next((number for place, number in enumerate(numbers) if number in numbers[:place]), None)
        if twice:
            raise ValidationError(_now("There are two cues %(number)s.") % {"number": twice})

    def told(self) -> list[CueForm]:
        return [form for form in self.forms if getattr(form, "cleaned_data", {}).get("action")]

    def rows(self, stored: Sequence[Cue], reckoned: Reckoned | None) -> list[Cue]:
        """Return the cues that were typed, in playing order; those that are there already keep their history."""
        by_key = {cue.pk: cue for cue in stored}
        typed = with_numbers([form.cleaned_data for form in self.told()])
        cues = [told(by_key.pop(one.get("row") or 0, Cue()), one) for one in typed]
        if reckoned is None:
            return cues
        return in_playing_order(cues, lambda cue: placed_cue(as_facts(cue), reckoned).seconds)

    def in_words(self) -> str:
        """Return the cues as one reads them, one a line."""
        return in_words(self, COLUMNS, first="action")

    def facts(self, *, refused: bool) -> tuple[CueFacts, ...]:
        """Return the cues as they stand in the form, for the reading below the tempo map.

        ``refused`` takes in those whose place is refused, which a page that says so beside the field leaves out.
        """
        shown = [form for form in self.forms if refused or "place" not in form.errors]
        told = [[str(form[name].value() or "") for name in ("number", "place", "action")] for form in shown]
        return tuple(CueFacts(number, place, action) for number, place, action in told if place or action)


def with_numbers(typed: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the rows with a number for each that has none: one more than the highest."""
    highest = max((int(one["number"]) for one in typed if one["number"].isdecimal()), default=0)
    numbered = []
    for one in typed:
        highest += not one["number"]
        numbered.append({**one, "number": one["number"] or str(highest)})
    return numbered


def told(cue: Cue, typed: dict[str, Any]) -> Cue:
    for name, column in COLUMNS.items():
        setattr(cue, column, typed[name])
    return cue


def as_facts(cue: Cue) -> CueFacts:
    return CueFacts(cue.number, cue.place, cue.action)


def cue_rows(stored: Sequence[Cue], typed: Any = None) -> Cues:
    shown = [{"row": cue.pk, **{name: getattr(cue, column) for name, column in COLUMNS.items()}} for cue in stored]
    return cast(Cues, CueRows(typed, initial=shown, prefix=PREFIX))


CueRows = forms.formset_factory(CueForm, formset=Cues, extra=1, max_num=MOST, absolute_max=MOST, validate_max=True)
