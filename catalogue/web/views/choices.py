"""The page on which the works for a call are chosen: three good answers, by what counts and what must be in or out."""

from __future__ import annotations

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.calls import AlreadySent, choose_works
from catalogue.gathering import gather_for_calls
from catalogue.gathering.marks import gather_marks
from catalogue.models import Call, Work
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.choice_page import choice_page
from catalogue.web.forms.choices import ChoiceForm
from catalogue.web.notices import say


@member_page
@require_safe
def call_choice(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/choice/ — which works to send together, by one's own weights."""
    found = get_object_or_404(Call.objects.filter(composer=request.composer), pk=call)
    form = ChoiceForm(request.GET or None)
    asked = form.cleaned_data if form.is_bound and form.is_valid() else {}
    pinned, banned = numbers(request.GET.getlist("pin")), numbers(request.GET.getlist("ban"))
    told = gather_for_calls(request.composer), gather_marks(request.composer)
    page = choice_page(found, *told, asked, pinned=pinned, banned=banned)
    return render(request, "calls/call_choice.html", {"call": found, "form": form, "page": page})


def numbers(texts: list[str]) -> frozenset[int]:
    return frozenset(int(text) for text in texts if text.isdecimal() and len(text) < 10)


@editor_page
@require_POST
def call_set(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/set/ — the works of an answer become the ones that are chosen."""
    found = get_object_or_404(Call.objects.filter(composer=request.composer), pk=call)
    wanted = [int(text) for text in request.POST.getlist("work") if text.isdecimal() and len(text) < 10]
    works = Work.objects.filter(composer=request.composer).in_bulk(wanted)
    try:
        choose_works(call=found, works=[works[pk] for pk in dict.fromkeys(wanted) if pk in works])
    except AlreadySent as refused:
        say(request, refused.reason)
    return redirect(reverse("call-detail", args=[request.composer.slug, found.pk]) + "#chosen")
