"""Our addresses with those of the framework's administration, for the measuring of both."""

from __future__ import annotations

from django.urls import path

from catalogue.benches.subjects.administration import administration
from config.urls import urlpatterns as ours

urlpatterns = [path("administration/", administration().urls), *ours]
