"""The WSGI application that every server calls, with every page loaded."""

from __future__ import annotations

import os

from catalogue.web.later import application as loaded_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "config.settings")
application = loaded_application()
