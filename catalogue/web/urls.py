"""Every address, grouped by its first words, in the order of the menu.

``/c/<composer>/`` opens one composer's catalogue; the address says whose it is, so that two windows never mix.
"""

from __future__ import annotations

from django.urls import URLPattern, URLResolver, include, path

from catalogue.web.views import composers, entry, help, sign, works

# /c/<composer>/works/
work_addresses: list[URLPattern] = [
    path("", works.work_list, name="work-list"),
]

# /c/<composer>/
catalogue_addresses: list[URLPattern | URLResolver] = [
    path("works/", include(work_addresses)),
]

urlpatterns: list[URLPattern | URLResolver] = [
    path("", composers.home, name="home"),
    path("composers/", composers.composer_list, name="composer-list"),
    path("c/<slug:composer>/", include(catalogue_addresses)),
    path("sign-in/", sign.sign_in, name="sign-in"),
    path("sign-out/", sign.sign_out, name="sign-out"),
    path("start/<str:token>/", entry.start, name="start"),
    path("enter/<str:token>/", entry.enter, name="enter"),
    path("help/keyboard/", help.keyboard, name="keyboard"),
]
