"""A catalogue as a librarian sees it: the sets, what they go out for, works with forces and parts, and nothing else.

Reached from the addresses that everybody's pages have, for members with that role.
"""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django_tables2 import RequestConfig

from catalogue.models import Performance, Work
from catalogue.web.access import CatalogueRequest
from catalogue.web.filters.library import LibraryPerformanceFilter, LibraryWorkFilter
from catalogue.web.house import sets_page
from catalogue.web.library import coming_for_librarian, library_performance_of, library_work_of
from catalogue.web.tables.library import LibraryPerformanceTable, LibraryWorkTable
from catalogue.web.tables.lists import ListTable
from catalogue.web.wording import page_language


def library_today(request: CatalogueRequest) -> HttpResponse:
    """Show which sets are overdue, out or to be sent, and what is coming."""
    composer, day, language = request.composer, timezone.localdate(), page_language()
    page = sets_page([composer], today=day, language=language)
    coming = coming_for_librarian(composer, today=day, language=language)
    return render(request, "library/today.html", {"page": page, "coming": coming})


def library_works(request: CatalogueRequest) -> HttpResponse:
    composer = request.composer
    asked = LibraryWorkFilter(request.GET, Work.objects.filter(composer=composer))
    table = LibraryWorkTable(asked.qs, composers=[composer], language=page_language())
    return list_page(request, asked, table, "library/work_list.html")


def library_performances(request: CatalogueRequest) -> HttpResponse:
    ours = Performance.objects.filter(composer=request.composer).with_everything_printed()
    asked = LibraryPerformanceFilter(request.GET, ours, composers=[request.composer])
    table = LibraryPerformanceTable(asked.qs, composers=[request.composer], today=timezone.localdate())
    return list_page(request, asked, table, "library/performance_list.html")


def list_page(request: CatalogueRequest, asked: Any, table: ListTable, template: str) -> HttpResponse:
    RequestConfig(request, paginate=False).configure(table)
    table.turn_to(request.GET.get("page"))
    return render(request, template, {"filter": asked, "table": table})


def library_work(request: CatalogueRequest, work: int) -> HttpResponse:
    """Show a work with its forces, its editions, sets and hires, and when it is played."""
    found = get_object_or_404(Work.objects.filter(composer=request.composer).select_related("composer"), pk=work)
    page = library_work_of(found, today=timezone.localdate(), language=page_language())
    return render(request, "library/work_detail.html", {"page": page, "work": found})


def library_performance(request: CatalogueRequest, performance: int) -> HttpResponse:
    """Show when and where a performance is, and the material of its works."""
    ours = Performance.objects.filter(composer=request.composer).with_everything_printed()
    found = get_object_or_404(ours.select_related("composer", "venue"), pk=performance)
    page = library_performance_of(found, today=timezone.localdate(), language=page_language())
    return render(request, "library/performance_detail.html", {"page": page})
