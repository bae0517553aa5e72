"""What a list is asked for: filtered and ordered by its address, for the page and for what is taken along."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils.functional import SimpleLazyObject
from django_tables2 import RequestConfig

from catalogue.gathering.versions import State, state_of_lists, state_of_works
from catalogue.models import Composer, Performance, Work
from catalogue.web.access import CatalogueRequest
from catalogue.web.filters.drawn import drawn_questions, typed_in
from catalogue.web.filters.performances import PerformanceFilter
from catalogue.web.filters.works import WorkFilter
from catalogue.web.tables.lists import ListTable
from catalogue.web.tables.performance_orders import (
    COUNTED,
    YEARS,
    AnyGroup,
    group_in_country,
    group_with,
    groups_in_order,
    groups_of_years,
)
from catalogue.web.tables.performance_words import GroupHolding, group_holding
from catalogue.web.tables.performances import PerformanceTable
from catalogue.web.tables.works import Asks, WorkTable
from catalogue.web.wording import page_language

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


def asked_works(request: CatalogueRequest, state: State | None = None) -> Asked:
    """Return the works that are asked for; ``state`` where it is known already."""
    composer, ours = request.composer, Work.objects.filter(composer=request.composer)
    state = state or state_of_lists([composer.pk])
    typed = typed_in(WorkFilter, request.GET)
    asked = SimpleLazyObject(lambda: WorkFilter(request.GET, ours))
    table = WorkTable(asked.qs if typed else ours, composers=[composer], language=page_language())
    table.state, table.remembers = state, True
    table.asks = Asks.NOTHING if not typed else Asks.ANYTHING if "q" in dict(typed) else Asks.WORKS
    in_order(request, table)
    of_works = state_of_works(state)
    questions = drawn_questions(WorkFilter, typed, lambda: asked.form, slug=composer.slug, state=of_works)
    return Asked(asked, table, questions, bool(typed))


def asked_performances(request: CatalogueRequest, *, today: date, state: State | None = None) -> Asked:
    """Return the performances that are asked for; ``state`` where it is known already."""
    composer = request.composer
    ours = Performance.objects.filter(composer=composer).with_everything_printed()
    state = state or state_of_lists([composer.pk])
    typed = typed_in(PerformanceFilter, request.GET)
    asked = SimpleLazyObject(lambda: PerformanceFilter(request.GET, ours, composer=composer, state=state))
    table = PerformanceTable(asked.qs if typed else ours, composers=[composer], today=today)
    table.state = state
    in_order(request, table)
    questions = drawn_questions(PerformanceFilter, typed, lambda: asked.form, slug=composer.slug, state=state)
    found = Asked(asked, table, questions, bool(typed))
    table.groups = grouped(found, composer)
    table.remembers = found.is_asked or not is_usual(table)
    return found


def grouped(asked: Asked, composer: Composer) -> Sequence[AnyGroup | GroupHolding] | None:
    """Return the groups in which performances stand, where nothing is asked but an order, or years, words or one thing
    that is counted.

    None where they stand in none.
    """
    table = asked.table
    if not asked.is_asked:
        return groups_in_order(table.order_by[0], composer, table.state) if len(table.order_by) == 1 else None
    given = {name: value for name, value in asked.filter.form.cleaned_data.items() if value not in (None, "", ())}
    if not is_usual(table):
        return None
    if set(given) <= set(YEARS):
        since, until = (int(given[name]) if name in given else None for name in YEARS)
        return groups_of_years(since, until, composer, table.state)
    ((name, value), *more) = given.items()
    if more or name not in (*COUNTED, "country", "q"):
        return None
    if name == "q":
        held = group_holding(value, composer, table.state)
        return None if held is None else (held,)
    if name == "country":
        return (group_in_country(value, composer, table.state),)
    return (group_with(name, value, composer, table.state),)


def is_usual(table: ListTable) -> bool:
    """Whether performances are in the order in which they are where none is asked for."""
    return tuple(table.order_by) == (PerformanceTable.Meta.order_by,)


def in_order(request: CatalogueRequest, table: ListTable) -> None:
    """Order the rows as the address asks, and show the columns for which it asks."""
    RequestConfig(request, paginate=False).configure(table)
    table.show_columns(request.GET.getlist(COLUMNS))
