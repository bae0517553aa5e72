"""Taking a score file in: it is sent, what it says is shown, and each fact is taken over or left."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from django.core.exceptions import ValidationError
from django.core.files.storage import default_storage
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.reverting import bring_back, bring_rows_back
from catalogue.actions.saving import Overtaken
from catalogue.actions.works import save_work
from catalogue.exchange.file_formats import MXL, XML
from catalogue.exchange.kept_content import kept
from catalogue.exchange.pictures import stored_name
from catalogue.exchange.scores import Findings, ScoreError, read_xml
from catalogue.exchange.scores.opening import score_xml
from catalogue.exchange.scores.parsing import AT_ONCE
from catalogue.gathering.row_lists import RowList, lists_of, rows_changes
from catalogue.models import StoredFile, Work
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.scores import FACTS, FactsForm, ScoreForm
from catalogue.web.notices import say
from catalogue.web.score_page import read_along, score_page
from catalogue.web.views.work_forms import saved_message, work_sent_before
from catalogue.web.wording import page_language

SCORES = (XML.suffix, MXL.suffix)


@editor_page
@require_http_methods(["GET", "POST"])
def score_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/score/ — a score file is sent; what it says is shown, and nothing is stored yet."""
    if request.method != "POST":
        form = ScoreForm(initial={"work": request.GET.get("work")}, composer=request.composer, request=request)
        return render(request, "scores/score_new.html", {"form": form})
    form = ScoreForm(request.POST, request.FILES, composer=request.composer, request=request)
    if not form.is_valid():
        return render(request, "scores/score_new.html", {"form": form})
    try:
        return facts_page(request, form.cleaned_data["file"].read(), form.cleaned_data["work"])
    except ScoreError as fault:
        form.add_error("file", fault.reason)
        return render(request, "scores/score_new.html", {"form": form})


@editor_page
@require_POST
def stored_score(request: CatalogueRequest, storedfile: int) -> HttpResponse:
    """/c/<composer>/records/files/<file>/score/ — what a score file says that is kept already."""
    stored = get_object_or_404(StoredFile.objects.filter(composer=request.composer, suffix__in=SCORES), pk=storedfile)
    try:
        with kept(default_storage, stored_name(stored.sha256, stored.suffix)).open() as file:
            return facts_page(request, file.read(), stored.work)
    except FileNotFoundError as fault:
        raise Http404 from fault
    except ScoreError as fault:
        say(request, fault.reason)
        return redirect("record-detail", request.composer.slug, "files", stored.pk)


def facts_page(request: CatalogueRequest, content: bytes, work: Work | None) -> HttpResponse:
    """Show what a score file says, a long one while it is being read. Raises ScoreError."""
    xml = score_xml(content)
    if len(xml) > AT_ONCE:
        return read_along(request, xml, {"work": work}, lambda found: found_in(request, found, work))
    return render(request, "scores/score_facts.html", found_in(request, read_xml(xml), work))


def found_in(request: CatalogueRequest, score: Findings, work: Work | None) -> dict[str, Any]:
    """Return what the page shows of a score that has been read."""
    facts = FactsForm.found(score, work, request.composer)
    return {"form": facts, "page": score_page(score, request.composer.name, page_language()), "work": work}


@editor_page
@require_POST
def score_keep(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/score/keep/ — the facts that were ticked go into the work, or make a new one."""
    sent_before = work_sent_before(request)
    if sent_before:
        return redirect("work-detail", request.composer.slug, sent_before.pk)
    form = FactsForm(request.POST, composer=request.composer)
    if form.is_valid():
        work = form.cleaned_data["work"] or Work(composer=request.composer)
        is_new, before = work.pk is None, newest_entry(work)
        try:
            save_work(work=form.told(work), movements=form.movements_of(work), now=timezone.now())
        except Overtaken as overtaken:
            form = FactsForm({**request.POST.dict(), "saves": overtaken.latest.saves}, composer=request.composer)
            form.add_error(None, _("Somebody has just changed this work; look at it, then send this again."))
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, saved_message(request, work, is_new), undo=way_back(work, before, form.taken()))
            return redirect("work-detail", request.composer.slug, work.pk)
    return render(request, "scores/score_facts.html", {"form": form, "page": None, "work": form.work_meant()})


def newest_entry(work: Work) -> int:
    """Return the number of the newest line in a work's history, 0 for a new work."""
    entry = work.history.values_list("pk", flat=True).first() if work.pk else None
    return entry or 0


def way_back(work: Work, before: int, taken: tuple[str, ...]) -> str:
    """Return the address that takes a taking over back: a new work is deleted, another gets what it said before."""
    told = [work.composer.slug, work.pk]
    if not before:
        return reverse("work-delete", args=told)
    asked: dict[str, Any] = {"entry": before, "took": [name for name in taken if name != "movement"]}
    if "movement" in taken and (changes := rows_changes(movements_list(work), work)):
        asked["rows"] = changes[-1].entry
    return f"{reverse('score-undo', args=told)}?{urlencode(asked, doseq=True)}"


def movements_list(work: Work) -> RowList:
    return next(rows for rows in lists_of(work) if rows.word == "movements")


@editor_page
@require_POST
def score_undo(request: CatalogueRequest, work: int) -> HttpResponse:
    """/c/<composer>/works/<work>/score/undo/ — the facts that were taken over last are again what they were."""
    found = get_object_or_404(Work.objects.filter(composer=request.composer), pk=work)
    took = [name for name in request.GET.getlist("took") if name in FACTS]
    state = found.history.filter(pk=number_in(request, "entry")).first()
    if state is None:
        raise Http404
    try:
        bring_back(record=found, state=state, columns=took, now=timezone.now())
        if "rows" in request.GET:
            take_movements_back(found, number_in(request, "rows"))
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
    else:
        say(request, _("“%(title)s” is as it was.") % {"title": found.title})
    return redirect("work-detail", request.composer.slug, found.pk)


def number_in(request: CatalogueRequest, name: str) -> int:
    text = request.GET.get(name, "")
    return int(text) if text.isdecimal() and len(text) < 19 else 0


def take_movements_back(work: Work, entry: int) -> None:
    rows = movements_list(work)
    before = next((one.before for one in rows_changes(rows, work) if one.entry == entry), None)
    if before is not None:
        bring_rows_back(record=work, rows=rows, states=before, now=timezone.now())
