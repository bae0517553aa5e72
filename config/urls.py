"""Every address of the house; the catalogue lists them."""

from __future__ import annotations

from django.urls import include, path

urlpatterns = [path("", include("catalogue.web.urls"))]

handler400 = "catalogue.web.errors.bad_request"
handler403 = "catalogue.web.errors.forbidden"
handler404 = "catalogue.web.errors.not_found"
handler500 = "catalogue.web.errors.server_error"
