"""The forms of records around works, made from the description of their kind.

A person or an organisation is picked by its name; one that the catalogue does not have yet is added with the record.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from datetime import datetime, time
from typing import Any, ClassVar, cast

from django import forms
from django.db import models
from django.forms.boundfield import BoundField
from django.urls import reverse
from django.utils.translation import gettext as _

from catalogue.actions.records import save_record
from catalogue.drawings.signs import signs
from catalogue.models import (
    Composer,
    Edition,
    HireTerms,
    MaterialSet,
    Organisation,
    Performance,
    Person,
    ProgrammedWork,
    Recording,
    TechnicalSetup,
    Venue,
    Work,
)
from catalogue.models.fields import LINE, DurationField, KindsField, PartialDateField, StrengthsField
from catalogue.models.journeys import FilingRuleField, LeadField
from catalogue.models.kept import KeptOfWork, Somebody
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
from catalogue.web.forms.works import Group
from catalogue.web.lookalikes import records_alike, somebody_alike
from catalogue.web.places import read_country, write_country, zones_of
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.registry import MATERIAL
from catalogue.web.wording import page_language

NAMED = (Person, Organisation, Venue)
EMPTY: tuple[object, ...] = (None, "", (), [], False, 0, "0", "none")
CHOSEN = (Performance, Recording, TechnicalSetup, Edition, MaterialSet, HireTerms)
LONG = {"rows": 4}
TEXT = {"rows": 8, "dir": "auto"}
LISTED = {"rows": 8, "dir": "auto", "spellcheck": "false", "class": "listed"}
MOST_OFFERED = 200
SECONDS = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d)|(\d{1,5})", re.ASCII)
NAMED_WITH: dict[type[models.Model], tuple[str, ...]] = {
    Performance: ("venue",), Edition: ("publisher", "work"), MaterialSet: ("work",), Recording: ("work",),
    TechnicalSetup: ("work",),
}  # fmt: skip
"""What has to be fetched along for another record to be named."""
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
        read = {"form_class": NumberField} if isinstance(column, models.DecimalField) else {}
        return {"widget": forms.TextInput(attrs={"class": "short", "inputmode": mode}), "localize": False, **read}
    if column.name == "zone":
        return {"widget": forms.TextInput(attrs={"list": "zones", "spellcheck": "false"})}
    if column.name == "smufl":
        return {"widget": forms.TextInput(attrs={"list": "signs", "class": "code", "spellcheck": "false"})}
    return {"widget": forms.TextInput(attrs={"dir": "auto"})} if not column.choices else {}


def names_one_of(column: models.Field[Any, Any], *found: type[models.Model]) -> bool:
    return isinstance(column, models.ForeignKey) and column.related_model in found


def named_field(column: Any, **words: Any) -> NamedField:
    noun = "people" if column.related_model is Person else "organisations"
    widget = forms.TextInput(attrs={"list": noun, "dir": "auto"})
    return NamedField(column.related_model, required=not column.blank, widget=widget, **words)


def work_field(column: Any, **words: Any) -> WorkField:
    return WorkField(required=not column.blank, empty_label=_("none"), **words)


def chosen_field(column: Any, **words: Any) -> forms.ModelChoiceField:
    manager = column.related_model.objects
    return forms.ModelChoiceField(manager.none(), required=not column.blank, empty_label=_("none"), **words)


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


def named_by(record: Any, column: str) -> Any:
    """Return the record that a column names, ``None`` where it names none yet."""
    return getattr(record, column) if getattr(record, f"{column}_id") is not None else None


def name_with_work(record: Any) -> str:
    """Return how a record is told from those of other works, where no work is chosen yet; a set says it itself."""
    of_work = isinstance(record, KeptOfWork) and not isinstance(record, MaterialSet)
    return f"{record.work}: {record}" if of_work else str(record)


def alike_for(kind: Kind, composer: Composer, name: str, *, besides: int | None) -> list[Any]:
    """Return what is here already and looks like the name of a record of the kind."""
    if kind.model in NAMED:
        return records_alike(kind.model, composer, name, besides=besides)
    return somebody_alike(composer, name) if issubclass(kind.model, Somebody) else []


# ---- the form


class RecordForm(forms.ModelForm):
    """A form of any kind; ``fixed`` columns are given by the address and not asked."""

    kind: ClassVar[Kind]
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)
    uid = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, composer: Composer, **options: Any) -> None:
        super().__init__(*args, **options)
        self.composer = composer
        self.initial.update({"saves": self.instance.saves, "uid": getattr(self.instance, "uid", None)})
        del self.fields["uid" if self.instance.pk else "saves"]
        self.asks_work = self.kind.is_of_work and self.instance.work_id is None
        if self.kind.is_of_work and not self.asks_work:
            del self.fields["work"]
        self.names: dict[str, list[str]] = {}
        self._offer_names()
        self._offer_records()
        if "country" in self.fields:
            self.initial["country"] = write_country(self.instance.country)
        if self.notices_alike:
            self._notice_alike()

    @property
    def notices_alike(self) -> bool:
        """Whether others of nearly the same name are shown while one types."""
        return self.kind.model in NAMED or self.names_somebody

    @property
    def names_somebody(self) -> bool:
        """Whether its name may be that of a person or a body of the catalogue; librarians see neither of them."""
        return issubclass(self.kind.model, Somebody) and self.kind not in MATERIAL

    def _notice_alike(self) -> None:
        besides = f"?besides={self.instance.pk}" if self.instance.pk else ""
        self.fields["name"].widget.attrs |= {
            "data-hx-post": reverse("record-alike", args=[self.composer.slug, self.kind.slug]) + besides,
            "data-hx-trigger": "input changed delay:400ms",
            "data-hx-target": "#alike",
            "data-hx-params": "name",
        }

    @property
    def alike(self) -> list[Any]:
        """What looks like the name that was sent."""
        name = self["name"].value() if self.notices_alike and self.is_bound else ""
        return alike_for(self.kind, self.composer, name or "", besides=self.instance.pk)

    def _offer_names(self) -> None:
        """Let each field of a person or an organisation know those of the catalogue, in one query for each sort."""
        for model, noun in ((Person, "people"), (Organisation, "organisations")):
            fields = {
                name: one for name, one in self.fields.items() if isinstance(one, NamedField) and one.model is model
            }
            if not fields:
                continue
            known: list[Any] = list(
                model.objects.filter(composer=self.composer).in_name_order().only("name", "composer")
            )
            self.names[noun] = list(dict.fromkeys(one.name for one in known))
            if self.names_somebody:
                self.names["names"] = [*self.names.get("names", ()), *self.names[noun]]
                self.fields["name"].widget.attrs["list"] = "names"
            for name, field in fields.items():
                current = named_by(self.instance, name)
                field.know(self.composer, known, current)
                self.initial[name] = current.name if current else ""

    def _offer_records(self) -> None:
        for name, field in self.fields.items():
            if isinstance(field, WorkField):
                field.offer(Work.objects.filter(composer=self.composer), self.composer)
            if isinstance(field, WorkField) or not isinstance(field, forms.ModelChoiceField):
                continue
            model: Any = cast(Any, field.queryset).model
            path = "work__composer" if issubclass(model, KeptOfWork) else "composer"
            field.queryset = model.objects.filter(**{path: self.composer})
            field.choices = self._choices_of(name, field)

    def _choices_of(self, name: str, field: Any) -> list[tuple[Any, Any]]:
        """Return what a list offers: performances and recordings of the work, or the latest."""
        rows: Any = field.queryset
        empty = [("", field.empty_label or "")]
        work = getattr(self.instance, "work_id", None)
        if work is not None and rows.model is Performance:
            rows = rows.filter(pk__in=ProgrammedWork.objects.filter(work=work).values("performance"))
        elif work is not None and issubclass(rows.model, KeptOfWork):
            rows = rows.filter(work=work)
        along = NAMED_WITH.get(rows.model, ())
        offered = list((rows.select_related(*along) if along else rows).order_by("-pk")[:MOST_OFFERED])
        current = named_by(self.instance, name)
        found = offered if current is None or current in offered else [current, *offered]
        name_of = str if work is not None else name_with_work
        return [*empty, *((one.pk, name_of(one)) for one in found)]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.instance.saves = cleaned.get("saves") or 0
        if cleaned.get("uid"):
            self.instance.uid = cleaned["uid"]
        if issubclass(self.kind.model, Somebody):
            self._recognise(cleaned)
        return cleaned

    def _recognise(self, cleaned: dict[str, Any]) -> None:
        """Let a typed name be the person or the organisation of the catalogue that is called so."""
        if cleaned.get("person") or cleaned.get("organisation") or not cleaned.get("name"):
            return
        for column in ("person", "organisation"):
            known = cast(NamedField, self.fields[column]).known
            alike = [one for one in known if fold(one.name) == fold(cleaned["name"])]
            if alike:
                cleaned[column] = alike[0]
                return

    @property
    def new_names(self) -> tuple[str, ...]:
        """The columns whose person or organisation is to be stored with the record."""
        typed = self.cleaned_data
        named = (name for name, field in self.fields.items() if isinstance(field, NamedField))
        return tuple(name for name in named if typed.get(name) is not None and typed[name].pk is None)

    def _get_validation_exclusions(self) -> set[str]:
        """Leave what is to be stored with the record to be checked then."""
        return {*super()._get_validation_exclusions(), *self.new_names}  # type: ignore[misc]

    def keep(self, now: datetime) -> None:
        """Save the record with what was sent along. Raises Overtaken and ValidationError."""
        save_record(record=self.instance, now=now, with_new=self.new_names)

    # ---- how it is laid out

    def main_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        if self.asks_work:
            yield Group(_("Which work"), ("work",)), [self["work"]]
        for group in self.kind.main:
            yield group, [self[name] for name in group.names if name in self.fields]

    def more_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        return ((group, [self[name] for name in group.names]) for group in self.kind.more)

    @property
    def more_words(self) -> str:
        """What stands behind “more”, in words."""
        labels = (str(self.kind.label(name)) for group in self.kind.more for name in group.names)
        return ", ".join(label if label[1:2].isupper() else label[:1].lower() + label[1:] for label in labels)

    @property
    def more_is_filled(self) -> bool:
        """Whether something behind “more” is filled in otherwise than it begins, or mistaken."""
        fields = [field for _group, fields in self.more_groups() for field in fields]
        return any(field.errors or field.value() not in (*EMPTY, self._begins_as(field.name)) for field in fields)

    def _begins_as(self, name: str) -> Any:
        column: Any = next((one for one in self.instance._meta.concrete_fields if one.name == name), None)
        return column.get_default() if column is not None else None

    @property
    def lists(self) -> dict[str, list[str]]:
        """The lists that fields offer, by the names that they are known by."""
        found = dict(self.names)
        if "smufl" in self.fields:
            found["signs"] = list(signs())
        if "zone" in self.fields:
            found["zones"] = zones_of(getattr(self.instance, "country", ""))
        return found
