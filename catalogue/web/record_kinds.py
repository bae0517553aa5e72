"""Every kind of record that has a history and can be deleted, found by its model: a new one needs no word here.

A kind is called after its model in an address. How its columns are called is taken from its form, where one is named
below, else from the model.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from django.apps import apps
from django.db import models
from django.forms import ModelForm
from django.http import Http404
from django.urls import NoReverseMatch, reverse

from catalogue.models import Composer
from catalogue.models.records import Deletable, Record
from catalogue.web.changes import typed_columns
from catalogue.web.forms.performances import PerformanceForm
from catalogue.web.forms.profile import ProfileForm
from catalogue.web.forms.works import WorkForm
from catalogue.web.records.registry import of_models

FORMS: dict[str, type[ModelForm]] = {
    "work": WorkForm,
    "performance": PerformanceForm,
    "composer": ProfileForm,
}
OWNERS = ("composer", "work", "performance")


@dataclass(frozen=True, slots=True)
class RecordKind:
    """A model, and the path from its records to their composer, empty where it is the composer."""

    word: str
    model: type[models.Model]
    path: str

    @property
    def name(self) -> str:
        return str(self.model._meta.verbose_name)

    @property
    def columns(self) -> tuple[str, ...]:
        """The columns that people write and that can be brought back."""
        owners = {f"{name}_id" for name in OWNERS} if self.word in OWNERS else {"composer_id"}
        return tuple(name for name in typed_columns(self.model) if name != "deleted_at" and name not in owners)

    def label(self, column: str) -> str:
        """Return what a column is called where it is typed."""
        field = self.model._meta.get_field(column.removesuffix("_id"))
        around = of_models().get(self.model)
        if around is not None:
            return str(around.label(field.name))
        form = FORMS.get(self.word)
        own = form.base_fields.get(field.name) if form else None
        words = str((own.label if own else None) or getattr(field, "verbose_name", field.name))
        return words[:1].upper() + words[1:]

    def of(self, composer: Composer) -> models.QuerySet[Any]:
        """Return all records of the kind in a catalogue, the deleted ones too."""
        everyone = self.model._base_manager.all()
        return everyone.filter(**{self.path: composer}) if self.path else everyone.filter(pk=composer.pk)

    def address(self, record: Any, composer: Composer) -> str:
        """Return the page of a record, or of what it belongs to; empty where it has none."""
        around = of_models().get(self.model)
        if around is not None:
            return reverse("record-detail", args=[composer.slug, around.slug, record.pk])
        for name in (f"{self.word}-detail", f"{self.word}-edit", *(f"{owner}-detail" for owner in OWNERS[1:])):
            for values in arguments(self.word, record):
                try:
                    return reverse(name, kwargs={"composer": composer.slug, **values})
                except NoReverseMatch:
                    continue
        return reverse("profile", args=[composer.slug]) if record == composer else ""


def arguments(word: str, record: Any) -> list[dict[str, int]]:
    """Return what an address of a record may name: itself, itself in a work, or the work alone."""
    owners = [(name, getattr(record, f"{name}_id", None)) for name in OWNERS[1:]]
    around = [{name: key} for name, key in owners if key is not None]
    return [{word: record.pk}, *({**one, word: record.pk} for one in around), *around]


@cache
def record_kinds() -> dict[str, RecordKind]:
    """Return the kinds by their words."""
    found = [model for model in apps.get_app_config("catalogue").get_models() if issubclass(model, Record)]
    kinds = [kind_of(model) for model in found if issubclass(model, Deletable) or model is Composer]
    return {kind.word: kind for kind in kinds}


def kind_of(model: type[models.Model]) -> RecordKind:
    fields = {field.name for field in model._meta.concrete_fields}
    owner = next((name for name in OWNERS if name in fields), "")
    path = "" if model is Composer else owner if owner == "composer" else f"{owner}__composer"
    return RecordKind(str(model._meta.model_name), model, path)


def kind_named(word: str) -> RecordKind:
    """Return a kind of record; 404 where there is none of that name."""
    try:
        return record_kinds()[word]
    except KeyError:
        raise Http404 from None
