"""What a list of records can be asked: words in any of its fields, its work, and whatever one chooses from a list."""

from __future__ import annotations

from functools import cache, reduce
from operator import or_
from typing import Any, ClassVar

import django_filters as filters
from django import forms
from django.db import models
from django.db.models import CharField, Q, QuerySet, TextField
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer, Work
from catalogue.models.conditions import choices_of
from catalogue.models.fields import KindsField, SearchTextField, refuse_unprintable
from catalogue.rules.search import fold
from catalogue.terms import OrganisationKind
from catalogue.web.filters.performances import WorkFilter
from catalogue.web.filters.sets import ListFilter
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import KINDS

MOST_LISTS = 3


class RecordFilter(ListFilter):
    """Words, and the lists that the fields of a kind offer."""

    listed: ClassVar[Kind]

    q = filters.CharFilter(
        method="holding",
        label=_("Words in any field"),
        max_length=200,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"type": "search", "data-key": "/"}),
    )

    def __init__(self, *args: Any, composer: Composer, **options: Any) -> None:
        super().__init__(*args, **options)
        if "work" in self.filters:
            self.filters["work"].field.offer(Work.objects.filter(composer=composer), composer)

    def holding(self, records: QuerySet[Any], _name: str, text: str) -> QuerySet[Any]:
        return holding(self.listed, records, text)

    def of_kind(self, records: QuerySet[Any], name: str, word: str) -> QuerySet[Any]:
        return records.filter(**{f"{name}__contains": f"|{word}|"})


@cache
def filter_for(slug: str) -> type[RecordFilter]:
    """Return what the list of a kind can be asked, made once."""
    kind = KINDS[slug]
    meta = type("Meta", (), {"model": kind.model, "fields": []})
    parts: dict[str, Any] = {"listed": kind, "Meta": meta, "__module__": __name__}
    if kind.names_work:
        parts["work"] = WorkFilter(field_name="work", label=kind.label("work"), empty_label=_("All works"))
    for column in chosen_columns(kind)[:MOST_LISTS]:
        parts[column.name] = list_of(kind, column)
    return type(f"{kind.model.__name__}Filter", (RecordFilter,), parts)


def list_of(kind: Kind, column: Any) -> filters.ChoiceFilter:
    words: dict[str, Any] = {"label": kind.label(column.name), "empty_label": _("Any")}
    if isinstance(column, KindsField):
        return filters.ChoiceFilter(choices=choices_of(OrganisationKind), method="of_kind", **words)
    return filters.ChoiceFilter(field_name=column.name, choices=[one for one in column.choices if one[0]], **words)


def chosen_columns(kind: Kind) -> list[Any]:
    """Return the columns in which one chooses from a list of words, in the order of the form."""
    columns = {column.name: column for column in kind.model._meta.concrete_fields}
    named = [columns[name] for name in kind.names if name in columns]
    return [one for one in named if isinstance(one, KindsField) or (isinstance(one, CharField) and one.choices)]


# ---- words in any field


def holding(kind: Kind, records: QuerySet[Any], text: str) -> QuerySet[Any]:
    """Return the records that hold every word in one of their fields, or in what they name; case and marks apart."""
    for word in fold(text).split():
        records = records.filter(holds(kind.model, word))
    return records


def holds(model: type[models.Model], word: str) -> Q:
    places = places_of(model)
    return reduce(or_, (Q(**{place: word}) for place in places))


@cache
def places_of(model: type[models.Model]) -> tuple[str, ...]:
    """Return where a word is looked for: folded texts of the record and of those it names, and other columns as typed.

    >>> from catalogue.models import BilledName
    >>> places_of(BilledName)
    ('search_text__contains', 'language__icontains', 'person__search_text__contains',
     'organisation__search_text__contains')
    """
    columns: list[Any] = [one for one in model._meta.concrete_fields if one.name not in {"composer", "deleted_by"}]
    folded = next(one for one in columns if isinstance(one, SearchTextField))
    plain = [
        one.name
        for one in columns
        if isinstance(one, CharField | TextField) and one.editable and one.name not in folded.of
    ]
    others = [one.name for one in columns if one.is_relation and is_searched(one.related_model)]
    return (
        "search_text__contains",
        *(f"{name}__icontains" for name in plain),
        *(f"{name}__search_text__contains" for name in others),
    )


def is_searched(model: Any) -> bool:
    return any(isinstance(one, SearchTextField) for one in model._meta.concrete_fields)
