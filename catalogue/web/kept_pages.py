"""Public pages as they were last given out, kept in memory with the state of the catalogue that they show.

A page that is asked for again is neither gathered nor set again as long as nothing was saved that it can show, on the
same day and in the same language. What somebody sees who is signed in, or is told something, is theirs alone and is
put together anew, around the same content (``public_sets``).
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

from catalogue.gathering.versions import State, state_of_pages, state_of_site
from catalogue.models import Composer
from catalogue.web.built_once import built_once
from catalogue.web.kept_calendars import Days, KeptCalendar, Key, etag_of, remember, remembered, text_of

FRESH = 300  # seconds that a copy may be used without asking
View = Callable[..., HttpResponse]


def kept_for_all(view: View) -> View:
    """Let a view of a composer's public page answer from memory; its arguments name the page."""

    @wraps(view)
    def answered(request: HttpRequest, name: str, **which: Any) -> HttpResponse:
        if is_for_one(request):
            return view(request, name, **which)
        key = ("page", view.__name__, name, get_language() or "", *(str(value) for value in which.values()))
        known = remembered(key, days_now())
        if known is None or text_of(state_of_pages(known.composer).version) != known.state:
            composer = Composer.objects.filter(slug=name, is_public=True).values_list("pk", flat=True).first()
            if composer is None:
                return view(request, name, **which)
            known = built(key, composer, state_of_pages(composer), lambda: view(request, name, **which))
        return given_out(request, known)

    return answered


def kept_for_site(view: View) -> View:
    """Let a view of the whole site that is the same for everybody answer from memory."""

    @wraps(view)
    def answered(request: HttpRequest, **which: Any) -> HttpResponse:
        key, state = ("site", view.__name__, *(str(value) for value in which.values())), state_of_site()
        known = remembered(key, days_now())
        if known is None or text_of(state.version) != known.state:
            known = built(key, 0, state, lambda: view(request, **which))
        return given_out(request, known)

    return answered


def days_now() -> Days:
    return (timezone.localdate(),)


def built(key: Key, composer: int, state: State, build: Callable[[], HttpResponse]) -> KeptCalendar:
    """Build a page and keep it, once for all who ask meanwhile; ``state`` is what there was before it was read."""
    told, days = text_of(state.version), days_now()

    def made() -> KeptCalendar:
        kept = remembered(key, days)
        if kept is not None and kept.state == told:
            return kept
        response = build()
        content = response.content
        page = KeptCalendar(composer, told, days, response.headers["Content-Type"], content, etag_of(content))
        if state.is_settled:
            remember(key, page)
        return page

    return built_once((key, days, told), made) if state.is_settled else made()


def given_out(request: HttpRequest, page: KeptCalendar) -> HttpResponse:
    return for_all(request, HttpResponse(page.content, content_type=page.name), page.etag)


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
