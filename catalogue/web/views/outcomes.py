"""What became of all that was ever sent: by call, and work by work."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.outcome_page import outcome_page
from catalogue.web.wording import page_language


@member_page
@require_safe
def outcome_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calls/outcomes/ — every submission that has left the house, and what was said to it."""
    page = outcome_page(request.composer, language=page_language())
    return render(request, "calls/outcome_list.html", {"page": page})
