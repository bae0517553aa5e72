"""The pages for what went wrong; each says what happened and what to do next."""

from __future__ import annotations

import sys

from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.http import HttpRequest, HttpResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.template.loader import render_to_string

from catalogue.exchange.storing_faults import Why, why_not_stored
from catalogue.web.kept import typed_in

TOO_MUCH = (RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent)
STATUS = {Why.FULL: 507, Why.READ_ONLY: 503, Why.BUSY: 503}


def bad_request(request: HttpRequest, exception: Exception) -> HttpResponse:
    if isinstance(exception, TOO_MUCH):
        return render(request, "errors/too_much.html", status=413)
    return render(request, "errors/bad_request.html", status=400)


def forbidden(request: HttpRequest, exception: Exception) -> HttpResponse:
    """Tell a member what their role leaves to others, and whom to ask."""
    return render(request, "errors/forbidden.html", {"role": str(getattr(request, "role", ""))}, status=403)


def not_found(request: HttpRequest, exception: Exception) -> HttpResponse:
    return render(request, "errors/not_found.html", status=404)


def server_error(request: HttpRequest) -> HttpResponse:
    """Answer without asking the database, which may be just what cannot be asked.

    Where nothing could be stored, the reason is told, and what was typed is there to be sent again.
    """
    why = why_not_stored(sys.exception())
    if why is None:
        return HttpResponse(render_to_string("errors/server_error.html"), status=500)
    context = {
        "why": why.value,
        "typed": typed_in(request).fields,
        "address": request.get_full_path(),
        "can_send_again": request.method == "POST",
        "csrf_token": get_token(request),
    }
    return HttpResponse(render_to_string("errors/not_stored.html", context), status=STATUS[why])


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
