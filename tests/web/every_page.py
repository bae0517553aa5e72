"""Every page of the site by its address, found in the table of addresses: a page that is added is among them.

Whoever walks over all pages takes the list from here, so that none can be forgotten. What varies in an address is
taken from the records of the catalogue at hand, else made for it.
"""

from __future__ import annotations

from typing import Any

from django.apps import apps
from django.db import models
from django.urls import get_resolver, reverse

from catalogue.models import Composer
from catalogue.web.forms.documents import FORMS
from catalogue.web.lacks import WORDINGS
from catalogue.web.record_kinds import record_kinds
from catalogue.web.records.registry import KINDS
from tests.web.test_every_address_by_role import TABLE, values


def page_names() -> list[str]:
    """Return the names of the addresses that answer with a page of their own."""
    return [name for name, row in TABLE.items() if row["get"] == 200 and not row.get("file")]


def variables(name: str) -> list[str]:
    """Return what varies in an address, in its order."""
    return [part for pattern in get_resolver().reverse_dict.getlist(name) for part in pattern[0][0][1]]


def addresses_of(name: str, composer: Composer, most: int | None = None) -> list[str]:
    """Return the addresses of that name in a catalogue, of at most so many records."""
    varying = [part for part in variables(name) if part != "composer"]
    shared = {"composer": composer.slug} if "composer" in variables(name) else {}
    timed = name.startswith("timing-")
    found = choices(varying, composer, most, timed=timed) if varying else [{}]
    if name == "record-new":  # what begins at another page leads there
        found = [one for one in found if not KINDS[one["sort"]].begins_at]
    return [reverse(name, kwargs=shared | one) for one in found or [values(name, composer)]]


def choices(varying: list[str], composer: Composer, most: int | None, *, timed: bool) -> list[dict[str, Any]]:
    """Return what can stand in an address; nothing where the catalogue holds no such record.

    ``timed`` puts the works that have a tempo map first.
    """
    if varying == ["kind", "record"]:
        kinds = record_kinds().values()
        return [
            {"kind": kind.word, "record": one.pk} for kind in kinds for one in kind.of(composer).order_by("pk")[:most]
        ]
    words = {"kind": list(FORMS), "lack": list(WORDINGS)}
    if varying[0] == "sort":
        return choices_of_records(varying, composer, most)
    if varying[-1] in words:
        return [{varying[-1]: word} for word in words[varying[-1]]]
    model = next(
        (one for one in apps.get_app_config("catalogue").get_models() if one.__name__.lower() == varying[-1]), None
    )
    if model is None or {"token", "name"} & set(varying):
        return []
    records = of_composer(model, composer).order_by(*(["-tempo_map"] if timed else []), "pk")[:most]
    return [
        {varying[-1]: record.pk, **{part: getattr(record, f"{part}_id") for part in varying[:-1]}} for record in records
    ]


def choices_of_records(varying: list[str], composer: Composer, most: int | None) -> list[dict[str, Any]]:
    """Return the kinds of records, and of each kind so many records where one is asked for."""
    if varying == ["sort"]:
        return [{"sort": slug} for slug in KINDS]
    if varying[-1] != "record":
        return []
    return [{"sort": slug, "record": one.pk} for slug, kind in KINDS.items() for one in kind.of(composer)[: most or 3]]


def of_composer(model: type[models.Model], composer: Composer) -> models.QuerySet[Any]:
    """Return the records of a composer, through the record that they belong to where they name none themselves."""
    columns = {field.name for field in model._meta.get_fields()}
    owner = next(path for path in ("composer", "composers", "work", "performance", "rider") if path in columns)
    path = owner if owner.startswith("composer") else f"{owner}__composer"
    manager: models.Manager[Any] = model.objects
    return manager.filter(**{path: composer})
