"""What a list is asked for: filtered and ordered by its address, for the page and for what is taken along."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.functional import SimpleLazyObject
from django_tables2 import RequestConfig

from catalogue.gathering.versions import state_of_lists
from catalogue.models import Performance, Work
from catalogue.web.access import CatalogueRequest
from catalogue.web.filters.drawn import drawn_questions, typed_in
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
    """A list as it was asked for: the questions, the rows in their order, and whether anything was asked at all.

    ``questions`` are the fields of the form, where they are drawn already. Where ``typed`` says that nothing was, the
    filter is not even made until somebody looks at it.
    """

    filter: Any
    table: ListTable
    questions: str = ""
    typed: bool = True

    @property
    def is_asked(self) -> bool:
        if not self.typed:
            return False
        return any(value not in (None, "", ()) for value in getattr(self.filter.form, "cleaned_data", {}).values())


def asked_works(request: CatalogueRequest) -> Asked:
    composer, ours = request.composer, Work.objects.filter(composer=request.composer)
    state = state_of_lists([composer.pk])
    typed = typed_in(WorkFilter, request.GET)
    asked = SimpleLazyObject(lambda: WorkFilter(request.GET, ours))
    table = WorkTable(asked.qs if typed else ours, composers=[composer], language=page_language())
    table.state, table.remembers = state, True
    in_order(request, table)
    questions = drawn_questions(WorkFilter, typed, lambda: asked.form, slug=composer.slug, state=state)
    return Asked(asked, table, questions, bool(typed))


def asked_performances(request: CatalogueRequest, *, today: date) -> Asked:
    composer = request.composer
    ours = Performance.objects.filter(composer=composer).with_everything_printed()
    state = state_of_lists([composer.pk])
    typed = typed_in(PerformanceFilter, request.GET)
    asked = SimpleLazyObject(lambda: PerformanceFilter(request.GET, ours, composer=composer, state=state))
    table = PerformanceTable(asked.qs if typed else ours, composers=[composer], today=today)
    table.state = state
    in_order(request, table)
    questions = drawn_questions(PerformanceFilter, typed, lambda: asked.form, slug=composer.slug, state=state)
    found = Asked(asked, table, questions, bool(typed))
    table.remembers = found.is_asked or ORDER in request.GET
    return found


def in_order(request: CatalogueRequest, table: ListTable) -> None:
    """Order the rows as the address asks, and show the columns for which it asks."""
    RequestConfig(request, paginate=False).configure(table)
    table.show_columns(request.GET.getlist(COLUMNS))
