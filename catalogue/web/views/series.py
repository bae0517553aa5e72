"""A series, a tour or a festival as a whole, and saying of a step that it is done for all of it."""

from __future__ import annotations

from django.db import transaction
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import urlencode
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.journeys import mark_step
from catalogue.models.fields import LINE
from catalogue.terms import StepKind, StepState
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.journeys import STATES, STEPS
from catalogue.web.notices import say
from catalogue.web.series_page import all_series, open_stages, performances_of_series, series_page
from catalogue.web.wording import page_language


@member_page
@require_safe
def series(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/series/ — every series; with ``?name=`` one of them, its evenings and its works."""
    name = name_asked(request)
    if not name:
        return render(request, "performances/series_list.html", {"found": all_series(request.composer)})
    found = performances_of_series(request.composer, name)
    if not found:
        raise Http404
    page = series_page(request.composer, name, found, today=timezone.localdate(), language=page_language())
    return render(request, "performances/series_detail.html", {"page": page})


def name_asked(request: CatalogueRequest) -> str:
    return request.GET.get("name", "")[:LINE].replace("\0", "")


@editor_page
@require_POST
def series_step(request: CatalogueRequest, step: str, state: str) -> HttpResponse:
    """/c/<composer>/performances/series/steps/<step>/<state>/?name= — says how a step stands, wherever it is open.

    ``only`` names the performances that it is said of, to take it back.
    """
    name = name_asked(request)
    kinds = {kind.name.lower(): kind for kind in STEPS}
    states = {one.value.replace(" ", "-"): one for one in StepState}
    if step not in kinds or state not in states:
        raise Http404
    if not name:
        return redirect("series", request.composer.slug)
    marked = mark_all(request, name, kinds[step], states[state])
    back = "open" if states[state] is not StepState.OPEN else "done"
    undo = reverse("series-step", args=[request.composer.slug, step, back])
    asked = urlencode({"name": name, "only": ",".join(map(str, marked))})
    words = STATES[states[state]] % {"step": STEPS[kinds[step]]}
    told = _("%(words)s Said of %(number)s performances.") % {"words": words, "number": len(marked)}
    say(request, told, undo=f"{undo}?{asked}" if marked else "")
    return redirect(f"{reverse('series', args=[request.composer.slug])}?{urlencode({'name': name})}")


@transaction.atomic
def mark_all(request: CatalogueRequest, name: str, kind: StepKind, state: StepState) -> list[int]:
    """Say how a step stands for the performances named, else for all in which it is open; return their keys."""
    found, today, now = performances_of_series(request.composer, name), timezone.localdate(), timezone.now()
    only = {int(key) for key in request.GET.get("only", "").split(",") if key.isdecimal() and len(key) < 19}
    if not only:
        asked = open_stages(request.composer, found, today=today)
        only = {key for key, stages in asked.items() if any(stage.kind is kind for stage in stages)}
    marked = [one for one in found if one.pk in only]
    for one in marked:
        mark_step(performance=one, kind=kind, state=state, today=today, now=now)
    return [one.pk for one in marked]
