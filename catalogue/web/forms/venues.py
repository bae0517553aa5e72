"""The form of a hall: its name, where it stands, by which clocks."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.models import Venue
from catalogue.web.forms.fields import ReadField
from catalogue.web.places import read_country, write_country, zones_of


class VenueForm(forms.ModelForm):
    country = ReadField(
        read=read_country, write=write_country, label=_("Country"), help_text=_("Its name, or two letters such as CH.")
    )

    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)

    class Meta:
        model = Venue
        fields = ["name", "city", "country", "zone", "latitude", "longitude", "equipment", "notes"]
        labels = {
            "name": _("Name"),
            "city": _("City"),
            "zone": _("Clocks"),
            "latitude": _("Latitude"),
            "longitude": _("Longitude"),
            "equipment": _("What the house has"),
            "notes": _("Notes for yourself"),
        }
        help_texts = {
            "zone": _("By which times there are told, such as Europe/Berlin."),
            "latitude": _("Degrees north, such as 53.5413."),
            "longitude": _("Degrees east, such as 9.9841."),
            "equipment": _("For technical riders, one thing a line: 6 loudspeakers; full range."),
        }
        widgets = {
            "equipment": forms.Textarea(attrs={"rows": 8, "dir": "auto", "spellcheck": "false", "class": "listed"}),
            "name": forms.TextInput(attrs={"dir": "auto"}),
            "city": forms.TextInput(attrs={"dir": "auto"}),
            "zone": forms.TextInput(attrs={"list": "zones"}),
            "latitude": forms.TextInput(attrs={"inputmode": "decimal", "class": "short"}),
            "longitude": forms.TextInput(attrs={"inputmode": "decimal", "class": "short"}),
            "notes": forms.Textarea(attrs={"rows": 4}),
        }

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.initial.update({"country": write_country(self.instance.country), "saves": self.instance.saves})

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.instance.saves = cleaned.get("saves") or 0
        return cleaned

    def clean_country(self) -> str:
        return self.cleaned_data["country"] or ""

    @property
    def zones(self) -> list[str]:
        """The clocks of the hall's country, to pick from."""
        return zones_of(self.instance.country)
