"""What the machines around a house ask: is it alive, is it ready, what does it measure. Strangers learn no more."""

from __future__ import annotations

from django.conf import settings
from django.http import Http404, HttpRequest, HttpResponse
from django.utils.crypto import constant_time_compare
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe
from prometheus_client import CONTENT_TYPE_PLAIN_0_0_4

from catalogue.web.health import lacks
from catalogue.web.measures import measured

PLAIN = "text/plain; charset=utf-8"


@never_cache
@require_safe
def alive(request: HttpRequest) -> HttpResponse:
    """/health/live/ — this process answers; nothing else is asked."""
    return HttpResponse("alive\n", content_type=PLAIN)


@never_cache
@require_safe
def ready(request: HttpRequest) -> HttpResponse:
    """/health/ready/ — 200 where database, tables and storage are there, else 503; why is told by the log alone."""
    if lacks():
        return HttpResponse("not ready\n", content_type=PLAIN, status=503)
    return HttpResponse("ready\n", content_type=PLAIN)


@never_cache
@require_safe
def metrics(request: HttpRequest) -> HttpResponse:
    """/metrics/ — for whoever has the token (RFC 6750, 2.1); without one, and to everybody else, there is nothing."""
    scheme, _space, token = request.headers.get("Authorization", "").partition(" ")
    wanted: str = settings.METRICS_TOKEN
    if not wanted or scheme.lower() != "bearer" or not constant_time_compare(token.strip(), wanted):
        raise Http404
    return HttpResponse(measured(), content_type=CONTENT_TYPE_PLAIN_0_0_4)
