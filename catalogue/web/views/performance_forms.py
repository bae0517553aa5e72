"""The form of a performance: empty, filled in, and what it reads while one types."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.new_names import keep_names
from catalogue.actions.performances import save_performance, save_venue
from catalogue.actions.saving import Overtaken
from catalogue.exchange.event_lines import EventLine, read_event_line
from catalogue.models import Composer, Performance
from catalogue.web import performance_readings as readings
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.performances import PerformanceForm
from catalogue.web.forms.programme import (
    Programme,
    programme_rows,
    stored_programme,
    with_another_row,
    with_row_earlier,
)
from catalogue.web.known import Known
from catalogue.web.lookalikes import performances_of_day
from catalogue.web.notices import say
from catalogue.web.places import PlaceError, read_country, zones_of
from catalogue.web.programmes import called, name_of
from catalogue.web.wording import page_language


@editor_page
@require_http_methods(["GET", "POST"])
def performance_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/new/ — a new performance.

    ``?work=<number>`` puts a work on its programme, ``?line=<text>`` fills in what a line says.
    """
    sent_before = performance_sent_before(request)
    if sent_before:
        return redirect("performance-detail", request.composer.slug, sent_before.pk)
    return form_of(request, Performance(composer=request.composer))


def performance_sent_before(request: CatalogueRequest) -> Performance | None:
    """Return what this very form has made already: a form that is sent twice makes one performance."""
    try:
        uid = UUID(request.POST.get("uid", ""))
    except ValueError:
        return None
    return Performance.objects.filter(composer=request.composer, uid=uid).first()


@editor_page
@require_http_methods(["GET", "POST"])
def performance_edit(request: CatalogueRequest, performance: int) -> HttpResponse:
    """/c/<composer>/performances/<performance>/edit/ — everything that is known of a performance, to be changed."""
    ours = Performance.objects.filter(composer=request.composer).with_everything_printed()
    return form_of(request, get_object_or_404(ours, pk=performance))


def form_of(request: CatalogueRequest, performance: Performance) -> HttpResponse:
    """Show the form, empty or filled in, with what was read from it; or save it and go on to the performance."""
    heading = called(performance) if performance.pk else ""
    known, today = Known.of(request.composer), timezone.localdate()
    typed = typed_in(request)
    said = line_said(request, known)
    form = PerformanceForm(typed, initial=initial_of(said), instance=performance, known=known, today=today)
    first = work_asked_for(request, known) or said.works
    rows = programme_rows(performance, known.works, typed, first=() if performance.pk else first)
    conflict = None
    if typed is not None and not is_rearranging(request) and all([form.is_valid(), rows.is_valid()]):
        try:
            save_all(form, rows)
        except Overtaken as overtaken:
            conflict = conflict_of(overtaken, form, rows)
            latest = {**typed.dict(), "saves": overtaken.latest.saves}
            form = PerformanceForm(latest, instance=performance, known=known, today=today)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, _("%(performance)s is saved.") % {"performance": saved_name(performance)})
            return redirect("performance-detail", request.composer.slug, performance.pk)
    context = {"form": form, "rows": rows, "performance": performance, "heading": heading, "conflict": conflict}
    return render(request, "performances/performance_form.html", {**context, **shown_beside(form)})


def typed_in(request: CatalogueRequest) -> Any:
    """Return what was typed, with a row more or a row moved where that was asked for; None where nothing was sent."""
    if request.method != "POST":
        return None
    place = request.POST.get("earlier", "")
    if "another" in request.POST:
        return with_another_row(request.POST)
    return with_row_earlier(request.POST, int(place)) if place.isdecimal() and len(place) < 4 else request.POST


def is_rearranging(request: CatalogueRequest) -> bool:
    return "another" in request.POST or "earlier" in request.POST


def work_asked_for(request: CatalogueRequest, known: Known) -> tuple[str, ...]:
    key = request.GET.get("work", "")
    label = known.works.labels.get(int(key)) if key.isdecimal() and len(key) < 19 else None
    return (label,) if label else ()


def line_said(request: CatalogueRequest, known: Known) -> EventLine:
    """Return what a line says that a new performance is to begin with."""
    return read_event_line(
        request.GET.get("line", ""), language=page_language(), is_work=known.works.knows, halls=known.hall_names
    )


def initial_of(said: EventLine) -> dict[str, str]:
    """Return the fields of the form as a line fills them in."""
    fields = {"date": said.date, "time": said.time, "venue": said.hall, "city": said.city, "country": said.country}
    return {name: text for name, text in {**fields, "performers": "\n".join(said.performers)}.items() if text}


@transaction.atomic
def save_all(form: PerformanceForm, rows: Programme) -> None:
    """Save the performance as it was typed, with a hall that is new; what was not touched is left as it is."""
    performance, now = form.instance, timezone.now()
    if performance.pk is None and not form.says_anything and rows.is_empty:
        raise ValidationError(_("Say when, where, who or what was played; one of these is enough."))
    venue = form.venue_to_save
    if venue is not None and venue.pk is None:
        performance.venue = save_venue(venue=venue, now=now)
        venue = None
    credits = form.new_credits()
    if form.cleaned_data["keeps_names"]:
        keep_names(performance=performance, credits=credits or ())
    save_performance(
        performance=performance,
        now=now,
        programme=rows.rows(stored_programme(performance)) if rows.has_changed() else None,
        credits=credits,
    )
    if venue is not None:
        try:
            save_venue(venue=venue, now=now)
        except Overtaken as overtaken:
            raise ValidationError(overtaken.reason) from overtaken


def conflict_of(overtaken: Overtaken, form: PerformanceForm, rows: Programme) -> Conflict:
    """Compare what was typed with the performance as it stands, its programme too."""
    latest = Performance.objects.with_everything_printed().get(pk=overtaken.latest.pk)
    found = Conflict.between(overtaken, form, PerformanceForm(instance=latest, known=form.known, today=form.today))
    theirs = programme_rows(latest, form.known.works)
    return found.with_rows(_("Programme"), theirs.in_words(), rows.in_words())


def saved_name(performance: Performance) -> str:
    return name_of(Performance.objects.with_everything_printed().get(pk=performance.pk))


def shown_beside(form: PerformanceForm) -> dict[str, object]:
    """Return what is offered to pick from, and what the fields read as."""
    typed = {name: form[name].value() or "" for name in ("date", "time", "venue", "city", "country", "zone")}
    place = (typed["venue"], typed["city"], typed["country"], typed["zone"])
    return {
        "same_day": same_day(form.instance.composer, typed["date"], form.instance.pk) if form.is_bound else [],
        "known": form.known,
        "zones": zones_offered(typed["country"]),
        "when": readings.when_reading(
            form["date"].value() or "", form["time"].value() or "", language=page_language(), today=form.today
        ),
        "where": readings.where_reading(*place, known=form.known, current=form.instance.venue, year=form.today.year),
        "performers": readings.performers_reading(
            form["performers"].value() or "", form.known, form.instance.composer if form.is_bound else None
        ),
    }


def zones_offered(country: str) -> list[str]:
    try:
        return zones_of(read_country(country)) if country.strip() else []
    except PlaceError:
        return []


# ---- live answers


@member_page
@require_POST
def when_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/reading/when/ — what a typed date and time read as."""
    typed = (request.POST.get("date", ""), request.POST.get("time", ""))
    reading = readings.when_reading(*typed, language=page_language(), today=timezone.localdate())
    besides = request.GET.get("besides", "")
    found = same_day(request.composer, typed[0], int(besides) if besides.isdecimal() and len(besides) < 19 else None)
    return render(request, "performances/parts/when_reading.html", {"reading": reading, "same_day": found})


def same_day(composer: Composer, day: str, besides: int | None) -> list[tuple[int, SafeString]]:
    """Return key and name of what is noted for a day that is typed already."""
    found = performances_of_day(composer, day, language=page_language(), besides=besides)
    return [(one.pk, called(one)) for one in found]


@member_page
@require_POST
def where_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/reading/where/ — which place was typed, and whether it is known."""
    hall, city, country, zone = (request.POST.get(name, "") for name in ("venue", "city", "country", "zone"))
    known, year = Known.of(request.composer), timezone.localdate().year
    reading = readings.where_reading(hall, city, country, zone, known=known, current=None, year=year)
    return render(request, "performances/parts/where_reading.html", {"reading": reading})


@member_page
@require_POST
def performers_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/reading/performers/ — who did what, in a typed list."""
    composer = request.composer
    reading = readings.performers_reading(request.POST.get("performers", ""), Known.of(composer), composer)
    return render(request, "performances/parts/performers_reading.html", {"reading": reading})
