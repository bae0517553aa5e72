"""Our addresses with those of the framework's administration, for the measuring of both."""

from __future__ import annotations

from django.urls import include, path

from catalogue.benches.subjects.administration import administration

urlpatterns = [path("administration/", administration().urls), path("", include("config.urls"))]
