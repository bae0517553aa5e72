"""The application's name, and what is done once it is loaded; it connects nothing at start."""

from __future__ import annotations

import gc

from django.apps import AppConfig


class CatalogueConfig(AppConfig):
    name = "catalogue"
    verbose_name = "Catalogue"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Let the collector of cycles go on, which pauses while all this is loaded, and leave alone what is there."""
        gc.freeze()
        gc.enable()
