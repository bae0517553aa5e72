"""The pages of performances: the list, one performance, and its way out and back."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.core.exceptions import ValidationError
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.journeys import mark_step
from catalogue.actions.performances import delete_performance, restore_performance
from catalogue.gathering.numbers import numbers_at
from catalogue.gathering.statistics import gather_held
from catalogue.gathering.versions import State, state_of_lists
from catalogue.models import Composer, Performance
from catalogue.terms import StepState
from catalogue.web.access import CatalogueRequest, editor_page, material_page, member_page
from catalogue.web.asked import Asked, asked_performances
from catalogue.web.journeys import STATES, STEPS
from catalogue.web.kept_for_members import Page, kept_for_members
from catalogue.web.notices import say
from catalogue.web.performance_page import performance_page
from catalogue.web.programmes import name_of
from catalogue.web.saved_views import Views, views_of
from catalogue.web.tallies import by_coming_month, by_country, by_year
from catalogue.web.views.library import library_performance, library_performances
from catalogue.web.wording import page_language


@material_page
@require_safe
def performance_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/ — every performance, searched, filtered and ordered."""
    if request.is_librarian:
        return library_performances(request)
    state, views = state_of_lists([request.composer.pk]), views_of(request, "performances")
    return kept_for_members(request, state, lambda: page_of_performances(request, state, views), views.told)


def page_of_performances(request: CatalogueRequest, state: State, views: Views) -> Page | str:
    composer, today = request.composer, timezone.localdate()
    asked = asked_performances(request, today=today, state=state)
    lasting = address_by_key(request, asked)
    if lasting:
        return lasting
    counted = counted_at(state, composer, today)
    asked.table.turn_to(request.GET.get("page"), all_of=None if asked.is_asked else counted["all"])
    context = {"questions": asked.questions, "table": asked.table, "is_asked": asked.is_asked}
    return Page("performances/performance_list.html", context | {"counted": counted, "views": views})


def address_by_key(request: CatalogueRequest, asked: Asked) -> str:
    """Return the address with the key of a work that was typed by name, so that it lasts when the title changes."""
    work = getattr(asked.filter.form, "cleaned_data", {}).get("work") if asked.typed else None
    if work is None or request.GET.get("work") == str(work.pk):
        return ""
    query = request.GET.copy()
    query["work"] = str(work.pk)
    return f"{request.path}?{query.urlencode()}"


@member_page
@require_safe
def performance_years(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/years/ — performances by year and country, and the year ahead, as bars."""
    today = timezone.localdate()
    held = gather_held(request.composer, today=today)
    ahead = by_coming_month(held, today=today, language=page_language())
    context = {"years": by_year(held), "countries": by_country(held), "ahead": ahead}
    return render(request, "performances/performance_years.html", context)


def counted_at(state: State, composer: Composer, today: date) -> Mapping[str, int | None]:
    """Return how many performances there are, in which years, and how many are to come."""
    numbers = numbers_at(state, composer.pk)
    return {
        "all": numbers.all,
        "coming": numbers.to_come(today),
        "first": numbers.first_year,
        "last": numbers.last_year,
    }


@material_page
@require_safe
def performance_detail(request: CatalogueRequest, performance: int) -> HttpResponse:
    """/c/<composer>/performances/<performance>/ — everything that is known of a performance."""
    if request.is_librarian:
        return library_performance(request, performance)
    ours = Performance.objects.filter(composer=request.composer).with_everything_printed()
    found = get_object_or_404(ours, pk=performance)
    page = performance_page(found, today=timezone.localdate(), language=page_language())
    return render(request, "performances/performance_detail.html", {"page": page, "performance": page.performance})


@editor_page
@require_POST
def performance_step(request: CatalogueRequest, performance: int, step: str, state: str) -> HttpResponse:
    """/c/<composer>/performances/<performance>/steps/<step>/<state>/ — says how a step stands: done, not needed, open.

    With ``then=today`` it leads back to the first room, with ``then=house`` to that of all composers.
    """
    found = get_object_or_404(Performance.objects.filter(composer=request.composer), pk=performance)
    kinds = {kind.name.lower(): kind for kind in STEPS}
    states = {one.value.replace(" ", "-"): one for one in StepState}
    if step not in kinds or state not in states:
        raise Http404
    kind = kinds[step]
    mark_step(performance=found, kind=kind, state=states[state], today=timezone.localdate(), now=timezone.now())
    back = "open" if states[state] is not StepState.OPEN else "done"
    undo = reverse("performance-step", args=[request.composer.slug, found.pk, step, back])
    say(request, STATES[states[state]] % {"step": STEPS[kind]}, undo=undo)
    if request.POST.get("then") == "today":
        return redirect("today", request.composer.slug)
    if request.POST.get("then") == "house":
        return redirect("house-today")
    return redirect(reverse("performance-detail", args=[request.composer.slug, found.pk]) + "#journey")


# ---- deleting and bringing back


@editor_page
@require_POST
def performance_delete(request: CatalogueRequest, performance: int) -> HttpResponse:
    """/c/<composer>/performances/<performance>/delete/ — takes it out of every list and calendar, with a way back."""
    ours = Performance.objects.filter(composer=request.composer).with_everything_printed()
    found = get_object_or_404(ours, pk=performance)
    delete_performance(performance=found, by=request.user, now=timezone.now())
    undo = reverse("performance-restore", args=[request.composer.slug, found.pk])
    say(request, _("%(performance)s is deleted.") % {"performance": name_of(found)}, undo=undo)
    return redirect("performance-list", request.composer.slug)


@editor_page
@require_POST
def performance_restore(request: CatalogueRequest, performance: int) -> HttpResponse:
    """/c/<composer>/performances/<performance>/restore/ — brings a deleted performance back."""
    ours = Performance.with_deleted.filter(composer=request.composer).with_everything_printed()
    found = get_object_or_404(ours, pk=performance)
    try:
        restore_performance(performance=found, now=timezone.now())
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
        return redirect("performance-list", request.composer.slug)
    say(request, _("%(performance)s is back.") % {"performance": name_of(found)})
    return redirect("performance-detail", request.composer.slug, found.pk)
