"""The pages for what went wrong; each says what happened and what to do next."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.template.loader import render_to_string

from catalogue.web.kept import typed_in


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/bad_request.html", status=400)


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/forbidden.html", status=403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/not_found.html", status=404)


def server_error(request: HttpRequest) -> HttpResponse:
    """Answer without the request, since who is signed in may be just what cannot be asked."""
    return HttpResponse(render_to_string("errors/server_error.html"), status=500)


def csrf_failure(request: HttpRequest, reason: str = "") -> HttpResponse:
    """A form that was open too long, or came from elsewhere; what was typed is shown to be copied or sent again.

    Sending again is offered only where the browser says that the form came from a page of this site.
    """
    typed = typed_in(request)
    context = {
        "typed": typed.fields,
        "address": typed.address,
        "can_send_again": request.headers.get("Sec-Fetch-Site") == "same-origin" and request.method == "POST",
    }
    return render(request, "errors/form_expired.html", context, status=403)
