"""Public pages as they were last given out, kept in memory with the state of the catalogue that they show.

A page that is asked for again is neither gathered nor set again as long as nothing was saved that it can show, on the
same day and in the same language. What somebody sees who is signed in, or is told something, is theirs alone and is
made anew.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.messages import get_messages
from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.cache import get_conditional_response
from django.utils.translation import get_language

from catalogue.gathering.versions import state_of_pages
from catalogue.models import Composer
from catalogue.web.kept_calendars import KeptCalendar, Key, etag_of, remember, remembered, text_of

FRESH = 300  # seconds that a copy may be used without asking
View = Callable[..., HttpResponse]


def kept_for_all(view: View) -> View:
    """Let a view of a composer's public page answer from memory; its arguments name the page."""

    @wraps(view)
    def answered(request: HttpRequest, name: str, **which: Any) -> HttpResponse:
        if is_for_one(request):
            return view(request, name, **which)
        key = ("page", view.__name__, name, get_language() or "", *(str(value) for value in which.values()))
        known = remembered(key, (timezone.localdate(),))
        if known is None or text_of(state_of_pages(known.composer).version) != known.state:
            composer = Composer.objects.filter(slug=name, is_public=True).values_list("pk", flat=True).first()
            known = None if composer is None else built(key, composer, lambda: view(request, name, **which))
        if known is None:
            return view(request, name, **which)
        return for_all(request, HttpResponse(known.content, content_type=known.name), known.etag)

    return answered


def built(key: Key, composer: int, build: Callable[[], HttpResponse]) -> KeptCalendar:
    """Build a page and keep it; the state is the catalogue's before it was read."""
    state, days = state_of_pages(composer), (timezone.localdate(),)
    response = build()
    told, content = text_of(state.version), response.content
    page = KeptCalendar(composer, told, days, response.headers["Content-Type"], content, etag_of(content))
    if state.is_settled:
        remember(key, page)
    return page


def is_for_one(request: HttpRequest) -> bool:
    """Whether the page of this request carries a name or a notice that is for one person."""
    return request.user.is_authenticated or len(get_messages(request)) > 0


def for_all(request: HttpRequest, response: HttpResponse, etag: str = "") -> HttpResponse:
    """Let everybody keep a copy for a while, and say where it has not changed since theirs was made."""
    if is_for_one(request):
        return response
    response.headers["Cache-Control"] = f"public, max-age={FRESH}"
    response.headers["ETag"] = etag or etag_of(response.content)
    return get_conditional_response(request, etag=response.headers["ETag"], response=response) or response
