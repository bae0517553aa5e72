"""The pages of all composers together, for whoever keeps several: what comes, works, performances, sets and calls.

Each shows what the memberships of whoever asks allow, and nothing of other catalogues.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe
from django_tables2 import RequestConfig

from catalogue.exchange.columns import Kind
from catalogue.exchange.exporting import grid_of_house_performances, grid_of_house_works
from catalogue.gathering.hires import with_due
from catalogue.models import Call, Hire, Performance, Work
from catalogue.web.access import READERS, READERS_OF_MATERIAL, HouseRequest, house_page
from catalogue.web.asked import COLUMNS, Asked
from catalogue.web.filters.house import HousePerformanceFilter, HouseWorkFilter
from catalogue.web.filters.house_calls import HouseCallFilter
from catalogue.web.filters.house_hires import HouseHireFilter
from catalogue.web.house import HOUSE, composers_as, edited, theirs, whose
from catalogue.web.house_room import house_room, room_now
from catalogue.web.tables.house import HousePerformanceTable, HouseWorkTable
from catalogue.web.tables.house_calls import HouseCallTable
from catalogue.web.tables.house_hires import HouseHireTable
from catalogue.web.tables.lists import AT_ONCE, ListTable
from catalogue.web.views.exports import as_file, wants_everything
from catalogue.web.wording import page_language


@house_page
@require_safe
def house_today(request: HouseRequest) -> HttpResponse:
    """/house/ — the coming days of all composers: performances, what is due, calls that close, sets due back."""
    language, asked = page_language(), whose(request, READERS)
    room = house_room(asked.chosen, can_edit=edited(request), today=timezone.localdate(), language=language)
    now = room_now(room, asked.chosen, request, now=timezone.now(), language=language)
    return render(request, "house/today.html", {"whose": asked, "room": room, "now": now})


@house_page
@require_safe
def house_works(request: HouseRequest) -> HttpResponse:
    """/house/works/ — the works of all composers, searched, filtered and ordered."""
    return list_page(request, asked_works(request), "house/work_list.html")


@house_page
@require_safe
def house_performances(request: HouseRequest) -> HttpResponse:
    """/house/performances/ — the performances of all composers, searched, filtered and ordered."""
    return list_page(request, asked_performances(request), "house/performance_list.html")


def list_page(request: HouseRequest, asked: Asked, template: str) -> HttpResponse:
    asked.table.turn_to(request.GET.get("page"))
    return render(request, template, {"filter": asked.filter, "table": asked.table, "is_asked": asked.is_asked})


@house_page
@require_safe
def house_hires(request: HouseRequest) -> HttpResponse:
    """/house/hires/ — the hires of all composers that are not back yet, or those that are asked for."""
    return list_page(request, asked_hires(request), "house/hires.html")


@house_page
@require_safe
def house_calls(request: HouseRequest) -> HttpResponse:
    """/house/calls/ — the open calls of all composers, the next to close first, or those that are asked for."""
    return list_page(request, asked_calls(request), "house/calls.html")


# ---- taken along


@house_page
@require_safe
def house_work_export(request: HouseRequest, suffix: str) -> HttpResponse:
    """/house/works/export/<suffix>/ — the works that are asked for, as CSV or XLSX."""
    table = asked_works(request).table
    found = table.data.data.with_everything_printed().select_related("composer")
    return along(request, table, grid_of_house_works, found, Kind.WORKS, suffix)


@house_page
@require_safe
def house_performance_export(request: HouseRequest, suffix: str) -> HttpResponse:
    """/house/performances/export/<suffix>/ — the performances that are asked for, as CSV or XLSX."""
    table = asked_performances(request).table
    found = table.data.data.select_related("venue", "presenter", "composer")
    return along(request, table, grid_of_house_performances, found, Kind.PERFORMANCES, suffix)


@house_page
@require_safe
def house_hire_export(request: HouseRequest, suffix: str) -> HttpResponse:
    """/house/hires/export/<suffix>/ — the hires that are asked for, as CSV or XLSX."""
    return as_file(request, asked_hires(request).table.grid(), "hires", suffix, whose=HOUSE)


@house_page
@require_safe
def house_call_export(request: HouseRequest, suffix: str) -> HttpResponse:
    """/house/calls/export/<suffix>/ — the calls that are asked for, as CSV or XLSX."""
    return as_file(request, asked_calls(request).table.grid(), "calls", suffix, whose=HOUSE)


def along(
    request: HouseRequest, table: ListTable, grid_of: Callable[[Any], Any], found: Any, kind: Kind, suffix: str
) -> HttpResponse:
    """Send the columns that are shown, or all of the records that were ``found``."""
    rows = grid_of(found.iterator(chunk_size=AT_ONCE)) if wants_everything(request) else table.grid()
    return as_file(request, rows, kind, suffix, whose=HOUSE)


def asked_works(request: HouseRequest) -> Asked:
    ours = composers_as(request, READERS)
    asked = HouseWorkFilter(request.GET, Work.objects.filter(theirs(ours)), composers=ours)
    table = HouseWorkTable(asked.qs, composers=ours, language=page_language())
    return as_asked(request, asked, table)


def asked_performances(request: HouseRequest) -> Asked:
    ours = composers_as(request, READERS)
    found = Performance.objects.filter(theirs(ours)).with_everything_printed()
    asked = HousePerformanceFilter(request.GET, found, composers=ours)
    return as_asked(request, asked, HousePerformanceTable(asked.qs, composers=ours, today=timezone.localdate()))


def asked_hires(request: HouseRequest) -> Asked:
    ours, today = composers_as(request, READERS_OF_MATERIAL), timezone.localdate()
    asked = HouseHireFilter(request.GET, with_due(Hire.objects.filter(theirs(ours))), composers=ours)
    table = HouseHireTable(asked.qs, composers=ours, today=today, language=page_language())
    return as_asked(request, asked, table, remembers=False)


def asked_calls(request: HouseRequest) -> Asked:
    ours, now = composers_as(request, READERS), timezone.now()
    asked = HouseCallFilter(request.GET, Call.objects.filter(theirs(ours)), composers=ours)
    table = HouseCallTable(asked.qs, composers=ours, now=now, language=page_language())
    return as_asked(request, asked, table, remembers=False)


def as_asked(request: HouseRequest, asked: Any, table: ListTable, *, remembers: bool = True) -> Asked:
    table.remembers = remembers
    RequestConfig(request, paginate=False).configure(table)
    table.show_columns(table.columns.names() if wants_everything(request) else request.GET.getlist(COLUMNS))
    return Asked(asked, table)
