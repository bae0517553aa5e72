"""What the columns of a record held at any time, in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from django.db import models
from django.utils.translation import gettext as _

from catalogue.timing import Duration, PartialDate
from catalogue.web.wording import date_text, duration_text

LONGEST = 400  # letters shown of a text


class Sayer:
    """Says what a column held, in words; records that are named are fetched once for all states."""

    def __init__(self, model: type[models.Model], columns: Sequence[str], states: Iterable[Any], language: str) -> None:
        self.language, self.columns = language, tuple(columns)
        self.fields = {field.attname: field for field in model._meta.concrete_fields}
        self.names: dict[str, dict[Any, str]] = {}
        known = list(states)
        for column in columns:
            field: Any = self.fields[column]
            keys = {getattr(one, column) for one in known} - {None} if field.is_relation else set()
            if keys:
                found = field.related_model._base_manager.in_bulk(keys)
                self.names[column] = {key: str(one) for key, one in found.items()}

    def value(self, column: str, value: Any) -> str:
        field: Any = self.fields[column]
        if value in (None, "", ()):
            return ""
        if field.is_relation:
            return self.names.get(column, {}).get(value, _("something that is gone"))
        if field.choices:
            return str(dict(field.flatchoices).get(value, value))
        if isinstance(value, bool):
            return _("yes") if value else _("no")
        return self.text(value)

    def text(self, value: Any) -> str:
        if isinstance(value, PartialDate):
            return date_text(value, self.language)
        if isinstance(value, Duration):
            return duration_text(value, "", self.language)
        words = ".".join(str(one) for one in value) if isinstance(value, tuple | list) else str(value)
        return words if len(words) <= LONGEST else f"{words[:LONGEST].rstrip()}…"

    def row(self, state: Any) -> str:
        """Return all that a row says, in one line; what is usual is left out."""
        return " · ".join(part for part in (self._part(state, column) for column in self.columns) if part)

    def _part(self, state: Any, column: str) -> str:
        field, value = self.fields[column], getattr(state, column)
        if isinstance(value, bool):
            return str(field.verbose_name) if value else ""
        return "" if field.choices and value == field.default else self.value(column, value)
