from __future__ import annotations

import importlib

from django.conf import settings

from catalogue.benches import served


def test_reading_what_a_measured_server_serves_changes_no_settings() -> None:
    before = settings.ROOT_URLCONF, settings.DATABASES["default"]["NAME"]

    importlib.reload(served)

    assert (settings.ROOT_URLCONF, settings.DATABASES["default"]["NAME"]) == before
