"""Keeping a list as it is looked at, and letting go of it."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import Http404, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from catalogue.models import SavedView
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.notices import say
from catalogue.web.saved_views import address_of_list, is_list, lasting


def list_address(slug: str, table: str, query: str) -> str:
    address = address_of_list(slug, table)
    return f"{address}?{query}" if query else address


@editor_page
@require_POST
def view_keep(request: CatalogueRequest, table: str) -> HttpResponse:
    """/c/<composer>/views/<table>/keep/ — keeps what a list is asked; a name that is there is given anew."""
    if not is_list(table):
        raise Http404
    query, name = lasting(QueryDict(request.POST.get("query", ""))), request.POST.get("name", "").strip()
    kept = SavedView.objects.filter(composer=request.composer, table=table, name=name).first()
    view = kept or SavedView(composer=request.composer, table=table, name=name)
    view.query = query
    try:
        view.full_clean()
    except ValidationError as refused:
        reason = _("A view needs a name.") if not name else " ".join(refused.messages)
        say(request, reason)
    else:
        view.save()
        say(request, _("“%(name)s” is kept.") % {"name": name})
    return redirect(list_address(request.composer.slug, table, query))


@editor_page
@require_POST
def view_drop(request: CatalogueRequest, savedview: int) -> HttpResponse:
    """/c/<composer>/views/<view>/drop/ — lets go of a kept view; what it listed stays as it is."""
    view = get_object_or_404(SavedView.objects.filter(composer=request.composer), pk=savedview)
    address = list_address(request.composer.slug, view.table, view.query)
    view.delete()
    say(request, _("“%(name)s” is no longer kept.") % {"name": view.name})
    return redirect(address)
