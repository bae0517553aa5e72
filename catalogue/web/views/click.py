"""What a tempo map gives to take along: a Standard MIDI File, a click, and the click with the media as one set."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePath
from typing import Any, cast

from django.core.exceptions import ValidationError
from django.http import HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.utils.http import content_disposition_header
from django.utils.text import slugify
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from catalogue.documents.contents.cautions import Caution, words_of
from catalogue.documents.labels import labels
from catalogue.exchange.aligned_set import Laid, Plan, plan_of, set_chunks
from catalogue.exchange.media_files import MediaError, Wave, read_wave
from catalogue.gathering.timing import gather_timing
from catalogue.models import Work
from catalogue.rules.cues import PlacedCue, placed_cues
from catalogue.rules.search import fold
from catalogue.timing import ClickError, Marker, Reckoned, click_bytes, click_chunks, midi_file
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.forms.click import ClickForm, SetForm
from catalogue.web.timing_page import reckoned_or_none
from catalogue.web.uploads import is_too_large
from catalogue.web.views.timing import work_of
from catalogue.web.wording import page_language


@member_page
@require_safe
def timing_midi(request: CatalogueRequest, work: int) -> HttpResponseBase:
    """/c/<composer>/works/<work>/timing/midi/ — tempos, metres and cues as a Standard MIDI File."""
    found = work_of(request, work)
    reckoned = reckoned_or_none(found.tempo_map)
    if reckoned is None:
        return redirect("timing-detail", request.composer.slug, work)
    placed = placed_cues(gather_timing(found).cues, reckoned)
    content = midi_file(reckoned.line, markers(placed), title=found.title)
    return attachment(HttpResponse(content, content_type="audio/midi"), request, found, "timing.mid")


def markers(placed: Iterable[PlacedCue]) -> list[Marker]:
    return [Marker(one.seconds, f"{one.cue.number}: {one.cue.action}") for one in placed if one.seconds is not None]


@member_page
@require_safe
def timing_click(request: CatalogueRequest, work: int) -> HttpResponseBase:
    """/c/<composer>/works/<work>/timing/click/ — how the click is to be; alone, or with the media files."""
    found = work_of(request, work)
    if reckoned_or_none(found.tempo_map) is None:
        return redirect("timing-detail", request.composer.slug, work)
    return click_page(request, found, ClickForm(text=found.tempo_map), set_form(found))


def click_page(request: CatalogueRequest, work: Work, form: ClickForm, bundle: SetForm) -> HttpResponse:
    cues = gather_timing(work).cues
    media = list(dict.fromkeys(cue.media for cue in cues if cue.media.lower().endswith(".wav")))
    caution = words_of(Caution.IN_EAR, labels(page_language()))
    context = {"work": work, "form": form, "bundle": bundle, "media": media, "caution": caution}
    return render(request, "timing/click.html", context)


def set_form(work: Work, *typed: Any) -> SetForm:
    return SetForm(*typed, text=work.tempo_map, prefix="set")


@member_page
@require_safe
def timing_click_file(request: CatalogueRequest, work: int) -> HttpResponseBase:
    """/c/<composer>/works/<work>/timing/click/file/ — the click as a WAV file, sent while it is made."""
    found = work_of(request, work)
    if reckoned_or_none(found.tempo_map) is None:
        return redirect("timing-detail", request.composer.slug, work)
    form = ClickForm(request.GET, text=found.tempo_map)
    if form.is_valid():
        try:
            response = click_response(form)
        except ClickError as refused:
            form.add_error(None, refused.reason)
        else:
            return attachment(response, request, found, "click.wav")
    return click_page(request, found, form, set_form(found))


def click_response(form: ClickForm) -> StreamingHttpResponse:
    """Return the click, its length known beforehand. Raises ClickError."""
    line, asked = cast(Reckoned, form.reckoned).line, form.cleaned_data
    parts = click_chunks(line, count_in=asked["count_in"], sample_rate=asked["rate"], subdivision=form.subdivision)
    response = StreamingHttpResponse(parts, content_type="audio/wav")
    size = click_bytes(line, count_in=asked["count_in"], sample_rate=asked["rate"])
    response.headers["Content-Length"] = str(size)
    return response


@member_page
@require_POST
def timing_set(request: CatalogueRequest, work: int) -> HttpResponseBase:
    """/c/<composer>/works/<work>/timing/set/ — click and media of one zero, one length and one rate, as an archive."""
    found = work_of(request, work)
    if reckoned_or_none(found.tempo_map) is None:
        return redirect("timing-detail", request.composer.slug, work)
    form = set_form(found, request.POST, request.FILES)
    if is_too_large(request, "set-sounds"):
        form.add_error("sounds", _("One of these files is too large to be sent."))
    elif form.is_valid():
        try:
            response = StreamingHttpResponse(set_chunks(planned(form, found)), content_type="application/zip")
        except (MediaError, ClickError) as refused:
            form.add_error("sounds", ValidationError(refused.reason))
        else:
            return attachment(response, request, found, "click-and-media.zip")
    return click_page(request, found, ClickForm(text=found.tempo_map), form)


def planned(form: SetForm, work: Work) -> Plan:
    """Lay each file at the cues that name it. Raises MediaError, ClickError."""
    reckoned = cast(Reckoned, form.reckoned)
    waves = {named(file.name): read_wave(file.name or "", file.file) for file in form.cleaned_data["sounds"]}
    placed = [one for one in placed_cues(gather_timing(work).cues, reckoned) if one.seconds is not None]
    refuse_unnamed(waves, placed)
    laid = tuple(
        Laid(one.cue, one.seconds, waves[named(one.cue.media)])
        for one in placed
        if one.seconds is not None and named(one.cue.media) in waves
    )
    return plan_of(Plan(reckoned.line, laid, form.cleaned_data["count_in"], form.subdivision))


def refuse_unnamed(waves: dict[str, Wave], placed: Iterable[PlacedCue]) -> None:
    known = {named(one.cue.media) for one in placed}
    for name, wave in waves.items():
        if name not in known:
            raise MediaError(f"“{wave.name}” is named at no cue that has a time.")


def named(file: str | None) -> str:
    """Return a file's name as it is compared: without its folder, in small letters."""
    return PurePath((file or "").replace("\\", "/")).name.strip().casefold()


def attachment(response: Any, request: CatalogueRequest, work: Work, name: str) -> HttpResponseBase:
    """Name a file after the work."""
    begins = slugify(fold(work.title))[:60] or request.composer.slug
    response.headers["Content-Disposition"] = content_disposition_header(True, f"{begins}-{name}")
    return cast(HttpResponseBase, response)
