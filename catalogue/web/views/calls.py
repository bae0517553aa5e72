"""The pages of calls: which are open, one with its works screened, its text read, and what was sent."""

from __future__ import annotations

from typing import cast

from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.calls import AlreadySent, begin_call, choose_or_leave, note_submission, propose_call, save_call
from catalogue.actions.deletion import delete_record, restore_record
from catalogue.actions.saving import Overtaken
from catalogue.gathering import gather_for_calls
from catalogue.models import Call, Submission, Work
from catalogue.rules.calls.reading import CallError, read_call
from catalogue.rules.calls.terms import Proposal
from catalogue.terms import SubmissionStatus
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.call_list import call_rows
from catalogue.web.call_page import call_page, doubts
from catalogue.web.conflicts import Conflict
from catalogue.web.forms.calls import BeginCallForm, CallForm, PasteCallForm, SubmissionForm, initial_of
from catalogue.web.notices import say
from catalogue.web.wording import page_language


@member_page
@require_safe
def call_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calls/ — the calls that are open, the next to close first, and those that are over."""
    rows = call_rows(request.composer, now=timezone.now(), language=page_language())
    return render(request, "calls/call_list.html", {"rows": rows})


@editor_page
@require_http_methods(["GET", "POST"])
def call_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calls/new/ — a call's text is pasted and read, or its title is entered and the rest typed."""
    typed = request.method == "POST" and "title" in request.POST
    begun = BeginCallForm(request.POST if typed else None)
    if typed and begun.is_valid():
        call = begin_call(composer=request.composer, title=begun.cleaned_data["title"], now=timezone.now())
        return redirect("call-edit", request.composer.slug, call.pk)
    form = PasteCallForm(request.POST if request.method == "POST" and not typed else None)
    if form.is_bound and form.is_valid():
        try:
            call = propose_call(composer=request.composer, text=form.cleaned_data["text"], now=timezone.now())
        except CallError as fault:
            form.add_error("text", fault.reason)
        except ValidationError as fault:
            form.add_error("text", fault.messages[0])
        else:
            return redirect("call-edit", request.composer.slug, call.pk)
    return render(request, "calls/call_new.html", {"form": form, "begun": begun})


@editor_page
@require_http_methods(["GET", "POST"])
def call_edit(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/edit/ — the conditions, each beside the words it came from, to be confirmed."""
    found = get_object_or_404(Call.objects.filter(composer=request.composer), pk=call)
    name, terms = found.title, found.asks
    proposal = read_call(found.full_text) if found.full_text.strip() else Proposal(terms)
    initial = initial_of(terms, website=found.website, notes=found.notes, saves=found.saves)
    form = CallForm(request.POST if request.method == "POST" else None, proposal=proposal, initial=initial)
    if form.is_bound and form.is_valid() and stored(form, found):
        say(request, _("“%(call)s” is saved.") % {"call": found.title})
        return redirect("call-detail", request.composer.slug, found.pk)
    open_questions = doubts(found.asks, page_language())
    return render(
        request, "calls/call_form.html", {"form": form, "call": found, "name": name, "doubts": open_questions}
    )


def stored(form: CallForm, call: Call) -> bool:
    """Store what was typed; say at its field why it cannot be stored."""
    cleaned = form.cleaned_data
    call.website, call.notes, call.saves = cleaned["website"], cleaned["notes"], cleaned["saves"] or 0
    try:
        save_call(call=call, terms=form.terms(call.asks), now=timezone.now())
    except Overtaken as overtaken:
        form.add_error(None, overtaken.reason)
    except ValidationError as refused:
        form.add_error(None, " ".join(refused.messages))
    except ValueError as mistake:
        form.add_error("deadline_time", getattr(mistake, "reason", str(mistake)))
    return not form.errors


@member_page
@require_safe
def call_detail(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/ — what a call asks for, and every work with its answer and why."""
    calls = Call.objects.filter(composer=request.composer).select_related("composer", "submission")
    return detail_of(request, get_object_or_404(calls, pk=call))


def detail_of(
    request: CatalogueRequest, found: Call, form: SubmissionForm | None = None, conflict: Conflict | None = None
) -> HttpResponse:
    submission = getattr(found, "submission", None)
    chosen = chosen_of(submission)
    page = call_page(
        found, gather_for_calls(request.composer), chosen, everything="all" in request.GET,
        now=timezone.now(), language=page_language(),
    )  # fmt: skip
    form = form or SubmissionForm(initial=submission_values(submission))
    context = {"call": found, "page": page, "form": form, "submission": submission, "conflict": conflict}
    return render(request, "calls/call_detail.html", context)


def chosen_of(submission: Submission | None) -> tuple[int, ...]:
    return tuple(submission.works.order_by("order").values_list("work_id", flat=True)) if submission else ()


def submission_values(submission: Submission | None) -> dict[str, object]:
    if submission is None:
        return {"status": SubmissionStatus.DRAFT.value, "saves": 0}
    names = ("saves", "status", "sent_on", "decided_on", "outcome", "feedback")
    return {name: getattr(submission, name) for name in names}


@editor_page
@require_POST
def call_choose(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/choose/ — a work is chosen for a call, or let go again."""
    found = get_object_or_404(Call.objects.filter(composer=request.composer), pk=call)
    work = get_object_or_404(Work.objects.filter(composer=request.composer), pk=number_in(request.POST.get("work")))
    try:
        choose_or_leave(call=found, work=work)
    except AlreadySent as refused:
        say(request, refused.reason)
    return redirect(reverse("call-detail", args=[request.composer.slug, found.pk]) + "#chosen")


def number_in(text: str | None) -> int:
    return int(text) if text and text.isdecimal() and len(text) < 10 else 0


@editor_page
@require_POST
def call_sent(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/sent/ — how far a submission has come."""
    found = get_object_or_404(Call.objects.filter(composer=request.composer), pk=call)
    form = SubmissionForm(request.POST)
    if not form.is_valid():
        return detail_of(request, found, form)
    try:
        note_submission(call=found, now=timezone.now(), **form.noted())
    except AlreadySent as refused:
        form.add_error("status", refused.reason)
        return detail_of(request, found, form)
    except Overtaken as overtaken:
        stored = SubmissionForm(initial=submission_values(cast(Submission, overtaken.latest)))
        conflict = Conflict.between(overtaken, form, stored)
        again = SubmissionForm({**request.POST.dict(), "saves": overtaken.latest.saves})
        return detail_of(request, found, again, conflict)
    say(request, _("Noted."))
    return redirect(reverse("call-detail", args=[request.composer.slug, found.pk]) + "#sent")


@editor_page
@require_POST
def call_delete(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/delete/ — out of the list; it can be brought back."""
    found = get_object_or_404(Call.objects.filter(composer=request.composer), pk=call)
    delete_record(record=found, by=request.user, now=timezone.now())
    undo = reverse("call-restore", args=[request.composer.slug, found.pk])
    say(request, _("“%(call)s” is deleted.") % {"call": found.title}, undo=undo)
    return redirect("call-list", request.composer.slug)


@editor_page
@require_POST
def call_restore(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/restore/ — back into the list."""
    found = get_object_or_404(Call.with_deleted.filter(composer=request.composer), pk=call)
    restore_record(record=found, now=timezone.now())
    say(request, _("“%(call)s” is back.") % {"call": found.title})
    return redirect("call-detail", request.composer.slug, found.pk)
