"""Two rules for every request: no NUL byte comes in, and what a signed-in person sees is not cached."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse, HttpResponseBadRequest

Next = Callable[[HttpRequest], HttpResponse]


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
