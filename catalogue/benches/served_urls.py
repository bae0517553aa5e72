"""Every address of the house, and one that answers with nothing."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.urls import include, path


def nothing(_request: HttpRequest) -> HttpResponse:
    return HttpResponse()


urlpatterns = [path("nothing/", nothing), path("", include("config.urls"))]
