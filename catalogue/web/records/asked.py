"""A list of records as its address asks for it: for the page, and for what is taken along."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import PermissionDenied
from django.db import models
from django.http import Http404
from django_tables2 import RequestConfig

from catalogue.models import Sending, StoredFile
from catalogue.web.access import CatalogueRequest
from catalogue.web.asked import COLUMNS, Asked
from catalogue.web.filters.records import filter_for
from catalogue.web.forms.documents import PAPERS_OF_MATERIAL
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import FILES_OF_MATERIAL, KINDS, MATERIAL
from catalogue.web.records.tables import table_for
from catalogue.web.wording import page_language


def kind_or_404(request: CatalogueRequest, sort: str) -> Kind:
    """Return the kind of that name; 404 where there is none, and a librarian is refused what is not theirs."""
    if sort not in KINDS:
        raise Http404
    if request.is_librarian and KINDS[sort] not in MATERIAL:
        raise PermissionDenied
    return KINDS[sort]


def records_for(request: CatalogueRequest, kind: Kind) -> Any:
    """Return the records of a kind that whoever asks may see."""
    return for_librarian(kind.model, kind.of(request.composer)) if request.is_librarian else kind.of(request.composer)


def for_librarian(model: type[models.Model], found: Any) -> Any:
    """Return what a librarian sees of these records: of the files and the papers sent, those of scores and parts."""
    if model is StoredFile:
        return found.filter(kind__in=FILES_OF_MATERIAL)
    return found.filter(document__in=PAPERS_OF_MATERIAL) if model is Sending else found


def opened_by(request: CatalogueRequest) -> tuple[Kind, ...]:
    """Return the kinds of record to which links lead."""
    return MATERIAL if request.is_librarian else tuple(KINDS.values())


def asked_records(request: CatalogueRequest, kind: Kind, *, with_all: bool = False) -> Asked:
    """Return the records of a kind as they are asked for, ``with_all`` of their columns or those that are shown."""
    asked = filter_for(kind.slug)(request.GET, records_for(request, kind), composer=request.composer)
    slug, opens = request.composer.slug, opened_by(request)
    table = table_for(kind.slug)(asked.qs, slug=slug, opens=opens, language=page_language())
    RequestConfig(request, paginate=False).configure(table)
    table.show_columns(table.columns.names() if with_all else request.GET.getlist(COLUMNS))
    return Asked(asked, table)
