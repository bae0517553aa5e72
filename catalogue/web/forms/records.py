"""The forms of records around works, made from the description of their kind.

A person or an organisation is picked by its name; one that the catalogue does not have yet is added with the record.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
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
from catalogue.models.kept import KeptOfWork, Somebody
from catalogue.rules.search import fold
from catalogue.web.forms.columns import NamedField
from catalogue.web.forms.work_field import WorkField
from catalogue.web.forms.works import Group
from catalogue.web.lookalikes import records_alike, somebody_alike
from catalogue.web.places import write_country, zones_of
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import MATERIAL

NAMED = (Person, Organisation, Venue)
EMPTY: tuple[object, ...] = (None, "", (), [], False, 0, "0", "none")
MOST_OFFERED = 200
NAMED_WITH: dict[type[models.Model], tuple[str, ...]] = {
    Performance: ("venue",), Edition: ("publisher", "work"), MaterialSet: ("work",), Recording: ("work",),
    TechnicalSetup: ("work",),
}  # fmt: skip
"""What has to be fetched along for another record to be named."""


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
