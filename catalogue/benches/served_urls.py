"""Every address of the house and its pages for faults, and one address that answers with nothing."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import include, path

from config.urls import handler400, handler403, handler404, handler500

__all__ = ["handler400", "handler403", "handler404", "handler500", "urlpatterns"]


def nothing(_request: HttpRequest) -> HttpResponse:
    return HttpResponse()


urlpatterns = [path("nothing/", nothing), path("", include("config.urls"))]
