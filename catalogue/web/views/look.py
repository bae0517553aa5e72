"""How a composer's documents look: chosen, adjusted, and shown while it is being chosen."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256
from typing import Any
from urllib.parse import urlencode

from csp.decorators import csp_update
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from catalogue.documents.labels import LANGUAGES
from catalogue.documents.model import Paper
from catalogue.documents.registry import render as render_document
from catalogue.gathering.logos import logo_of
from catalogue.making import Wish, make_document
from catalogue.models import Composer, Work
from catalogue.terms import Role
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.composer_forms import Kept, keep
from catalogue.web.forms.look import LookForm
from catalogue.web.notices import say

SHOWN = 6
"""How many works the page shows that is looked at while choosing."""
SELF = "'self'"
SHUT = "default-src 'none'; style-src 'sha256-{style}'; img-src data:; frame-ancestors 'self'; sandbox"
"""What the shown document may do: be styled by itself, show its logo, and stand in our own page."""


@csp_update({"frame-src": [SELF]})
@editor_page
@require_http_methods(["GET", "POST"])
def look(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/look/ — the house style with its adjustments, and a document that wears them."""
    composer = request.composer
    asked = request.POST if request.method == "POST" else request.GET if "house_style" in request.GET else None
    kept = Kept(LookForm(asked, instance=composer))
    is_right = not kept.form.is_bound or kept.form.is_valid()
    answers = urlencode(kept.form.answers()) if asked and is_right else ""
    if request.method == "POST" and is_right and "show" not in request.POST:
        kept = keep(kept.form)
        if kept.is_saved:
            say(request, _("The look of documents is saved."))
            return redirect("look", composer.slug)
    context: dict[str, Any] = {"form": kept.form, "conflict": kept.conflict, "is_right": is_right, "asked": answers}
    context["logo"] = logo_of(composer)
    context |= {"house": composer.house if composer.house_id else None, "is_owner": request.role == Role.OWNER}
    return render(request, "profile/look.html", context)


@editor_page
@require_safe
def look_shown(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/profile/look/shown/ — a works list in the look that is being chosen, as it is exported."""
    composer = request.composer
    form = LookForm(request.GET if "house_style" in request.GET else None, instance=composer)
    if form.is_bound and not form.is_valid():
        composer.refresh_from_db()
    page = shown(composer)
    style = b64encode(sha256(page.partition(b"<style>")[2].partition(b"</style>")[0]).digest()).decode()
    response = HttpResponse(page, content_type="text/html; charset=utf-8")
    response.headers["Content-Security-Policy"] = SHUT.format(style=style)
    response.headers["X-Frame-Options"] = "SAMEORIGIN"
    return response


def shown(composer: Composer) -> bytes:
    works = Work.objects.filter(composer=composer).order_by("pk").values_list("pk", flat=True)
    language = composer.language if composer.language in LANGUAGES else LANGUAGES[0]
    wish = Wish("works-list-by-category", language, Paper.A4, timezone.localdate(), works=tuple(works[:SHOWN]))
    return render_document(make_document(composer, wish), "html")
