"""Rules for every request: it is counted and told, no NUL byte comes in, what a signed-in person sees is not cached."""

from __future__ import annotations

import logging
from collections.abc import Callable
from time import perf_counter
from uuid import uuid4

from django.http import HttpRequest, HttpResponse, HttpResponseBadRequest

from catalogue.web.logs import request_id
from catalogue.web.measures import measure

Next = Callable[[HttpRequest], HttpResponse]
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
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
            return HttpResponseBadRequest("The address holds a character that cannot be used.")
        return self.get_response(request)


class PrivateByDefault:
    """Signed-in pages are not stored by browsers or proxies, unless the view said otherwise."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        if "Cache-Control" not in response.headers and request.user.is_authenticated:
            response.headers["Cache-Control"] = "private, no-store"
        return response
