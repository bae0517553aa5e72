"""A tour: the same programme on several days, entered at once and undone at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.exchange.batches import note
from catalogue.exchange.event_lines import lines_of
from catalogue.gathering.states import states_of
from catalogue.models import ImportBatch, ImportSource, ImportState, Performance
from catalogue.models.fields import LINE
from catalogue.timing import Occurs
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.forms.performances import PerformanceForm
from catalogue.web.forms.programme import Programme, programme_rows
from catalogue.web.forms.tours import MOST_DATES, TourForm, line_said
from catalogue.web.known import Known
from catalogue.web.notices import say
from catalogue.web.performance_readings import when_reading, where_reading
from catalogue.web.views.performance_forms import save_all
from catalogue.web.wording import page_language


@editor_page
@require_http_methods(["GET", "POST"])
def tour_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/tour/ — several dates with the same programme, perhaps of a series that is there."""
    known = Known.of(request.composer)
    typed = request.POST if request.method == "POST" else None
    initial = {"series": request.GET.get("series", "")[:LINE].replace("\0", "")}
    form = TourForm(typed, initial=initial, known=known, slug=request.composer.slug)
    if form.is_bound and form.is_valid():
        if sent_before(request, form):
            return redirect("performance-list", request.composer.slug)
        faults = save_tour(request, form)
        if not faults:
            return redirect("performance-list", request.composer.slug)
        for fault in faults:
            form.add_error("dates", fault)
    context = {"form": form, "known": known, "readings": readings_of(form["dates"].value() or "", known)}
    return render(request, "performances/tour_new.html", context)


def sent_before(request: CatalogueRequest, form: TourForm) -> bool:
    """Say whether this very form has made its performances already."""
    first = next(number for number, _line in lines_of(form.cleaned_data["dates"]))
    return Performance.with_deleted.filter(composer=request.composer, uid=form.uid_of(first)).exists()


def save_tour(request: CatalogueRequest, form: TourForm) -> list[str]:
    """Save every date or, where one has a mistake, none; return the mistakes."""
    composer, now = request.composer, timezone.now()
    dates = list(lines_of(form.cleaned_data["dates"]))
    with transaction.atomic():
        before = states_of(composer)
        faults = [fault for number, line in dates for fault in save_date(request, form, number, line)]
        if faults:
            transaction.set_rollback(True)
            return faults
        columns = {"source": ImportSource.TYPED.value, "state": ImportState.KEPT.value, "made_by": request.user}
        batch = ImportBatch.objects.create(
            composer=composer, name=dates[0][1][:200], made_at=now, kept_at=now, **columns
        )
        note(batch, before, states_of(composer), {})
    told = ngettext("One performance is saved.", "%(number)s performances are saved.", len(dates))
    say(request, told % {"number": len(dates)}, undo=reverse("import-undo", args=[composer.slug, batch.pk]))
    return []


def save_date(request: CatalogueRequest, tour: TourForm, number: int, line: str) -> Iterator[str]:
    """Save the performance of a line, or give its mistakes. Halls that are new are known to the next line."""
    known, performance = Known.of(request.composer), Performance(composer=request.composer)
    typed = tour.typed_in(number, line)
    if not typed["date"]:
        yield in_line(number, _("no date is read at its beginning."))
        return
    form = PerformanceForm(typed, instance=performance, known=known, today=timezone.localdate())
    rows = programme_rows(performance, known.works, typed)
    if all([form.is_valid(), rows.is_valid()]):
        try:
            save_all(form, rows)
        except ValidationError as refused:
            yield from (in_line(number, message) for message in refused.messages)
    else:
        yield from (in_line(number, message) for message in mistakes(form, rows))


def mistakes(form: PerformanceForm, rows: Programme) -> Iterator[str]:
    for each in (form, *rows.forms):
        for name, errors in each.errors.items():
            label = each.fields[name].label if name in each.fields else ""
            yield from (f"{label}: {error}" if label else str(error) for error in errors)
    if form.has_error("time", Occurs.TWICE):
        yield _("Leave its time out here, and say on its own page afterwards which of the two it is.")


def in_line(number: int, message: str) -> str:
    return _("Line %(number)s, %(message)s") % {"number": number, "message": message}


# ---- what the lines read as


@dataclass(frozen=True, slots=True)
class LineReading:
    """What a line is read as, or what is wrong with it."""

    number: int
    words: str = ""
    reason: str = ""
    is_new_hall: bool = False


def readings_of(text: str, known: Known) -> list[LineReading]:
    return [line_reading(number, line, known) for number, line in list(lines_of(text))[:MOST_DATES]]


def line_reading(number: int, line: str, known: Known) -> LineReading:
    said, today = line_said(line, known), timezone.localdate()
    when = when_reading(said.date, said.time, language=page_language(), today=today)
    if when is None:
        return LineReading(number, reason=_("No date is read at the beginning of this line."))
    where = where_reading(said.hall, said.city, said.country, "", known=known, current=None, year=today.year)
    if where is not None and where.reason:
        return LineReading(number, reason=where.reason)
    words = (when.words, where.words if where else "", ", ".join((*said.performers, *said.works)))
    return LineReading(number, " · ".join(filter(None, words)), is_new_hall=bool(where and where.is_new))


@member_page
@require_POST
def tour_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/performances/reading/tour/ — what the dates of a tour read as."""
    readings = readings_of(request.POST.get("dates", "")[:50_000], Known.of(request.composer))
    return render(request, "performances/parts/tour_reading.html", {"readings": readings})
