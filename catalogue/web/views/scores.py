"""Taking a score file in: it is sent, what it says is shown, and each fact is taken over or left."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from catalogue.actions.saving import Overtaken
from catalogue.actions.works import save_work
from catalogue.exchange.scores import ScoreError, read_score
from catalogue.models import Work
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.forms.errors import add_errors
from catalogue.web.forms.scores import FactsForm, ScoreForm
from catalogue.web.notices import say
from catalogue.web.score_page import score_page
from catalogue.web.wording import page_language


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
        score = read_score(form.cleaned_data["file"].read())
    except ScoreError as fault:
        form.add_error("file", fault.reason)
        return render(request, "scores/score_new.html", {"form": form})
    facts = FactsForm.found(score, form.cleaned_data["work"], request.composer)
    return render(request, "scores/score_facts.html", {"form": facts, "page": score_page(score, page_language())})


@editor_page
@require_POST
def score_keep(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/works/score/keep/ — the facts that were ticked go into the work, or make a new one."""
    form = FactsForm(request.POST, composer=request.composer)
    if form.is_valid():
        work = form.told(form.cleaned_data["work"] or Work(composer=request.composer))
        try:
            save_work(work=work, now=timezone.now())
        except Overtaken:
            form.add_error(None, _("Somebody has just changed this work; look at it, then send this again."))
        except ValidationError as refused:
            add_errors(form, refused)
        else:
            say(request, _("“%(title)s” is saved.") % {"title": work.title})
            return redirect("work-detail", request.composer.slug, work.pk)
    return render(request, "scores/score_facts.html", {"form": form, "page": None})
