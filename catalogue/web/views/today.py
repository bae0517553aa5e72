"""The first room: what comes, what is due, what is missing."""

from __future__ import annotations

from django.http import Http404, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_safe

from catalogue.gathering.lacks import Lack
from catalogue.gathering.versions import State, state_of_all_of
from catalogue.web.access import CatalogueRequest, material_page, member_page
from catalogue.web.call_list import closing_soon
from catalogue.web.first_room import first_room
from catalogue.web.kept_for_members import TOKEN, Page, kept_for_members
from catalogue.web.lacks import WORDINGS, all_lacking
from catalogue.web.views.library import library_today
from catalogue.web.wording import page_language


@material_page
@require_safe
def today(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/ — the coming days with what is due, and what the records lack."""
    if request.is_librarian:
        return library_today(request)
    state = state_of_all_of([request.composer.pk])
    return kept_for_members(request, state, lambda: page_of_today(request, state))


def page_of_today(request: CatalogueRequest, state: State) -> Page:
    composer, can_edit, language = request.composer, request.can_edit, page_language()
    room = first_room(state, composer, can_edit=can_edit, today=timezone.localdate(), language=language)
    closing = closing_soon(composer, now=timezone.now(), language=language)
    entries = room.entries.with_token(TOKEN)
    until = min((call.closes_at for call in closing if call.closes_at), default=None)
    context = {"room": room, "page": room.page, "entries": entries, "closing": closing}
    return Page("today/today.html", context, until)


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
