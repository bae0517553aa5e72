"""The views of a list that are kept, and what an address asks for that can be kept as one."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import QueryDict

from catalogue.models import SavedView
from catalogue.web.access import CatalogueRequest

LISTS = {"works": "work-list", "performances": "performance-list"}
PASSING = ("page",)


@dataclass(frozen=True, slots=True)
class Views:
    """The kept views of a list, and the query of the one that is looked at; empty for the plain list."""

    table: str
    address: str
    kept: tuple[SavedView, ...]
    query: str

    @property
    def shown(self) -> SavedView | None:
        """The kept view that is looked at, if it is one."""
        return next((one for one in self.kept if self.query and one.query == self.query), None)


def views_of(request: CatalogueRequest, table: str) -> Views:
    """Return the views of a list; one query."""
    kept = SavedView.objects.filter(composer=request.composer, table=table).in_name_order()
    return Views(table, LISTS[table], tuple(kept), lasting(request.GET))


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
