"""How a work goes in time: its durations, its tempo map and its cues, seen and changed."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.saving import Overtaken
from catalogue.actions.works import save_work
from catalogue.gathering.works import gather_work
from catalogue.models import Cue, Work
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.rows import with_another_row, with_row_earlier
from catalogue.web.forms.timing import MOST, PREFIX, CueForm, TimingForm, cue_rows
from catalogue.web.notices import say
from catalogue.web.timing_page import tempo_reading, timing_page
from catalogue.web.wording import page_language


def work_of(request: CatalogueRequest, work: int) -> Work:
    return get_object_or_404(Work.objects.filter(composer=request.composer).with_everything_printed(), pk=work)


@member_page
@require_safe
def timing_detail(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/timing/ — how long a work lasts, its tempo map, its timeline and its cues."""
    page = timing_page(work_of(request, work), language=page_language())
    return render(request, "timing/timing_detail.html", {"page": page, "work": page.work})


@editor_page
@require_http_methods(["GET", "POST"])
def timing_edit(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/timing/edit/ — the tempo map and the cues, to be changed."""
    found = work_of(request, work)
    facts, stored = gather_work(found), cues_of(found)
    typed = typed_in(request)
    form, rows = TimingForm(typed, instance=found, composer=request.composer), cue_rows(stored, typed)
    conflict = None
    if typed is not None and not is_rearranging(request) and all([form.is_valid(), rows.is_valid()]):
        try:
            save_work(work=form.instance, now=timezone.now(), cues=rows.rows(stored, form.reckoned))
        except Overtaken as overtaken:
            stands = TimingForm(instance=overtaken.latest, composer=request.composer)
            conflict = Conflict.between(overtaken, form, stands)
            conflict = conflict.with_rows(_("Cues"), cue_rows(cues_of(found)).in_words(), rows.in_words())
            latest = {**typed.dict(), "saves": overtaken.latest.saves}
            form = TimingForm(latest, instance=found, composer=request.composer)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, _("The timing of “%(title)s” is saved.") % {"title": found.title})
            return redirect("timing-detail", request.composer.slug, found.pk)
    reading = tempo_reading(form["tempo_map"].value() or "", rows.facts(refused=False), facts, page_language())
    context = {"form": form, "rows": rows, "work": facts, "conflict": conflict, "reading": reading}
    return render(request, "timing/timing_form.html", context)


def cues_of(work: Work) -> list[Cue]:
    return list(Cue.objects.filter(work=work).order_by("order"))


def typed_in(request: CatalogueRequest) -> Any:
    """Return what was typed, with a row more or a row moved where that was asked for; None where nothing was sent."""
    if request.method != "POST":
        return None
    if "another" in request.POST:
        return with_another_row(request.POST, PREFIX, MOST)
    place = request.POST.get("earlier", "")
    if place.isdecimal() and len(place) < 4:
        return with_row_earlier(request.POST, PREFIX, CueForm.base_fields, MOST, int(place))
    return request.POST


def is_rearranging(request: CatalogueRequest) -> bool:
    """Whether something other than saving was asked for."""
    return any(name in request.POST for name in ("another", "earlier", "read"))


@member_page
@require_POST
def timing_reading(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/timing/reading/ — what a typed tempo map reads as, with the cues typed beside it."""
    facts = gather_work(work_of(request, work))
    has_rows = f"{PREFIX}-TOTAL_FORMS" in request.POST
    cues = cue_rows((), request.POST).facts(refused=True) if has_rows else ()
    reading = tempo_reading(request.POST.get("tempo_map", ""), cues, facts, page_language())
    return render(request, "timing/parts/tempo_reading.html", {"reading": reading})
