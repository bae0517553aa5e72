"""Which records go along when a composer's catalogue is handed over, in an order in which each finds what it names.

The house, members and their calendars, secret addresses, what was imported and merged, and lists as they are looked at
stay: they say how the catalogue was kept here. The history stays too; what arrives begins one of its own.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from django.apps import apps
from django.db import models

from catalogue.exchange.backups.lines import told_columns
from catalogue.models import (
    CalendarAddress,
    Composer,
    FileLink,
    HandOver,
    ImportBatch,
    ImportedRecord,
    LinkedFile,
    Membership,
    Merge,
    RiderSending,
    SavedView,
    SetApart,
)

Model = type[models.Model]
STAYS: frozenset[Model] = frozenset(
    {
        CalendarAddress,
        FileLink,
        HandOver,
        ImportBatch,
        ImportedRecord,
        LinkedFile,
        Membership,
        Merge,
        SavedView,
        SetApart,
    }
)
UNTOLD: dict[Model, frozenset[str]] = {
    Composer: frozenset({"slug", "is_public", "feed_is_public"}),
    RiderSending: frozenset({"token_sha256"}),
}
"""Columns that stay: where public pages are found and whether they are open, and what opens a secret address."""


@cache
def carried() -> tuple[Model, ...]:
    """Return the models that go along, the composer first, each after those that its records name."""
    waiting = sorted(of_composers() - STAYS - {Composer}, key=lambda model: model.__name__)
    found: list[Model] = [Composer]
    while waiting:
        ready = next(model for model in waiting if named_by(model) <= {*found, model})
        waiting.remove(ready)
        found.append(ready)
    return tuple(found)


@cache
def of_composers() -> frozenset[Model]:
    """Return the models whose records each belong to a composer, without those that hold the history."""
    waiting = {model for model in apps.get_app_config("catalogue").get_models() if not hasattr(model, "history_id")}
    found: set[Model] = {Composer}
    while more := {model for model in waiting - found if must_name(model) & found}:
        found |= more
    return frozenset(found)


def must_name(model: Model) -> set[Any]:
    """Return the models of which each record of this one names a record."""
    return {column.related_model for column in model._meta.concrete_fields if column.is_relation and not column.null}


def named_by(model: Model) -> set[Any]:
    return {column.related_model for column in references_of(model)}


def references_of(model: Model) -> list[Any]:
    """Return the columns that name another record that goes along."""
    return [
        column
        for column in model._meta.concrete_fields
        if column.is_relation and column.related_model in of_composers() - STAYS
    ]


@cache
def way_to_composer(model: Model) -> str:
    """Return how a record of the model leads to its composer, as a question names it.

    >>> from catalogue.models import Composer, Movement, RiderAnswer, Work
    >>> [way_to_composer(model) for model in (Composer, Work, Movement, RiderAnswer)]
    ['pk', 'composer', 'work__composer', 'sending__rider__composer']
    """
    if model is Composer:
        return "pk"
    needed = [column for column in references_of(model) if not column.null and column.related_model is not model]
    direct = [column for column in needed if column.related_model is Composer]
    if direct:
        return str(direct[0].name)
    return f"{needed[0].name}__{way_to_composer(needed[0].related_model)}"


def columns_of(model: Model) -> dict[str, Any]:
    """Return the columns that are told, by name; who deleted a record is not, nor what points to what stays."""
    untold = UNTOLD.get(model, frozenset())
    return {
        column.attname: column
        for column in told_columns(model)
        if column.name not in untold and (not column.is_relation or column in references_of(model))
    }


def records_of(model: Model, composer: int, alias: str) -> models.QuerySet[Any]:
    """Return a composer's records of a model, also those that were deleted."""
    ours = model._base_manager.using(alias).filter(**{way_to_composer(model): composer})
    return ours.order_by("pk")
