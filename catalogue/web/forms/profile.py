"""The form of a composer: how the name is printed and sorted, how somebody is reached, what documents take as usual."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.documents.labels import LANGUAGES
from catalogue.models import Composer
from catalogue.rules.identifiers import Identifier
from catalogue.web.forms.document_base import language_names, name_of_language
from catalogue.web.forms.fields import DateField, IdentifierField, ReadField, StrengthsTypedField
from catalogue.web.forms.works import Group
from catalogue.web.places import read_country, write_country

MAIN = (
    Group(_("The name"), ("name", "sort_name")),
    Group(_("Biography"), ("short_biography", "biography")),
    Group(_("How to be reached"), ("email", "telephone", "website", "address")),
)
MORE = (
    Group(_("More on the person"), ("original_name", "born", "died", "birthplace", "country")),
    Group(_("What documents take as usual"), ("language", "number_prefix", "string_strengths")),
    Group(_("Numbers"), ("ipi", "isni")),
)


USUAL = ("language",)
"""Fields that always hold something."""


class ProfileForm(forms.ModelForm):
    born = DateField(label=_("Born"))
    died = DateField(label=_("Died"))
    country = ReadField(
        read=read_country, write=write_country, label=_("Country"), help_text=_("Its name, or two letters such as CH.")
    )
    website = forms.URLField(label=_("Website"), required=False, max_length=500, assume_scheme="https")
    string_strengths = StrengthsTypedField(
        label=_("Strings"),
        help_text=_("For works that state none; players from first violins to double basses: 14.12.10.8.6."),
    )
    ipi = IdentifierField(Identifier.IPI, label=_("IPI name number"))
    isni = IdentifierField(Identifier.ISNI, label=_("ISNI"))
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)

    class Meta:
        model = Composer
        fields = [
            "name", "sort_name", "original_name", "born", "died", "birthplace", "country", "short_biography",
            "biography", "email", "telephone", "website", "address", "language", "number_prefix",
            "string_strengths", "ipi", "isni",
        ]  # fmt: skip
        labels = {
            "name": _("Name"),
            "sort_name": _("As it is sorted"),
            "original_name": _("In its own script"),
            "birthplace": _("Born in"),
            "short_biography": _("Short biography"),
            "biography": _("Biography"),
            "email": _("E-mail"),
            "telephone": _("Telephone"),
            "address": _("Address"),
            "number_prefix": _("Before catalogue numbers"),
        }
        help_texts = {
            "name": _("As it stands on a score."),
            "sort_name": _("Such as: Marovand, Ilka."),
            "short_biography": _("A paragraph, as a programme prints it."),
            "number_prefix": _("Such as: Op."),
        }
        widgets = {
            "name": forms.TextInput(attrs={"class": "title", "dir": "auto"}),
            "original_name": forms.TextInput(attrs={"dir": "auto"}),
            "short_biography": forms.Textarea(attrs={"rows": 3}),
            "biography": forms.Textarea(attrs={"rows": 6}),
            "address": forms.Textarea(attrs={"rows": 3}),
            "number_prefix": forms.TextInput(attrs={"class": "short"}),
        }
        error_messages = {"name": {"required": _("A catalogue needs its composer’s name.")}}

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        stored = self.instance.language
        others = [] if stored in LANGUAGES else [(stored, name_of_language(stored))]
        self.fields["language"] = forms.ChoiceField(
            label=_("Language of documents"), choices=[*language_names(), *others]
        )
        self.initial.update({"country": write_country(self.instance.country), "saves": self.instance.saves})

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.instance.saves = cleaned.get("saves") or 0
        return cleaned

    def clean_country(self) -> str:
        return self.cleaned_data["country"] or ""

    def main_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        return ((group, [self[name] for name in group.names]) for group in MAIN)

    def more_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        return ((group, [self[name] for name in group.names]) for group in MORE)

    @property
    def more_is_filled(self) -> bool:
        """Whether something behind “more” is filled in or mistaken, so that it is better shown."""
        fields = [field for _group, fields in self.more_groups() for field in fields if field.name not in USUAL]
        return any(field.errors or field.value() not in {None, "", ()} for field in fields)
