"""Form fields whose clean value is a core value; a mistake shows its own sentence."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import Any, ClassVar, cast

from django import forms
from django.core.exceptions import ValidationError
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.models.fields import IDENTIFIER, StrengthsField, refuse_unprintable
from catalogue.rules.identifiers import Identifier, as_typed, doubt_about
from catalogue.timing import DateError, PartialDate, read_date, write_date
from catalogue.web.wording import page_language


class ReadField(forms.CharField):
    """One line of text that is read into a value; ``read`` raises ValueError, ``write`` undoes it."""

    def __init__(self, *, read: Callable[[str], Any], write: Callable[[Any], str] = str, **options: Any) -> None:
        self.read, self.write = read, write
        super().__init__(**{"required": False, "max_length": 64, "validators": [refuse_unprintable], **options})

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        try:
            return self.read(text)
        except ValueError as mistake:
            raise ValidationError(getattr(mistake, "reason", str(mistake)), code="unreadable") from mistake

    def prepare_value(self, value: Any) -> str:
        if not value:
            return ""
        return value if isinstance(value, str) else self.write(value)

    def has_changed(self, initial: Any, data: Any) -> bool:
        return super().has_changed(self.prepare_value(initial), data)


class NumberField(forms.DecimalField):
    """A number with its decimals behind a point or a comma; three figures behind a comma may be thousands: refused.

    Its ``unit`` may stand behind it.
    """

    WITH_COMMA = re.compile(r"(-?\d+),(\d{1,2}|\d{4,})", re.ASCII)
    OF_FIGURES = re.compile(r"[\d.,'’\s-]*\d", re.ASCII)

    default_error_messages: ClassVar = {
        "invalid": _("Write a number, such as 12.5."),
        "thousands": _("Write a number without marks between its thousands: 1250.50."),
    }

    def __init__(self, *, unit: str = "", **options: Any) -> None:
        super().__init__(**options)
        self.unit = unit

    def to_python(self, value: Any) -> Any:
        text = value.strip() if isinstance(value, str) else ""
        text = text.removesuffix(self.unit).rstrip()
        found = self.WITH_COMMA.fullmatch(text)
        try:
            return super().to_python(f"{found[1]}.{found[2]}" if found else text or value)
        except ValidationError as mistake:
            if not self.OF_FIGURES.fullmatch(text):
                raise
            raise ValidationError(self.error_messages["thousands"], code="thousands") from mistake


def read_typed_date(text: str) -> PartialDate:
    """Read a date in the order of day and month that the page's language has."""
    return read_date(text, language=page_language())


class DateField(ReadField):
    """A date as exact as it is known."""

    def __init__(self, **options: Any) -> None:
        super().__init__(read=read_typed_date, **{"widget": forms.TextInput(attrs={"class": "short"}), **options})


def read_day(text: str) -> date:
    """Read a day as it is typed. Raises ValueError where it is a month or a year only, or no date at all."""
    try:
        when = read_typed_date(text)
    except DateError as mistake:
        if mistake.reason.startswith(f"“{text}” is no date"):
            raise ValueError(f"“{text}” is no day; write one such as 5 June 2026.") from mistake
        raise
    if when.circa or when.first != when.last:
        raise ValueError(f"“{text}” is no day; write one such as 5 June 2026.")
    return when.first


def write_day(day: date) -> str:
    return write_date(PartialDate.of(day), page_language())


class DayField(ReadField):
    """One day of the calendar."""

    def __init__(self, **options: Any) -> None:
        short = forms.TextInput(attrs={"class": "short"})
        super().__init__(read=read_day, write=write_day, **{"widget": short, **options})


class StrengthsTypedField(ReadField):
    """Five numbers of string players; empty is an empty tuple."""

    def __init__(self, **options: Any) -> None:
        column = StrengthsField()
        super().__init__(read=column.typed, write=column.write, **options)

    def clean(self, value: Any) -> Any:
        return super().clean(value) or ()


TAG = re.compile(r"[a-z]{2,3}(-[a-z0-9]{2,8})*", re.IGNORECASE | re.ASCII)


def read_tag(text: str) -> str:
    """Return a language tag as it is usually written (BCP 47): el-Latn, en-GB, zh-Hant-TW. Raises ValueError."""
    if not TAG.fullmatch(text):
        raise ValueError(f"“{text}” is no language tag; write one such as de, el-Latn or en-GB.")
    first, *others = text.lower().split("-")
    cased = {2: str.upper, 4: str.capitalize}
    return "-".join([first, *(cased.get(len(part), str.lower)(part) for part in others)])


class LanguageTagField(ReadField):
    """The tag of a language; empty is an empty text."""

    def __init__(self, **options: Any) -> None:
        super().__init__(
            read=read_tag, max_length=35, **{"widget": forms.TextInput(attrs={"class": "short"}), **options}
        )

    def clean(self, value: Any) -> str:
        return super().clean(value) or ""


class DoubtedField(BoundField):
    """A field that tells what cannot be right with what stands in it, which is no reason to refuse it."""

    @property
    def warning(self) -> str:
        kind: Identifier = cast(IdentifierField, self.field).kind
        text = str(self.value() or "")
        return doubt_about(kind, text) if text and not self.errors else ""

    @property
    def aria_describedby(self) -> str | None:
        ids = (super().aria_describedby, f"{self.auto_id}_warning" if self.warning else None)
        return " ".join(part for part in ids if part) or None


class IdentifierField(forms.CharField):
    """A number of a registry, kept as it was typed; a wrong form or check digit is told beside it."""

    bound_field_class = DoubtedField

    def __init__(self, kind: Identifier, **options: Any) -> None:
        usual = {"required": False, "max_length": IDENTIFIER, "validators": [refuse_unprintable]}
        super().__init__(**{**usual, "widget": forms.TextInput(attrs={"class": "short"}), **options})
        self.kind = kind

    def clean(self, value: Any) -> str:
        return as_typed(super().clean(value))
