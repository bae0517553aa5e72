"""Every address, grouped by its first word, in the order of the menu."""

from __future__ import annotations

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
