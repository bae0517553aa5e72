"""The views of a list that are kept, and what an address asks for that can be kept as one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import DEFAULT_DB_ALIAS
from django.http import QueryDict
from django.urls import reverse

from catalogue.gathering.prepared import columns_of, values_about
from catalogue.models import SavedView
from catalogue.web.access import CatalogueRequest
from catalogue.web.records.registry import KINDS

LISTS = {"works": "work-list", "performances": "performance-list"}
PASSING = ("page",)
OF_VIEW = columns_of(SavedView)


@dataclass(frozen=True, slots=True)
class Views:
    """The kept views of a list at its address, and the query of the one that is looked at; empty for the plain list.

    ``told`` is all that the database tells of those that are kept.
    """

    table: str
    address: str
    kept: tuple[SavedView, ...]
    query: str
    told: tuple[tuple[Any, ...], ...]

    @property
    def shown(self) -> SavedView | None:
        """The kept view that is looked at, if it is one."""
        return next((one for one in self.kept if self.query and one.query == self.query), None)


def views_of(request: CatalogueRequest, table: str) -> Views:
    """Return the views of a list; one query."""
    found = values_about(asked_views, request.composer.pk, table)
    kept = tuple(SavedView.from_db(DEFAULT_DB_ALIAS, OF_VIEW, row) for row in found)
    address = address_of_list(request.composer.slug, table)
    return Views(table, address, kept, lasting(request.GET), tuple(map(tuple, found)))


def asked_views(told: Sequence[Any]) -> Any:
    composer, table = told
    return SavedView.objects.filter(composer=composer, table=table).in_name_order().values_list(*OF_VIEW)


def is_list(table: str) -> bool:
    """Whether a list is called so: works, performances, or a kind of record."""
    return table in LISTS or table in KINDS


def address_of_list(slug: str, table: str) -> str:
    return reverse(LISTS[table], args=[slug]) if table in LISTS else reverse("record-list", args=[slug, table])


def lasting(asked: QueryDict) -> str:
    """Return what of an address is worth keeping: what is filled in, in one order, without the page.

    >>> lasting(QueryDict("sort=-year&page=3&q=&category=solo&column=year&column=title"))
    'category=solo&column=year&column=title&sort=-year'
    """
    pairs = [(name, value) for name in sorted(asked) if name not in PASSING for value in asked.getlist(name) if value]
    found = QueryDict(mutable=True)
    for name, value in pairs:
        found.appendlist(name, value)
    return found.urlencode()
