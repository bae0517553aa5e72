"""What a list is asked for: filtered and ordered by its address, for the page and for what is taken along."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django_tables2 import RequestConfig

from catalogue.gathering.versions import state_of_lists
from catalogue.models import Performance, Work
from catalogue.web.access import CatalogueRequest
from catalogue.web.filters.performances import PerformanceFilter
from catalogue.web.filters.works import WorkFilter
from catalogue.web.tables.lists import ListTable
from catalogue.web.tables.performances import PerformanceTable
from catalogue.web.tables.works import WorkTable
from catalogue.web.wording import page_language

ORDER = "sort"  # by which an address asks for another order
COLUMNS = "column"  # by which an address asks for a column to be shown


@dataclass(frozen=True, slots=True)
class Asked:
    """A list as it was asked for: the questions, the rows in their order, and whether anything was asked at all."""

    filter: Any
    table: ListTable

    @property
    def is_asked(self) -> bool:
        return any(value not in (None, "", ()) for value in getattr(self.filter.form, "cleaned_data", {}).values())


def asked_works(request: CatalogueRequest) -> Asked:
    asked = WorkFilter(request.GET, Work.objects.filter(composer=request.composer))
    table = WorkTable(asked.qs, composers=[request.composer], language=page_language())
    table.remembers = True
    RequestConfig(request, paginate=False).configure(table)
    table.show_columns(request.GET.getlist(COLUMNS))
    return Asked(asked, table)


def asked_performances(request: CatalogueRequest, *, today: date) -> Asked:
    composer = request.composer
    ours = Performance.objects.filter(composer=composer).with_everything_printed()
    state = state_of_lists([composer.pk])
    asked = PerformanceFilter(request.GET, ours, composer=composer, state=state)
    table = PerformanceTable(asked.qs, composers=[composer], today=today)
    table.state = state
    RequestConfig(request, paginate=False).configure(table)
    table.show_columns(request.GET.getlist(COLUMNS))
    found = Asked(asked, table)
    table.remembers = found.is_asked or ORDER in request.GET
    return found
