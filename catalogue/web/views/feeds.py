"""What programs fetch: the calendar of a catalogue, at a secret address or, once opened, at a public one."""

from __future__ import annotations

from hashlib import sha256

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseNotFound
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.text import slugify
from django.views.decorators.http import require_safe

from catalogue.actions.calendars import note_reading
from catalogue.models import CalendarAddress, Composer, Performance
from catalogue.web.access import CatalogueRequest, member_page
from catalogue.web.calendars import address_calendar, event_calendar, public_calendar

FRESH = 900  # seconds that a copy may be used without asking
TYPE = "text/calendar; charset=utf-8"


@require_safe
def feed(request: HttpRequest, token: str, name: str) -> HttpResponse:
    """/feeds/<token>/<name>.ics — the calendar; nothing for a token that is not in use, or whose keeper is gone."""
    address = CalendarAddress.objects.with_token(token).select_related("composer").first()
    if address is None:
        return shut(HttpResponseNotFound(content_type="text/plain"))
    note_reading(address=address, day=timezone.localdate())
    return shut(calendar_response(request, address_calendar(address), f"{address.composer.slug}.ics", "private"))


@require_safe
def public_feed(request: HttpRequest, name: str) -> HttpResponse:
    """/calendars/<composer>.ics — what is announced and open to all, where its owner has opened the calendar."""
    composer = Composer.objects.filter(slug=name, feed_is_public=True).first()
    if composer is None:
        return shut(HttpResponseNotFound(content_type="text/plain"))
    return shut(calendar_response(request, public_calendar(composer), f"{composer.slug}.ics", "public"))


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


def calendar_response(request: HttpRequest, content: bytes, name: str, kept_by: str) -> HttpResponse:
    """Answer with a calendar, or say that it has not changed; the tag is that of its bytes."""
    response = HttpResponse(content, content_type=TYPE)
    response.headers["Content-Disposition"] = f'inline; filename="{name}"'
    response.headers["ETag"] = f'"{sha256(content).hexdigest()}"'
    response.headers["Cache-Control"] = f"{kept_by}, max-age={FRESH}"
    return get_conditional_response(request, etag=response.headers["ETag"], response=response) or response


def shut(response: HttpResponse) -> HttpResponse:
    """Keep a calendar's address out of search engines, and a secret one out of referrers."""
    response.headers["X-Robots-Tag"] = "noindex, nofollow"
    response.headers["Referrer-Policy"] = "no-referrer"
    response.headers.setdefault("Cache-Control", "private, no-store")
    return response
