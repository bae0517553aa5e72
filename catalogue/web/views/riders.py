"""Riders on their way: sent at a secret address, read without an account, answered item by item."""

from __future__ import annotations

from django.conf import settings
from django.core.files.storage import default_storage
from django.db.models import Max
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import content_disposition_header
from django.utils.safestring import SafeString
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.riders import find_sending, mark_read, send_rider, take_answers, withdraw_sending
from catalogue.documents.registry import FORMATS as DOCUMENT_FORMATS
from catalogue.documents.registry import DocumentNeeds
from catalogue.exchange.sent_files import sent_file
from catalogue.models import Rider, RiderSending
from catalogue.rules.search import fold
from catalogue.timing import PartialDate
from catalogue.web.access import CatalogueRequest, editor_page
from catalogue.web.forms.riders import AnswersForm, SendForm
from catalogue.web.notices import say
from catalogue.web.sent_riders import FORMATS, package_of, ready, sending_of
from catalogue.web.views.documents import sheet
from catalogue.web.views.entry import secret
from catalogue.web.wording import date_text, page_language


def rider_of(request: CatalogueRequest, rider: int) -> Rider:
    ours = Rider.objects.filter(composer=request.composer).select_related("composer", "work", "performance__venue")
    return get_object_or_404(ours, pk=rider)


# ---- sending


@editor_page
@require_http_methods(["GET", "POST"])
def rider_send(request: CatalogueRequest, rider: int) -> HttpResponse:
    """/c/<composer>/riders/<rider>/send/ — what to look at before; then the address of the revision, shown once."""
    found, now = rider_of(request, rider), timezone.now()
    form = SendForm(request.POST or None, initial={"language": request.composer.language})
    if form.is_bound and form.is_valid():
        try:
            package = package_of(found, language=form.cleaned_data["language"], now=now)
        except DocumentNeeds as needs:
            form.add_error(None, needs.reason)
        else:
            sending, token = send_rider(rider=found, to=form.cleaned_data["to"], package=package, now=now)
            address = settings.SITE_URL + reverse("rider-answer", args=[token])
            return secret(render(request, "riders/rider_address.html", {"sending": sending, "address": address}))
    looked = ready(found, language=page_language(), today=timezone.localdate())
    return render(request, "riders/rider_send.html", {"form": form, "rider": found, "ready": looked})


@editor_page
@require_POST
def rider_withdraw(request: CatalogueRequest, ridersending: int) -> HttpResponse:
    """/c/<composer>/riders/sent/<sending>/withdraw/ — shuts the address of a revision; its answers stay."""
    ours = RiderSending.objects.filter(rider__composer=request.composer)
    found = get_object_or_404(ours, pk=ridersending)
    withdraw_sending(sending=found, now=timezone.now())
    say(request, _("The address of revision %(number)s leads nowhere any more.") % {"number": found.revision})
    return redirect("record-detail", request.composer.slug, "riders", found.rider_id)


# ---- reading and answering, without an account


def no_rider(request: HttpRequest) -> HttpResponse:
    """Answer the same whether an address was never given out, is withdrawn or ran out."""
    return secret(render(request, "riders/no_rider.html", status=404))


@require_http_methods(["GET", "POST"])
def rider_answer(request: HttpRequest, token: str) -> HttpResponse:
    """/riders/<token>/ — a rider as it was sent, to be read and answered by whoever has the address."""
    now = timezone.now()
    record = find_sending(token, now=now)
    if record is None:
        return no_rider(request)
    sending = sending_of(record, now)
    form = AnswersForm(request.POST or None, sending=sending)
    if form.is_bound and form.is_valid():
        take_answers(
            sending=record,
            answers=form.answers(),
            by=form.cleaned_data["by"],
            message=form.cleaned_data["message"],
            now=now,
        )
        say(request, _("Thank you: your answers are kept. You can change them here as long as this address is open."))
        return secret(redirect("rider-answer", token))
    if request.method == "GET":
        mark_read(sending=record, now=now)
    context = {"sending": sending, "form": form, "token": token, "sheet": sheet_of(record)}
    context["occasion"] = occasion_of(record)
    context["newer"] = newer_revision(record)
    return secret(render(request, "riders/rider_answer.html", context))


def occasion_of(record: RiderSending) -> str:
    """Where and when the work is played."""
    performance = record.rider.performance
    day = date_text(performance.date, page_language()) if isinstance(performance.date, PartialDate) else ""
    return ", ".join(part for part in (str(performance.venue or performance.city), day) if part)


def newer_revision(record: RiderSending) -> int | None:
    """The newest revision, where it is not this one: two people may answer different ones."""
    newest = record.rider.sendings.aggregate(newest=Max("revision"))["newest"]
    return newest if newest > record.revision else None


def sheet_of(record: RiderSending) -> SafeString:
    """The whole rider as it was sent; nothing where its file is gone."""
    content = sent_file(record.files.get("html", ""), "html", default_storage)
    return sheet(content.decode()) if content else SafeString()


@require_safe
def rider_file(request: HttpRequest, token: str, format: str) -> HttpResponse:
    """/riders/<token>/<format>/ — the rider as it was sent, as PDF or for a word processor."""
    record = find_sending(token, now=timezone.now())
    if record is None or format not in FORMATS:
        return no_rider(request)
    content = sent_file(record.files.get(format, ""), format, default_storage)
    if content is None:
        return no_rider(request)
    kind = DOCUMENT_FORMATS[format]
    response = HttpResponse(content, content_type=kind.content_type)
    title = slugify(fold(record.rider.work.title))[:60]
    name = f"rider-{title}-{record.revision}{kind.suffix}"
    response.headers["Content-Disposition"] = content_disposition_header(True, name)
    return secret(response)
