"""Lists to take along: what a page shows, all its pages, with the columns that it shows.

With ``columns=all`` in the address every column comes along; of works and performances under the headers and in the
form that an import reads.
"""

from __future__ import annotations

from hashlib import sha256

from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.views.decorators.http import require_safe

from catalogue.exchange.columns import Kind
from catalogue.exchange.exporting import (
    ExportError,
    Rows,
    csv_of,
    grid_of_performances,
    grid_of_works,
    xlsx_of,
)
from catalogue.web.access import CatalogueRequest, material_page, member_page
from catalogue.web.asked import asked_performances, asked_works
from catalogue.web.records.asked import asked_records, kind_or_404
from catalogue.web.tables.lists import AT_ONCE

TYPES = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@member_page
@require_safe
def work_export(request: CatalogueRequest, suffix: str) -> HttpResponse:
    """/c/<composer>/works/export/<suffix>/ — the works that are asked for, as CSV or XLSX."""
    table = asked_works(request).table
    if wants_everything(request):
        works = table.data.data.with_everything_printed().iterator(chunk_size=AT_ONCE)
        rows = grid_of_works(request.composer, works)
    else:
        rows = table.grid()
    return as_file(request, rows, Kind.WORKS, suffix, whose=request.composer.slug)


@member_page
@require_safe
def performance_export(request: CatalogueRequest, suffix: str) -> HttpResponse:
    """/c/<composer>/performances/export/<suffix>/ — the performances that are asked for, as CSV or XLSX."""
    table = asked_performances(request, today=timezone.localdate()).table
    if wants_everything(request):
        rows = grid_of_performances(request.composer, table.data.data.iterator(chunk_size=AT_ONCE))
    else:
        rows = table.grid()
    return as_file(request, rows, Kind.PERFORMANCES, suffix, whose=request.composer.slug)


@material_page
@require_safe
def record_export(request: CatalogueRequest, sort: str, suffix: str) -> HttpResponse:
    """/c/<composer>/records/<sort>/export/<suffix>/ — the records that are asked for, as CSV or XLSX."""
    kind = kind_or_404(request, sort)
    rows = asked_records(request, kind, with_all=wants_everything(request)).table.grid()
    return as_file(request, rows, sort, suffix, whose=request.composer.slug)


def wants_everything(request: HttpRequest) -> bool:
    return request.GET.get("columns") == "all"


def as_file(request: HttpRequest, rows: Rows, kind: str, suffix: str, *, whose: str) -> HttpResponse:
    """Answer with the rows as a file named after whose they are; a text that XLSX cannot hold is said instead."""
    if suffix not in TYPES:
        raise Http404
    try:
        content = csv_of(rows) if suffix == "csv" else xlsx_of(rows, kind)
    except ExportError as fault:
        return HttpResponse(fault.reason, status=409, content_type="text/plain; charset=utf-8")
    response = HttpResponse(content, content_type=TYPES[suffix])
    name = f"{whose}-{kind}{'-all' if wants_everything(request) else ''}.{suffix}"
    response.headers["Content-Disposition"] = content_disposition_header(True, name)
    response.headers["ETag"] = f'"{sha256(content).hexdigest()}"'
    return response
