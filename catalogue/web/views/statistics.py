"""What a performance history adds up to: the page, and its tables to take along."""

from __future__ import annotations

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.rules.statistics import IDLE_YEARS
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.statistics_page import TABLES, YEARS_OFFERED, figures_of, statistics_page, table_of
from catalogue.web.views.exports import as_file
from catalogue.web.wording import page_language


@member_page
@require_safe
def statistics(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/statistics/ — minutes, countries, ensembles, works; ``?years=`` of silence."""
    asked = request.GET.get("years", "")
    years = int(asked) if asked in map(str, YEARS_OFFERED) else IDLE_YEARS
    page = statistics_page(request.composer, years=years, today=timezone.localdate(), language=page_language())
    context = {"page": page, "years": years, "offered": YEARS_OFFERED}
    return render(request, "performances/statistics.html", context)


@member_page
@require_safe
def statistics_export(request: CatalogueRequest, table: str, suffix: str) -> HttpResponse:
    """/c/<composer>/performances/statistics/<table>/<suffix>/ — one of the tables, as CSV or XLSX."""
    if table not in TABLES:
        raise Http404
    found = figures_of(request.composer, today=timezone.localdate())
    return as_file(request, table_of(found, table), table, suffix, whose=request.composer.slug)
