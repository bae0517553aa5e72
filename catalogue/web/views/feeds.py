"""What programs fetch: the calendar of a catalogue, at a secret address or, once opened, at a public one."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseNotFound, HttpResponseNotModified
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.text import slugify
from django.utils.translation import get_language
from django.views.decorators.http import require_safe

from catalogue.actions.calendars import note_reading
from catalogue.gathering.versions import State, state_of_address, state_of_public
from catalogue.models import CalendarAddress, Composer, Performance
from catalogue.models.people import sha256_of
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.built_once import built_once
from catalogue.web.calendars import address_calendar, event_calendar, public_calendar
from catalogue.web.kept_calendars import (
    Days,
    KeptCalendar,
    Key,
    etag_of,
    filed_calendar,
    keep_calendar,
    kept_calendar,
    text_of,
)

FRESH = 900  # seconds that a copy may be used without asking
TYPE = "text/calendar; charset=utf-8"
CONDITIONS = {"HTTP_IF_MATCH", "HTTP_IF_NONE_MATCH", "HTTP_IF_MODIFIED_SINCE", "HTTP_IF_UNMODIFIED_SINCE"}


@require_safe
def feed(request: HttpRequest, token: str, name: str) -> HttpResponse:
    """/feeds/<token>/<name>.ics — the calendar; nothing for a token that is not in use, or whose keeper is gone."""
    token_sha256 = sha256_of(token)
    key, days = ("address", token_sha256, get_language() or ""), days_now()
    known = kept_calendar(key, days)
    if known is not None and text_of(state_of_address(known.composer, token_sha256).version) == known.state:
        return calendar_response(request, known, "private")
    address = CalendarAddress.objects.with_token(token).select_related("composer").first()
    if address is None:
        return shut(HttpResponseNotFound(content_type="text/plain"))
    note_reading(address=address, day=timezone.localdate())
    state = state_of_address(address.composer_id, token_sha256)
    built = built_calendar(key, days, address.composer, state, lambda: address_calendar(address))
    return calendar_response(request, built, "private")


@require_safe
def public_feed(request: HttpRequest, name: str) -> HttpResponse:
    """/calendars/<composer>.ics — what is announced and open to all, where its owner has opened the calendar."""
    key, days = ("public", name, get_language() or ""), days_now()
    known = kept_calendar(key, days)
    if known is not None and text_of(state_of_public(known.composer).version) == known.state:
        return calendar_response(request, known, "public")
    composer = Composer.objects.filter(slug=name, feed_is_public=True).first()
    if composer is None:
        return shut(HttpResponseNotFound(content_type="text/plain"))
    state = state_of_public(composer.pk)
    built = built_calendar(key, days, composer, state, lambda: public_calendar(composer))
    return calendar_response(request, built, "public")


@member_page
@require_safe
def performance_event(request: CatalogueRequest, performance: int) -> HttpResponse:
    """/c/<composer>/performances/<performance>/event.ics — one performance, to be put into a calendar by hand."""
    found = get_object_or_404(Performance.objects.filter(composer=request.composer), pk=performance)
    content = event_calendar(found)
    if content is None:
        raise Http404
    name = slugify(str(found)) or "performance"
    response = HttpResponse(content, content_type=TYPE)
    response.headers["Content-Disposition"] = f'attachment; filename="{name[:80]}.ics"'
    return response


# ---- built once, given out as long as nothing changes


def days_now() -> Days:
    """Return what day it is for calendars (UTC) and for pages: what is to come changes with it."""
    now = timezone.now()
    return now.astimezone(UTC).date(), timezone.localdate(now)


def built_calendar(key: Key, days: Days, composer: Composer, state: State, build: Callable[[], bytes]) -> KeptCalendar:
    """Build a calendar and keep it, once for all who ask meanwhile, unless another process has.

    ``state`` is the catalogue's before it was read.
    """
    told = text_of(state.version)

    def made() -> KeptCalendar:
        filed = filed_calendar(key, days)
        if filed is not None and filed.state == told:
            return filed
        content = build()
        built = KeptCalendar(composer.pk, told, days, f"{composer.slug}.ics", content, etag_of(content))
        if state.is_settled:
            keep_calendar(key, built)
        return built

    return built_once((key, days, told), made) if state.is_settled else made()


def calendar_response(request: HttpRequest, calendar: KeptCalendar, kept_by: str) -> HttpResponse:
    """Answer with a calendar, or say that it has not changed."""
    unchanged = not_modified(request, calendar.etag)
    response = unchanged or HttpResponse(calendar.content, content_type=TYPE)
    if unchanged is None:
        response.headers["Content-Disposition"] = f'inline; filename="{calendar.name}"'
    response.headers["ETag"] = calendar.etag
    response.headers["Cache-Control"] = f"{kept_by}, max-age={FRESH}"
    return shut(response)


def not_modified(request: HttpRequest, etag: str) -> HttpResponse | None:
    """Return the answer to whoever has these bytes already; most programs name their tag alone."""
    if request.META.get("HTTP_IF_NONE_MATCH") == etag:
        return HttpResponseNotModified()
    return get_conditional_response(request, etag=etag) if CONDITIONS & request.META.keys() else None


def shut(response: HttpResponse) -> HttpResponse:
    """Keep a calendar's address out of search engines, and a secret one out of referrers."""
    response.headers["X-Robots-Tag"] = "noindex, nofollow"
    response.headers["Referrer-Policy"] = "no-referrer"
    response.headers.setdefault("Cache-Control", "private, no-store")
    return response
