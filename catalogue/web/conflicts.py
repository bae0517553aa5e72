"""Two people changed one record: what is saved beside what was typed, field by field."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.forms import BaseForm
from django.forms.boundfield import BoundField

from catalogue.actions.saving import Overtaken


@dataclass(frozen=True, slots=True)
class Conflict:
    """Why nothing was saved; ``differences`` are label, what is saved, what was typed."""

    reason: str
    differences: tuple[tuple[str, str, str], ...]

    @classmethod
    def between(cls, overtaken: Overtaken, typed: BaseForm, stored: BaseForm) -> Conflict:
        """Compare the form that was sent with one of the record as it stands."""
        pairs = [(str(field.label), shown(stored[field.name]), shown(field)) for field in typed.visible_fields()]
        return cls(overtaken.reason, tuple(pair for pair in pairs if pair[1] != pair[2]))

    def with_rows(self, label: str, theirs: str, yours: str) -> Conflict:
        """Return the conflict with a list of rows in words, where the two lists differ."""
        return self if theirs == yours else Conflict(self.reason, (*self.differences, (label, theirs, yours)))


def shown(field: BoundField) -> str:
    """Return a field's value as its reader sees it: the words of a choice, lines ended in one way."""
    value: Any = field.value()
    if value in (None, "", False):
        return ""
    choices = {str(key): words for key, words in getattr(field.field, "choices", ())}
    return str(choices.get(str(value), value)).replace("\r\n", "\n")
