"""The house as a server serves it while it is measured: over the database that is measured."""

from __future__ import annotations

import os

from django.conf import settings
from django.core.handlers.wsgi import WSGIHandler

from catalogue.web import later


def application() -> WSGIHandler:
    """Return what the server serves; to be called in a process of its own, whose settings it changes."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
    settings.ROOT_URLCONF = "catalogue.benches.served_urls"
    settings.DATABASES["default"]["NAME"] = os.environ.get("LEDGERLINE_BENCH_DATABASE", "")
    return later.application()
