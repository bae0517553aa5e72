"""Files at a secret address, opened without an account by whoever has it.

Editors send any of them; librarians send scores and parts, and see and shut the addresses that open nothing else.
"""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.core.files.storage import default_storage
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalogue.actions.addresses import note_reading, shut
from catalogue.actions.file_links import file_at, files_of, find_link, note_taking, open_link
from catalogue.exchange.file_formats import FORMATS
from catalogue.exchange.pictures import stored_name
from catalogue.exchange.stored_files import name_to_take_away
from catalogue.models import FileLink, Hire, LinkedFile
from catalogue.models.file_links import FileLinkQuerySet
from catalogue.terms import FileKind
from catalogue.terms.hires import LinkPurpose
from catalogue.web.access import CatalogueRequest, material_editor_page, material_page
from catalogue.web.byte_ranges import sent_file_response
from catalogue.web.forms.document_base import number_of
from catalogue.web.forms.file_links import LinkForm
from catalogue.web.notices import say
from catalogue.web.records.registry import FILES_OF_MATERIAL
from catalogue.web.views.entry import secret
from catalogue.web.views.records import asked_work

LISTED = 200


def links_of(request: CatalogueRequest) -> FileLinkQuerySet:
    """Return the links that whoever asks may see."""
    ours = FileLink.objects.filter(composer=request.composer)
    if not request.is_librarian:
        return ours
    others = LinkedFile.objects.filter(link__composer=request.composer).exclude(file__kind__in=FILES_OF_MATERIAL)
    return ours.exclude(pk__in=others.values("link"))


@material_page
@require_safe
def link_list(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/links/ — the addresses that were given out: to whom, until when, read how often."""
    ours = links_of(request).select_related("work")
    links = list(ours.prefetch_related("files__file").order_by("-sent_at", "-pk")[:LISTED])
    now = timezone.now()
    rows = [(link, link.withdrawn_at is None and link.expires_at > now) for link in links]
    return render(request, "links/link_list.html", {"rows": rows})


@material_editor_page
@require_http_methods(["GET", "POST"])
def link_new(request: CatalogueRequest) -> HttpResponse:
    """/c/<composer>/links/new/ — files for somebody, of a work or of a hire; then their address, shown once."""
    hire = asked_hire(request)
    work = hire.work if hire else asked_work(request)
    sent = request.POST if request.method == "POST" else None
    initial: dict[str, Any] = {"recipient": hire.holder, "purpose": LinkPurpose.PARTS.value} if hire else {}
    named = number_of(request.GET.get("file", ""))
    initial["chosen"] = [] if named is None else [named]
    kinds = FILES_OF_MATERIAL if request.is_librarian else tuple(FileKind)
    form = LinkForm(sent, composer=request.composer, work=work, kinds=kinds, initial=initial)
    if form.is_bound and form.is_valid():
        typed = form.cleaned_data
        link, token = open_link(
            composer=request.composer,
            work=work,
            hire=hire,
            recipient=typed["recipient"],
            files=list(typed["chosen"]),
            purpose=LinkPurpose(typed["purpose"]),
            days=typed["days"],
            message=typed["message"],
            now=timezone.now(),
        )
        address = settings.SITE_URL + reverse("shared-files", args=[token])
        return secret(render(request, "links/link_address.html", {"link": link, "address": address}))
    return render(request, "links/link_new.html", {"form": form, "work": work, "hire": hire})


def asked_hire(request: CatalogueRequest) -> Hire | None:
    """Return the hire that the address names, if it is one of this catalogue."""
    key = number_of(request.GET.get("hire", ""))
    ours = Hire.objects.filter(composer=request.composer).select_related("work", "person", "organisation")
    return ours.filter(pk=key).first() if key is not None else None


@material_editor_page
@require_POST
def link_shut(request: CatalogueRequest, filelink: int) -> HttpResponse:
    """/c/<composer>/links/<link>/shut/ — the address leads nowhere any more."""
    found = get_object_or_404(links_of(request), pk=filelink)
    shut(found, timezone.now())
    say(request, _("The address for %(who)s leads nowhere any more.") % {"who": found.recipient})
    return redirect("link-list", request.composer.slug)


# ---- opened, without an account


def no_files(request: HttpRequest) -> HttpResponse:
    """Answer the same whether an address was never given out, is shut or ran out."""
    return secret(render(request, "links/no_files.html", status=404))


@require_safe
def shared_files(request: HttpRequest, token: str) -> HttpResponse:
    """/shared/<token>/ — files to be read, heard and taken by whoever has the address."""
    now = timezone.now()
    link = find_link(token, now=now)
    if link is None:
        return no_files(request)
    if request.method == "GET":
        note_reading(link, now)
    return secret(render(request, "links/shared_files.html", {"link": link, "token": token, "files": files_of(link)}))


@require_safe
def shared_file(request: HttpRequest, token: str, number: int) -> HttpResponseBase:
    """/shared/<token>/<number>/ — one of the files, whole or a range of it; a whole one is counted."""
    link = find_link(token, now=timezone.now())
    taken = file_at(link, number) if link is not None else None
    stored = stored_name(taken.file.sha256, taken.file.suffix) if taken is not None else ""
    if taken is None or not default_storage.exists(stored):
        return no_files(request)
    if request.method == "GET" and "Range" not in request.headers:
        note_taking(taken)
    answer = sent_file_response(
        request,
        storage=default_storage,
        stored=stored,
        etag=taken.file.sha256,
        media_type=FORMATS[taken.file.suffix].media_type,
        name=name_to_take_away(taken.file.original_name, taken.file.suffix),
    )
    answer.headers["X-Robots-Tag"] = "noindex, nofollow, noarchive"
    return answer
