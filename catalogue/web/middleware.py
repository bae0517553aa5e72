"""Rules for every request: it is counted and told, and no NUL byte comes in.

What a signed-in person sees is told by their clock, and not cached.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import tzinfo
from time import perf_counter
from urllib.parse import unquote
from uuid import uuid4

from django.conf import settings
from django.core.exceptions import BadRequest
from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from catalogue.timing import MomentError, zone_named
from catalogue.web.counted import measure
from catalogue.web.logs import request_id

Next = Callable[[HttpRequest], HttpResponse]
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
LONGEST_ZONE = 100
log = logging.getLogger(__name__)


class TellRequests:
    """Gives each request an id, which the answer bears, and tells the log and the measures how it went."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        began, identity = perf_counter(), uuid4().hex
        held = request_id.set(identity)
        try:
            response = self.get_response(request)
            response.headers["X-Request-ID"] = identity
            tell(request, response.status_code, perf_counter() - began)
        finally:
            request_id.reset(held)
        return response


def tell(request: HttpRequest, status: int, seconds: float) -> None:
    match = request.resolver_match
    route, method = (match.view_name if match else "none"), request.method or ""
    method = method if method in METHODS else "OTHER"
    measure(route=route, method=method, status=status, seconds=seconds)
    composer = getattr(request, "composer", None)
    told = {
        "method": method,
        "route": route,
        "status": status,
        "milliseconds": round(seconds * 1000, 1),
        "role": str(getattr(request, "role", "")),
        "composer": composer and composer.pk,
    }
    log.info("request", extra=told)


class RefuseNulBytes:
    """Answers 400 to an address with a NUL byte, which PostgreSQL refuses to store and SQLite cuts at."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if "\x00" in request.path or "%00" in request.META.get("QUERY_STRING", ""):
            raise BadRequest("The address holds a character that cannot be used.")
        return self.get_response(request)


class ReadersClock:
    """Tells moments by the clock of whoever is signed in; a page's script leaves its time zone in a cookie.

    Without one, and for strangers, moments are told in universal time, and pages say so.
    """

    NAMES = ("__Host-clock", "clock")

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        with timezone.override(self.zone_of(request)):
            return self.get_response(request)

    def zone_of(self, request: HttpRequest) -> tzinfo | None:
        told = next((request.COOKIES[name] for name in self.NAMES if name in request.COOKIES), "")
        if not told or settings.SESSION_COOKIE_NAME not in request.COOKIES:
            return None
        try:
            return zone_named(unquote(told[:LONGEST_ZONE]))
        except MomentError:
            return None


class PrivateByDefault:
    """Signed-in pages are not stored by browsers or proxies, unless the view said otherwise."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if "Cache-Control" not in response.headers and request.user.is_authenticated:
            response.headers["Cache-Control"] = "private, no-store"
        return response
