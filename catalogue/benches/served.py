"""The house as a server serves it while it is measured: all its pages, and one that answers with nothing."""

from __future__ import annotations

import os

from django.conf import settings
from django.core.wsgi import get_wsgi_application
from django.http import HttpRequest, HttpResponse
from django.urls import include, path

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
settings.ROOT_URLCONF = __name__
settings.DATABASES["default"]["NAME"] = os.environ.get("LEDGERLINE_BENCH_DATABASE", "")


def nothing(_request: HttpRequest) -> HttpResponse:
    return HttpResponse()


application = get_wsgi_application()  # before the addresses, whose views ask for the models
urlpatterns = [path("nothing/", nothing), path("", include("config.urls"))]
