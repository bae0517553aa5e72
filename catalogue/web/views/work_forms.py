"""The form of a work: empty, filled in, and what it reads while one types."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.saving import Overtaken
from catalogue.actions.works import save_work
from catalogue.models import Work
from catalogue.web import readings
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.building import NUMBERS, WHOLE, builder_of, built, instrument_choices
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.works import Commissions, WorkForm, commission_rows, commissions_in_order
from catalogue.web.lookalikes import works_alike
from catalogue.web.notices import say
from catalogue.web.other_readings import other_readings, written_as_read
from catalogue.web.wording import page_language

REWRITING = {"mend", "read_as", "build"}  # names of buttons that write the instrumentation anew


@editor_page
@require_http_methods(["GET", "POST"])
def work_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/new/ — a new work; a title is enough."""
    sent_before = work_sent_before(request)
    if sent_before:
        return redirect("work-detail", request.composer.slug, sent_before.pk)
    return form_of(request, Work(composer=request.composer, **version_asked_for(request)))


def version_asked_for(request: CatalogueRequest) -> dict[str, Any]:
    """Return what a version takes over from the work that the address names as its first version."""
    number = request.GET.get("version_of", "")
    if not number.isdecimal() or len(number) > 18:
        return {}
    firsts = Work.objects.filter(composer=request.composer, version_of__isnull=True)
    first = firsts.filter(pk=int(number)).first()
    return {"version_of": first, "title": first.title, "category": first.category} if first else {}


def work_sent_before(request: CatalogueRequest) -> Work | None:
    """Return the work that this very form has made already: a form that is sent twice makes one work."""
    try:
        uid = UUID(request.POST.get("uid", ""))
    except ValueError:
        return None
    return Work.objects.filter(composer=request.composer, uid=uid).first()


@editor_page
@require_http_methods(["GET", "POST"])
def work_edit(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/edit/ — everything that is known of a work, to be changed."""
    return form_of(request, get_object_or_404(Work.objects.filter(composer=request.composer), pk=work))


def form_of(request: CatalogueRequest, work: Work) -> HttpResponse:
    """Show the form, empty or filled in, with what was read from it; or save it and go on to the work."""
    stored_title, is_new = work.title, work.pk is None
    typed = typed_in(request)
    form = WorkForm(typed, instance=work, composer=request.composer)
    rows = commission_rows(work, typed)
    conflict = None
    if is_to_be_saved(typed) and form.is_valid() and rows.is_valid():
        try:
            save_all(form, rows)
        except Overtaken as overtaken:
            conflict = conflict_of(overtaken, form, rows)
            form = WorkForm({**typed.dict(), "saves": overtaken.latest.saves}, instance=work, composer=request.composer)
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, saved_message(request, work, is_new))
            return redirect("work-detail", request.composer.slug, work.pk)
    context = {"form": form, "work": work, "stored_title": stored_title, "commissions": rows, "conflict": conflict}
    context |= beside_the_form(request, form, work, is_building="build" in (typed or ()))
    return render(request, "works/work_form.html", context)


def conflict_of(overtaken: Overtaken, form: WorkForm, rows: Commissions) -> Conflict:
    """Compare what was typed with the work as it stands, its commissions too."""
    latest = Work.objects.get(pk=overtaken.latest.pk)
    found = Conflict.between(overtaken, form, WorkForm(instance=latest, composer=latest.composer))
    return found.with_rows(_("Commissions"), commission_rows(latest).in_words(), rows.in_words())


def beside_the_form(request: CatalogueRequest, form: WorkForm, work: Work, *, is_building: bool) -> dict[str, Any]:
    """Return what was read from the form, what looks like it, and what the builder offers."""
    title = form["title"].value() or ""
    return {
        "readings": readings_of(form),
        "alike": works_alike(request.composer, title, besides=work.pk) if form.is_bound else [],
        "is_building": is_building,
        "instruments": instrument_choices(page_language()),
        "numbers": NUMBERS,
        "bodies": WHOLE,
    }


def saved_message(request: CatalogueRequest, work: Work, is_new: bool) -> str:
    """Say that a work is saved, and of a new one which it looks like."""
    saved = _("“%(title)s” is saved.") % {"title": work.title}
    alike = works_alike(request.composer, work.title, besides=work.pk) if is_new and not work.version_of_id else []
    if not alike:
        return saved
    other = _("It looks like “%(other)s”, which was here already.") % {"other": alike[0].title}
    return f"{saved} {other}"


def typed_in(request: CatalogueRequest) -> Any:
    """Return what was typed, the instrumentation written anew where that was asked for; None where nothing was sent."""
    if request.method != "POST":
        return None
    typed = request.POST.copy()
    text = request.POST.get("instrumentation_typed", "")
    if "mend" in typed:
        typed["instrumentation_typed"] = readings.mended(text, request.POST["mend"], page_language())
    elif "read_as" in typed:
        typed["instrumentation_typed"] = written_as_read(text, request.POST["read_as"])
    elif "build" in typed:
        typed["instrumentation_typed"] = built(text, request.POST.dict())
    return typed


def is_to_be_saved(typed: Any) -> bool:
    """Whether the form was sent to be saved, not to have its instrumentation written anew."""
    return typed is not None and not REWRITING & set(typed)


def save_all(form: WorkForm, rows: Commissions) -> None:
    """Save the work as it was typed; movements that were not touched are left as they are."""
    save_work(
        work=form.instance,
        now=timezone.now(),
        movements=form.new_movements() if "movements" in form.changed_data else None,
        commissions=rows.rows(commissions_in_order(form.instance)),
    )


def readings_of(form: WorkForm) -> dict[str, object]:
    language = page_language()
    return {
        "instrumentation": instrumentation_context(form["instrumentation_typed"].value() or "", language),
        "duration": readings.duration_reading(form["duration_typed"].value() or "", language),
        "movements": readings.movements_reading(form["movements"].value() or "", language),
    }


# ---- live answers


@member_page
@require_POST
def title_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/reading/title/ — which works are here already that a typed title looks like."""
    besides = request.GET.get("besides", "")
    key = int(besides) if besides.isdecimal() and len(besides) < 19 else None
    alike = works_alike(request.composer, request.POST.get("title", ""), besides=key)
    return render(request, "works/parts/title_reading.html", {"alike": alike})


@member_page
@require_POST
def instrumentation_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/reading/instrumentation/ — what a typed instrumentation reads as."""
    language = page_language()
    context = instrumentation_context(request.POST.get("instrumentation_typed", ""), language)
    context |= {"instruments": instrument_choices(language), "is_building": "building" in request.GET}
    return render(request, "works/parts/instrumentation_reading.html", context)


def instrumentation_context(text: str, language: str) -> dict[str, Any]:
    """Return what a text reads as, how else it can be read, and what the builder can do with it."""
    reading = readings.instrumentation_reading(text, language)
    found = reading.instrumentation if reading else None
    others = other_readings(text, found, language) if found else ()
    return {"reading": reading, "others": others, "builder": builder_of(found, language)}


@member_page
@require_POST
def duration_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/reading/duration/ — what a typed duration reads as."""
    reading = readings.duration_reading(request.POST.get("duration_typed", ""), page_language())
    return render(request, "works/parts/duration_reading.html", {"reading": reading})


@member_page
@require_POST
def movements_reading(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/reading/movements/ — what a typed list of movements reads as."""
    reading = readings.movements_reading(request.POST.get("movements", ""), page_language())
    return render(request, "works/parts/movements_reading.html", {"reading": reading})
