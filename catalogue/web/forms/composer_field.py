"""Naming a composer of those that one keeps: from a list of few, by typing of many; a value is the composer's slug."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from catalogue.models import Composer
from catalogue.models.fields import LONG_LINE
from catalogue.rules.search import fold

MOST_LISTED, MOST_NAMED = 200, 5


def find_composer(composers: Sequence[Composer], text: str) -> Composer:
    """Return the one composer of that slug or name, or whose name alone holds these words. Raises ValidationError."""
    typed = fold(text)
    exact = [one for one in composers if text == one.slug or typed in {fold(one.name), fold(one.sort_name)}]
    near = exact or [one for one in composers if all(word in fold(one.name) for word in typed.split())]
    if not near:
        raise ValidationError(_("No composer here is called “%(name)s”.") % {"name": text})
    if len(near) > 1:
        names = ", ".join(one.name for one in near[:MOST_NAMED])
        told = _("Several composers here are called so: %(names)s%(more)s. Type the whole name of one.")
        raise ValidationError(told % {"names": names, "more": " …" if len(near) > MOST_NAMED else ""})
    return near[0]


class ComposerField(forms.ChoiceField):
    """A composer of those that are offered, or none of them; until some are offered, of nobody."""

    def __init__(self, **options: Any) -> None:
        super().__init__(**{"required": False, "label": gettext_lazy("Composer"), **options})
        self.composers: Sequence[Composer] = ()
        self.is_typed = False

    def offer(self, composers: Sequence[Composer]) -> None:
        self.composers, self.is_typed = composers, len(composers) > MOST_LISTED
        everybody = _("All composers")
        if self.is_typed:
            self.widget = forms.TextInput(attrs={"type": "search", "placeholder": everybody, "autocomplete": "off"})
        else:
            self.choices = [("", everybody), *((one.slug, one.name) for one in composers)]

    def prepare_value(self, value: Any) -> Any:
        """Return what stands in the field: of a slug the name, where names are typed."""
        return next((one.name for one in self.composers if one.slug == value), value) if self.is_typed else value

    def clean(self, value: Any) -> str:
        if not self.is_typed:
            return str(super().clean(value))
        text = " ".join(str(value or "").split())[:LONG_LINE]
        return find_composer(self.composers, text).slug if text else ""


class ComposersField(forms.Field):
    """Several composers, at least one: ticked where they are few, typed one a line where they are many."""

    widget = forms.CheckboxSelectMultiple

    def __init__(self, *, composers: Sequence[Composer], **options: Any) -> None:
        self.composers, self.is_typed = composers, len(composers) > MOST_LISTED
        if self.is_typed:
            many = {"widget": forms.Textarea(attrs={"rows": 4}), "help_text": gettext_lazy("One name a line.")}
            options = {**many, **options}
        super().__init__(**options)
        if not self.is_typed:
            self.widget.choices = [(one.slug, one.name) for one in composers]

    def clean(self, value: Any) -> list[str]:
        if self.is_typed:
            lines = [line.strip() for line in str(value or "").splitlines() if line.strip()]
            found = [find_composer(self.composers, line).slug for line in lines]
        else:
            found = [one.slug for one in self.composers if one.slug in (value or [])]
        if not found:
            raise ValidationError(self.error_messages["required"], code="required")
        return list(dict.fromkeys(found))


class WhoseForm(forms.Form):
    """Whose a page of all composers is about."""

    composer = ComposerField()

    def __init__(self, *args: Any, composers: Sequence[Composer], **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["composer"].offer(composers)  # type: ignore[attr-defined]
