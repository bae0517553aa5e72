"""One work of the catalogue, picked: from a list where there are few, by typing its name where there are many.

The name is looked up when the form is sent, so that no script is needed; with one, works are offered while one types.
A name that fits none comes back with those near it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import QuerySet
from django.urls import reverse
from django.utils.translation import get_language
from django.utils.translation import gettext as _

from catalogue.gathering.versions import State
from catalogue.models import Composer, Work
from catalogue.models.fields import LONG_LINE
from catalogue.web.work_names import UnknownWork, few_at, few_of, label_of, works_called, works_near


def suggesting(composer: Composer, options: str) -> dict[str, str]:
    """Return the attributes of a field that fills the list of that id with works while one types."""
    return {
        "list": options,
        "autocomplete": "off",
        "dir": "auto",
        "data-hx-get": reverse("work-suggested", args=[composer.slug]),
        "data-hx-trigger": "input changed delay:200ms",
        "data-hx-target": f"#{options}",
    }


class WorkInput(forms.TextInput):
    """A field with the list of what is offered below it."""

    template_name = "forms/work_input.html"

    def __init__(self, composer: Composer) -> None:
        super().__init__()
        self.composer = composer

    def get_context(self, name: str, value: Any, attrs: dict[str, Any] | None) -> dict[str, Any]:
        options = f"{(attrs or {}).get('id', name)}_works"
        context = super().get_context(name, value, {**(attrs or {}), **suggesting(self.composer, options)})
        return {**context, "options": options}


class WorkField(forms.ModelChoiceField):
    """A work of those that are offered; until some are, of none."""

    def __init__(self, queryset: QuerySet[Work] | None = None, **options: Any) -> None:
        super().__init__(Work.objects.none() if queryset is None else queryset, **options)
        self.is_typed = False

    def offer(self, works: Any, composer: Composer) -> None:
        """Let these works of a composer be picked; one query."""
        self.offer_called(works, composer, few_of(works))

    def offer_all(self, composer: Composer, state: State) -> None:
        """Let every work of a composer be picked, whose lists are in this state; one query while nothing changes."""
        works = Work.objects.filter(composer=composer)
        self.offer_called(works, composer, few_at(state, composer, get_language()))

    def offer_called(self, works: Any, composer: Composer, few: Mapping[int, str] | None) -> None:
        """Let works be picked from a list of their names; from none where they are too many."""
        self.queryset, self.is_typed = works, few is None
        if few is None:
            self.widget = WorkInput(composer)
            self.widget.is_required = self.required
        else:
            empty = [("", self.empty_label)] if self.empty_label is not None else []
            self.choices = [*empty, *few.items()]

    def prepare_value(self, value: Any) -> Any:
        """Return what stands in the field: of a key, or a work, its name where names are typed."""
        if not self.is_typed:
            return super().prepare_value(value)
        key = value.pk if isinstance(value, Work) else value
        return (label_of(self.works, key) if is_key(key) else "") or key

    def to_python(self, value: Any) -> Work | None:
        if not self.is_typed:
            found: Work | None = super().to_python(value)
            return found
        text = "" if value is None else str(value).strip()
        if not text:
            return None
        if len(text) > LONG_LINE or "\0" in text:
            raise ValidationError(_("No work of this catalogue is called so."))
        return self.named(text)

    def named(self, text: str) -> Work:
        """Return the work of that name, or else of that key. Raises ValidationError with those near it."""
        try:
            return works_called(self.works, text).find(text)
        except UnknownWork as unknown:
            by_key = self.works.filter(pk=int(text)).first() if is_key(text) else None
            if by_key is not None:
                return by_key
            near = ", ".join(f"“{label}”" for label in works_near(self.works, text, 5))
            said = _("%(reason)s Near it: %(works)s.") % {"reason": unknown.reason, "works": near}
            raise ValidationError(said if near and not unknown.is_several else unknown.reason) from unknown

    def key_of(self, text: str) -> int | None:
        """Return the key of the work that an address names, by its key or its name; None where it names none."""
        if is_key(text):
            return int(text)
        try:
            found = self.clean(text) if self.is_typed and text else None
        except ValidationError:
            return None
        return found.pk if found else None

    def has_changed(self, initial: Any, data: Any) -> bool:
        return bool(str(self.prepare_value(initial) or "") != str(data or ""))

    @property
    def works(self) -> Any:
        return self.queryset


def is_key(value: Any) -> bool:
    text = str(value)
    return text.isascii() and text.isdecimal() and len(text) < 19
