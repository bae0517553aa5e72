"""A catalogue handed over as one file, and one taken over from such a file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory, TemporaryFile
from typing import Any

from django.conf import settings
from django.core.files.storage import default_storage
from django.http import FileResponse, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from catalogue.actions.handovers import note_given, note_taken
from catalogue.exchange.handover.archive import HandOverError, checksum_of
from catalogue.exchange.handover.arriving import look_into, take_over
from catalogue.exchange.handover.leaving import hand_over
from catalogue.models import HandOver
from catalogue.terms import Role
from catalogue.web.access import CatalogueRequest, HouseRequest, house_page, owner_page
from catalogue.web.forms.handovers import HandOverForm, TakeOverForm
from catalogue.web.notices import say


@owner_page
@require_http_methods(["GET", "POST"])
def hand_over_page(request: CatalogueRequest) -> HttpResponseBase:
    """/c/<composer>/profile/hand-over/ — the whole catalogue as one file for somebody, and when that was done."""
    form = HandOverForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid():
        try:
            return written(request, form.cleaned_data["to"])
        except HandOverError as refused:
            form.add_error(None, refused.reason)
    given = HandOver.objects.filter(composer=request.composer).select_related("by").order_by("-made_at", "-pk")
    return render(request, "handovers/hand_over.html", {"form": form, "given": given})


def written(request: CatalogueRequest, to: str) -> FileResponse:
    """Answer with the file, of which nothing stays here but a note."""
    now, composer = timezone.now(), request.composer
    with folder_beside() as folder:
        path = folder / "catalogue.zip"
        manifest = hand_over(path, composer, to=to, now=now, storage=default_storage)
        digest = checksum_of(path)
        file = TemporaryFile(dir=settings.DATA)  # noqa: SIM115 - the answer closes it
        with open(path, "rb") as made:
            while piece := made.read(1 << 20):
                file.write(piece)
    file.seek(0)
    note_given(composer=composer, to=to, sha256=digest, records=manifest.total, by=request.user, now=now)
    name = f"{composer.slug}-{now:%Y-%m-%d}.zip"
    return FileResponse(file, as_attachment=True, filename=name, content_type="application/zip")


@contextmanager
def folder_beside() -> Iterator[Path]:
    """Give a folder on the disk of the data, which is gone afterwards."""
    with TemporaryDirectory(prefix=".hand-over-", dir=settings.DATA) as folder:
        yield Path(folder)


@house_page
@require_http_methods(["GET", "POST"])
def take_over_page(request: HouseRequest) -> HttpResponse:
    """/house/take-over/ — a file that was handed over: looked into, or taken over as a catalogue of one's own."""
    may = any(seat.role == Role.OWNER for seat in request.seats)
    form = TakeOverForm(*((request.POST, request.FILES) if request.method == "POST" else ()), request=request)
    context: dict[str, Any] = {"form": form, "may": may}
    if may and form.is_bound and form.is_valid():
        with folder_beside() as folder:
            path = kept_beside(form.cleaned_data["file"], folder)
            try:
                context["found"] = found = look_into(path)
                if "take" in request.POST and not found.forbids:
                    return taken(request, path, found.sha256, found.manifest.total)
            except HandOverError as refused:
                form.add_error("file", refused.reason)
    return render(request, "handovers/take_over.html", context)


def kept_beside(upload: Any, folder: Path) -> Path:
    path = folder / "arrived.zip"
    with open(path, "wb") as file:
        for piece in upload.chunks():
            file.write(piece)
    return path


def taken(request: HouseRequest, path: Path, sha256: str, records: int) -> HttpResponse:
    now = timezone.now()
    composer = take_over(path, owner=request.user, now=now, storage=default_storage)
    note_taken(composer=composer, sha256=sha256, records=records, by=request.user, now=now)
    say(request, _("The catalogue of %(name)s is yours now.") % {"name": composer.name})
    return redirect("today", composer.slug)
