"""The forms of how documents look: a house style, and what is chosen instead of what it has."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext as _now
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer
from catalogue.rules.inks import InkError, read_ink

STYLES = [
    ("classic", _("Serifs, heads in violet")),
    ("black", _("Serifs, black only")),
    ("clear", _("Sans serifs, heads in sea blue")),
]
FACES = [("", _("As the look has them")), ("serif", _("Serifs")), ("sans", _("Sans serifs"))]
MARGINS = [
    ("usual", _("25 mm at the left, 20 mm at the right")),
    ("narrow", _("20 mm and 15 mm, for longer lines")),
    ("bound", _("30 mm and 15 mm, where pages are bound")),
]
DRESSING = ("house_style", "paper_face", "paper_ink", "paper_margins")


class DressingForm(forms.ModelForm):
    """What papers wear; ``saves`` is how often the record had been saved when the form was opened."""

    house_style = forms.ChoiceField(label=_("Look of documents"), choices=STYLES)
    paper_face = forms.ChoiceField(label=_("Typeface"), choices=FACES, required=False)
    paper_ink = forms.CharField(
        label=_("Colour of heads"),
        required=False,
        max_length=30,
        help_text=_(
            "Six digits such as #45388a; leave empty for that of the look. It has to be dark enough to be read."
        ),
        widget=forms.TextInput(attrs={"class": "short", "autocomplete": "off"}),
    )
    paper_margins = forms.ChoiceField(
        label=_("Margins"),
        choices=MARGINS,
        help_text=_("Not of score covers and pocket cue sheets, which are cut to their paper."),
    )
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.initial["saves"] = self.instance.saves

    def clean_paper_ink(self) -> str:
        typed = self.cleaned_data["paper_ink"].strip()
        try:
            return read_ink(typed) if typed else ""
        except InkError as mistake:
            raise forms.ValidationError(mistake.reason) from mistake

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("saves") is not None:
            self.instance.saves = cleaned["saves"]
        return cleaned


class LookForm(DressingForm):
    """The look of a composer's papers; under the roof of a house it is worn where it is asked for."""

    class Meta:
        model = Composer
        fields = [*DRESSING, "own_look"]

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        house = self.instance.house if self.instance.house_id else None
        if house is None:
            del self.fields["own_look"]
            return
        self.fields["own_look"].label = _now("Have a look of its own")
        self.fields["own_look"].help_text = _now("Else papers look as those of %(house)s.") % {"house": house.name}
        self.order_fields(["own_look"])

    def answers(self) -> dict[str, Any]:
        """Return what was answered, by the names of the fields."""
        return {name: self.cleaned_data[name] for name in self.Meta.fields if name in self.cleaned_data}
