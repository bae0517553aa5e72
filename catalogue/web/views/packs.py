"""The pages of a pack: what is in and what lacks, what is decided, the referees, the archive, what was sent."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.core.files.storage import default_storage
from django.http import Http404, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.actions.calls import AlreadySent
from catalogue.actions.saving import Overtaken
from catalogue.actions.submissions import (
    LetterDays,
    ask_referee,
    new_referee,
    note_letters,
    prepare_submission,
    reuse_submission,
    send_submission,
)
from catalogue.exchange.kept_content import Kept
from catalogue.exchange.sent_files import keep_sent, sent_file
from catalogue.exchange.zip_stream import zip_chunks, zip_size
from catalogue.gathering import gather_for_calls
from catalogue.models import Call, Referee, Submission
from catalogue.packing.making import MadePack
from catalogue.web.access import CatalogueRequest, editor_page, member_page
from catalogue.web.conflicts import Conflict
from catalogue.web.degree_page import degree_page
from catalogue.web.forms.packs import LettersForm, PackForm
from catalogue.web.notices import say
from catalogue.web.pack_page import archive_name, made_pack, pack_page, plan_of, told_files
from catalogue.web.wording import page_language


def call_of(request: CatalogueRequest, call: int) -> Call:
    return get_object_or_404(Call.objects.filter(composer=request.composer).select_related("composer"), pk=call)


def at_pack(request: CatalogueRequest, call: int, place: str = "") -> HttpResponse:
    return redirect(reverse("call-pack", args=[request.composer.slug, call]) + place)


@member_page
@require_safe
def degree_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/calls/degrees/ — degree applications side by side, each against the same records."""
    page = degree_page(request.composer, now=timezone.now(), language=page_language())
    return render(request, "calls/degree_list.html", {"page": page})


@member_page
@require_safe
def call_pack(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/pack/ — what of the pack is in, what lacks, what breaks which rule."""
    return pack_of(request, call_of(request, call))


def pack_of(
    request: CatalogueRequest, call: Call, form: PackForm | None = None, conflict: Conflict | None = None
) -> HttpResponse:
    plan = plan_of(call, timezone.localdate())
    made = made_pack(plan, call) if "made" in request.GET else None
    submission = Submission.objects.filter(call=call).first()
    earlier = Submission.objects.filter(call__composer=request.composer, call__deleted_at__isnull=True)
    context = {
        "call": call,
        "page": pack_page(
            call,
            plan,
            gather_for_calls(request.composer),
            made=made,
            today=timezone.localdate(),
            language=page_language(),
        ),
        "form": form or PackForm(submission=plan.submission, saves=submission.saves if submission else 0),
        "conflict": conflict,
        "letters": LettersForm(letters=plan.submission.letters, composer=request.composer),
        "submission": submission,
        "earlier": earlier.exclude(call=call).exclude(statement="").select_related("call").order_by("-pk"),
        "asks_referees": bool(plan.submission.call.portal.referees or plan.submission.letters)
        or any(row.piece == "referees" for row in plan.lines),
    }
    return render(request, "calls/call_pack.html", context)


@editor_page
@require_POST
def call_prepare(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/pack/prepare/ — what is decided about the pack is kept."""
    found = call_of(request, call)
    plan = plan_of(found, timezone.localdate())
    form, conflict = PackForm(request.POST, submission=plan.submission, saves=0), None
    if form.is_valid():
        saves = form.cleaned_data["saves"] or 0
        try:
            prepare_submission(call=found, ready=form.ready(), saves=saves, now=timezone.now())
        except Overtaken as overtaken:
            saves = overtaken.latest.saves
            conflict = Conflict.between(overtaken, form, PackForm(submission=plan.submission, saves=saves))
            typed = request.POST.copy()
            typed["saves"] = str(saves)
            form = PackForm(typed, submission=plan.submission, saves=saves)
        except ValidationError as refused:
            form.add_error(None, " ".join(refused.messages))
        else:
            say(request, _("Kept."))
            return at_pack(request, call)
    return pack_of(request, found, form, conflict)


@editor_page
@require_POST
def call_reuse(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/pack/reuse/ — statement and choices of an earlier submission are taken over."""
    found, number = call_of(request, call), request.POST.get("earlier", "")
    ours = Submission.objects.filter(call__composer=request.composer)
    earlier = ours.filter(pk=int(number)).first() if number.isdecimal() and len(number) < 10 else None
    if earlier is not None:
        reuse_submission(call=found, earlier=earlier, now=timezone.now())
        say(request, _("Taken over from “%(call)s”.") % {"call": earlier.call})
    return at_pack(request, call)


@member_page
@require_safe
def call_pack_file(request: CatalogueRequest, call: int) -> HttpResponseBase:
    """/c/<composer>/calls/<call>/pack/file/ — the pack as one archive; the page again where it would name somebody."""
    found = call_of(request, call)
    made = made_pack(plan_of(found, timezone.localdate()), found)
    if not made.files or (made.names_the_composer and "anyway" not in request.GET):
        return at_pack(request, call, "?made#names" if made.files else "")
    return archive_of(made, archive_name(found))


def archive_of(made: MadePack, name: str) -> StreamingHttpResponse:
    """Return the archive as it is written, with its length, so that whoever waits sees how far it is."""
    response = StreamingHttpResponse(zip_chunks(made.members), content_type="application/zip")
    size = zip_size((one.member.name, one.size) for one in made.files)
    if size is not None:
        response.headers["Content-Length"] = str(size)
    response.headers["Content-Disposition"] = content_disposition_header(True, name)
    response.headers["Cache-Control"] = "private, no-store"
    return response


# ---- what was sent


@editor_page
@require_POST
def call_send(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/pack/send/ — the pack has left the house: its files are kept as they were sent."""
    found, today = call_of(request, call), timezone.localdate()
    made = made_pack(plan_of(found, today), found)
    if made.names_the_composer and "anyway" not in request.POST:
        return at_pack(request, call, "?made#names")
    try:
        send_submission(call=found, files=told_files(made), sent_on=today, now=timezone.now())
    except AlreadySent as refused:
        say(request, refused.reason)
        return at_pack(request, call)
    for one in made.files:
        if not isinstance(one.member.content, Kept):
            keep_sent(b"".join(one.member.parts()), one.line.draft.suffix if one.line.draft else "pdf", default_storage)
    say(request, _("Noted as sent today; the files are kept as they were."))
    return at_pack(request, call, "#sent")


@member_page
@require_safe
def call_sent_file(request: CatalogueRequest, call: int, number: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/pack/sent/<number>/ — a file as it was sent."""
    submission = get_object_or_404(Submission.objects.filter(call__composer=request.composer), call=call)
    if not 1 <= number <= len(submission.sent_files):
        raise Http404
    told = submission.sent_files[number - 1]
    name = str(told["name"])
    content = sent_file(str(told["sha256"]), name.rpartition(".")[2], default_storage)
    if content is None:
        raise Http404
    response = HttpResponse(content, content_type="application/octet-stream")
    response.headers["Content-Disposition"] = content_disposition_header(True, name)
    return response


# ---- referees


@editor_page
@require_POST
def call_referees(request: CatalogueRequest, call: int) -> HttpResponse:
    """/c/<composer>/calls/<call>/pack/referees/ — how far the letters are, and somebody who is asked further."""
    found = call_of(request, call)
    letters = plan_of(found, timezone.localdate()).submission.letters
    form = LettersForm(request.POST, letters=letters, composer=request.composer)
    if not form.is_valid():
        say(request, " ".join(str(error) for errors in form.errors.values() for error in errors))
        return at_pack(request, call, "#referees")
    note_letters(call=found, days=form.days(), gone=form.gone())
    try:
        referee = referee_meant(request, form)
    except ValidationError as refused:
        say(request, " ".join(refused.messages))
        return at_pack(request, call, "#referees")
    if referee is not None:
        ask_referee(call=found, referee=referee, days=LetterDays())
    say(request, _("Noted."))
    return at_pack(request, call, "#referees")


def referee_meant(request: CatalogueRequest, form: LettersForm) -> Referee | None:
    """Return who is asked further: one that is known, or a new one of that name. Raises ValidationError."""
    cleaned = form.cleaned_data
    if cleaned["known"]:
        return Referee.objects.filter(composer=request.composer, pk=int(cleaned["known"])).first()
    name = cleaned["name"].strip()
    if not name:
        return None
    return new_referee(
        composer=request.composer,
        name=name,
        institution=cleaned["institution"],
        email=cleaned["email"],
        now=timezone.now(),
    )
