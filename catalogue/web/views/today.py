"""The first room: what comes, what is due, what is missing."""

from __future__ import annotations

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.gathering.lacks import Lack
from catalogue.models import Performance, Work
from catalogue.web.access import CatalogueRequest, material_page, member_page
from catalogue.web.call_list import closing_soon
from catalogue.web.hires import hires_due
from catalogue.web.lacks import WORDINGS, all_lacking, lacking
from catalogue.web.today_page import today_page
from catalogue.web.views.library import library_today
from catalogue.web.wording import page_language


@material_page
@require_safe
def today(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/ — the coming days with what is due, and what the records lack."""
    if request.is_librarian:
        return library_today(request)
    composer, day = request.composer, timezone.localdate()
    context = {
        "closing": closing_soon(composer, now=timezone.now(), language=page_language()),
        "page": today_page(
            [composer], can_edit=[composer] if request.can_edit else [], today=day, language=page_language()
        ),
        "due_back": hires_due([composer], today=day, language=page_language()),
        "lacking": lacking(composer, today=day),
        "has_works": Work.objects.filter(composer=composer).exists(),
        "has_performances": Performance.objects.filter(composer=composer).exists(),
    }
    return render(request, "today/today.html", context)


@member_page
@require_safe
def lack_list(request: CatalogueRequest, lack: str) -> HttpResponse:
    """/c/<composer>/missing/<lack>/ — the records that lack this, each with the way to mend it."""
    if lack not in set(Lack):
        raise Http404
    page, found = all_lacking(request.composer, Lack(lack), request.GET.get("page"), today=timezone.localdate())
    wording, number = WORDINGS[Lack(lack)], page.paginator.count
    context = {"page": page, "found": found, "number": number, "says": wording.says % number}
    context |= {"because": wording.because, "mend": wording.mend}
    return render(request, "today/lack_list.html", context)
