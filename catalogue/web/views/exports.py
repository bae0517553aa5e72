"""Lists to take along: what a page shows, all its pages, as a spreadsheet that an import reads again."""

from __future__ import annotations

from hashlib import sha256

from django.http import Http404, HttpResponse
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
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.asked import asked_performances, asked_works

TYPES = {
    "csv": "text/csv; charset=utf-8",
    "xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@member_page
@require_safe
def work_export(request: CatalogueRequest, suffix: str) -> HttpResponse:
    """/c/<composer>/works/export/<suffix>/ — the works that are asked for, as CSV or XLSX."""
    works = asked_works(request).table.data.data.with_everything_printed()
    return as_file(request, grid_of_works(request.composer, works), Kind.WORKS, suffix)


@member_page
@require_safe
def performance_export(request: CatalogueRequest, suffix: str) -> HttpResponse:
    """/c/<composer>/performances/export/<suffix>/ — the performances that are asked for, as CSV or XLSX."""
    performances = asked_performances(request, today=timezone.localdate()).table.data.data
    return as_file(request, grid_of_performances(request.composer, performances), Kind.PERFORMANCES, suffix)


def as_file(request: CatalogueRequest, rows: Rows, kind: Kind, suffix: str) -> HttpResponse:
    """Answer with the rows as a file; a text that XLSX cannot hold is said in place of it."""
    if suffix not in TYPES:
        raise Http404
    try:
        content = csv_of(rows) if suffix == "csv" else xlsx_of(rows, kind)
    except ExportError as fault:
        return HttpResponse(fault.reason, status=409, content_type="text/plain; charset=utf-8")
    response = HttpResponse(content, content_type=TYPES[suffix])
    response.headers["Content-Disposition"] = content_disposition_header(
        True, f"{request.composer.slug}-{kind}.{suffix}"
    )
    response.headers["ETag"] = f'"{sha256(content).hexdigest()}"'
    return response
