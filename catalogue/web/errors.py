"""The pages for what went wrong; each says what happened and what to do next."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/bad_request.html", status=400)


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/forbidden.html", status=403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/not_found.html", status=404)


def server_error(request: HttpRequest) -> HttpResponse:
    return render(request, "errors/server_error.html", status=500)


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form that was open too long, or came from elsewhere; what was typed is shown to be copied or sent again."""
    typed = [(name, value) for name, value in request.POST.items() if name not in {"csrfmiddlewaretoken", "password"}]
    return render(request, "errors/form_expired.html", {"typed": typed}, status=403)
