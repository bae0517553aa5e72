"""The form field of a column: how each sort of column is typed, read and written.

A person or an organisation is named; one that the catalogue does not have yet is made with the record.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import time
from typing import Any

from django import forms
from django.db import models
from django.utils.translation import gettext as _

from catalogue.models import (
    Composer,
    Edition,
    HireTerms,
    MaterialSet,
    Organisation,
    Performance,
    Person,
    Recording,
    TechnicalSetup,
    Work,
)
from catalogue.models.fields import LINE, DurationField, KindsField, PartialDateField, StrengthsField
from catalogue.models.journeys import FilingRuleField, LeadField
from catalogue.models.typed_lists import READERS
from catalogue.rules.filing import read_filing_rule
from catalogue.rules.identifiers import Identifier
from catalogue.rules.journey import read_lead
from catalogue.rules.search import fold
from catalogue.terms import OrganisationKind
from catalogue.timing import read_clock_time, read_duration, write_clock_time
from catalogue.web.forms.fields import (
    DateField,
    DayField,
    IdentifierField,
    LanguageTagField,
    NumberField,
    ReadField,
    StrengthsTypedField,
)
from catalogue.web.forms.work_field import WorkField
from catalogue.web.places import read_country, write_country
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.wording import page_language

CHOSEN = (Performance, Recording, TechnicalSetup, Edition, MaterialSet, HireTerms)
LONG = {"rows": 4}
TEXT = {"rows": 8, "dir": "auto"}
LISTED = {"rows": 8, "dir": "auto", "spellcheck": "false", "class": "listed"}
UNITS = {"reference_hertz": "Hz", "latency_ms": "ms", "stave_height": "mm", "stage_width": "m", "stage_depth": "m"}
SECONDS = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)|(\d{1,5})", re.ASCII)
IDENTIFIERS = {"ipi": Identifier.IPI, "isni": Identifier.ISNI, "ismn": Identifier.ISMN, "isrc": Identifier.ISRC}


def read_seconds(text: str) -> int | None:
    """Read minutes and seconds; the beginning is nothing. Raises ValueError.

    >>> read_seconds("3:20"), read_seconds("1:00:05"), read_seconds("45"), read_seconds("0:00")
    (200, 3605, 45, None)
    """
    found = SECONDS.fullmatch(text.strip())
    if found is None:
        raise ValueError("Write minutes and seconds, such as 3:20.")
    hours, minutes, seconds, alone = (int(part or 0) for part in found.groups())
    return hours * 3600 + minutes * 60 + seconds + alone or None


def write_seconds(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    return f"{minutes}:{rest:02}"


class CountryField(ReadField):
    """A country by its name or code; empty is an empty text."""

    def clean(self, value: Any) -> str:
        return super().clean(value) or ""


class NamedField(forms.CharField):
    """A person or an organisation by name: one of those that are known, or a new one that is not stored yet."""

    def __init__(self, model: type[Person] | type[Organisation], **options: Any) -> None:
        self.model = model
        super().__init__(**{"max_length": LINE, **options})
        self.known: list[Any] = []
        self.composer: Composer | None = None
        self.current: Any = None

    def know(self, composer: Composer, known: list[Any], current: Any) -> None:
        self.composer, self.known, self.current = composer, known, current

    def clean(self, value: Any) -> Any:
        text = super().clean(value)
        if not text:
            return None
        alike = [one for one in (self.current, *self.known) if one is not None and fold(one.name) == fold(text)]
        return alike[0] if alike else self.model(composer=self.composer, name=text)

    def has_changed(self, initial: Any, data: Any) -> bool:
        return bool((initial or "") != (data or ""))


# ---- columns to fields


def field_for(kind: Kind, column: models.Field[Any, Any], **options: Any) -> forms.Field | None:
    """Return the form field of a column, with the words of its kind."""
    said = kind.fields.get(column.name, Said(kind.label(column.name)))
    words = {"label": said.label, "help_text": said.hint}
    for belongs, make in MAKERS:
        if belongs(column):
            made: forms.Field = make(column, **words)
            return made
    return column.formfield(**{**options, **words, **widget_of(column)})


def widget_of(column: models.Field[Any, Any]) -> dict[str, Any]:
    if isinstance(column, models.BooleanField) or column.choices:
        return {}
    if isinstance(column, models.TextField) and column.name in READERS:
        return {"widget": forms.Textarea(attrs=LISTED)}
    if isinstance(column, models.TextField):
        return {"widget": forms.Textarea(attrs=LONG if column.blank else TEXT)}
    if isinstance(column, models.URLField):
        return {"assume_scheme": "https"}
    if isinstance(column, models.IntegerField | models.DecimalField | models.FloatField):
        mode = "numeric" if isinstance(column, models.IntegerField) else "decimal"
        read = {"form_class": NumberField, "unit": unit_of(column)} if isinstance(column, models.DecimalField) else {}
        return {"widget": forms.TextInput(attrs={"class": "short", "inputmode": mode}), "localize": False, **read}
    if column.name == "zone":
        return {"widget": forms.TextInput(attrs={"list": "zones", "spellcheck": "false"})}
    if column.name == "smufl":
        return {"widget": forms.TextInput(attrs={"list": "signs", "class": "code", "spellcheck": "false"})}
    return {"widget": forms.TextInput(attrs={"dir": "auto"})} if not column.choices else {}


def unit_of(column: models.Field[Any, Any]) -> str:
    """Return what people may write behind a number, beside its label that says so already."""
    return "%" if column.name == "share" or "percent" in column.name else UNITS.get(column.name, "")


def names_one_of(column: models.Field[Any, Any], *found: type[models.Model]) -> bool:
    return isinstance(column, models.ForeignKey) and column.related_model in found


def named_field(column: Any, **words: Any) -> NamedField:
    noun = "people" if column.related_model is Person else "organisations"
    widget = forms.TextInput(attrs={"list": noun, "dir": "auto"})
    return NamedField(column.related_model, required=not column.blank, widget=widget, **words)


def work_field(column: Any, **words: Any) -> WorkField:
    return WorkField(required=not column.blank, empty_label=empty_label(column), **words)


def empty_label(column: Any) -> str:
    return _("none") if column.blank else _("choose one")


def chosen_field(column: Any, **words: Any) -> forms.ModelChoiceField:
    manager = column.related_model.objects
    return forms.ModelChoiceField(manager.none(), required=not column.blank, empty_label=empty_label(column), **words)


def kinds_field(_column: Any, **words: Any) -> forms.TypedMultipleChoiceField:
    choices = [(one.value, one.value.capitalize()) for one in OrganisationKind]
    return forms.TypedMultipleChoiceField(
        choices=choices, coerce=OrganisationKind, required=False, widget=forms.CheckboxSelectMultiple, **words
    )


def clock_field(**words: Any) -> ReadField:
    widget = forms.TextInput(attrs={"class": "short"})
    return ReadField(read=read_clock_time, write=clock_as_typed, widget=widget, **words)


def clock_as_typed(at: time) -> str:
    return write_clock_time(at, page_language())


MAKERS: tuple[tuple[Callable[[Any], bool], Callable[..., forms.Field]], ...] = (
    (lambda column: isinstance(column, PartialDateField), lambda _column, **words: DateField(**words)),
    (lambda column: isinstance(column, LeadField), lambda _column, **words: ReadField(read=read_lead, **words)),
    (
        lambda column: isinstance(column, FilingRuleField),
        lambda _column, **words: ReadField(read=read_filing_rule, required=True, **words),
    ),
    (lambda column: isinstance(column, models.TimeField), lambda _column, **words: clock_field(**words)),
    (lambda column: type(column) is models.DateField, lambda _column, **words: DayField(**words)),
    (lambda column: isinstance(column, StrengthsField), lambda _column, **words: StrengthsTypedField(**words)),
    (lambda column: isinstance(column, DurationField), lambda _column, **words: ReadField(read=read_duration, **words)),
    (lambda column: isinstance(column, KindsField), kinds_field),
    (
        lambda column: column.name in {"excerpt_from", "excerpt_until"},
        lambda _column, **words: ReadField(read=read_seconds, write=write_seconds, **words),
    ),
    (lambda column: column.name in IDENTIFIERS, lambda one, **words: IdentifierField(IDENTIFIERS[one.name], **words)),
    (lambda column: column.name == "language", lambda _column, **words: LanguageTagField(**words)),
    (
        lambda column: column.name == "country",
        lambda _column, **words: CountryField(read=read_country, write=write_country, **words),
    ),
    (lambda column: names_one_of(column, Person, Organisation), named_field),
    (lambda column: names_one_of(column, Work), work_field),
    (lambda column: names_one_of(column, *CHOSEN), chosen_field),
)
