"""The list of performances beside the framework's own administration list of the same rows, with the same questions.

The administration is switched on for the measuring alone, beside our own templates and addresses.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache, partial
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.contrib.messages.storage import default_storage
from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.test.utils import override_settings

from catalogue.benches.catalogues import catalogue_of, request_of
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.models import Performance
from catalogue.web.kept_for_members import forget_pages
from catalogue.web.tables.lists import PER_PAGE
from catalogue.web.views.performances import performance_list

ENGINE = "administration"
ADMIN = "django.contrib.admin"
TEMPLATES = {
    "NAME": ENGINE,
    "BACKEND": "django.template.backends.django.DjangoTemplates",
    "APP_DIRS": True,
    "OPTIONS": {
        "context_processors": [
            "django.template.context_processors.request",
            "django.contrib.auth.context_processors.auth",
            "django.contrib.messages.context_processors.messages",
        ]
    },
}


@cache
def administration() -> Any:
    """Return the framework's page of performances: date, works, performers and hall, three filters, a search."""
    from_framework = __import__(ADMIN, fromlist=["AdminSite", "ModelAdmin"])  # names a model, so it waits for its app

    class Performances(from_framework.ModelAdmin):  # type: ignore[name-defined]
        list_display = ("date", "works", "performers", "venue", "status")
        list_filter = ("kind", "status", "audience")
        search_fields = ("event_title", "venue__name")
        list_per_page = PER_PAGE
        ordering = ("-first_day", "-time", "-pk")

        def get_queryset(self, request: Any) -> Any:
            return Performance.objects.filter(composer=request.composer).with_everything_printed()

        def works(self, record: Performance) -> str:
            return ", ".join(row.work.title for row in record.programme.all())

        def performers(self, record: Performance) -> str:
            return ", ".join(credit.billed_name for credit in record.credits.all())

    site = from_framework.AdminSite(name="admin")
    site.register(Performance, Performances)
    return site


def administration_list(request: HttpRequest) -> HttpResponseBase:
    response: Any = administration()._registry[Performance].changelist_view(request)
    response.using = ENGINE
    return response.render()


@contextmanager
def switched_on() -> Iterator[None]:
    with override_settings(
        INSTALLED_APPS=[*settings.INSTALLED_APPS, ADMIN],
        TEMPLATES=[*settings.TEMPLATES, TEMPLATES],
        ROOT_URLCONF="catalogue.benches.administration_urls",
    ):
        yield


@contextmanager
def beside_administration(size: int) -> Iterator[Pair]:
    composer = catalogue_of(size)
    ours, theirs = request_of(composer), request_of(composer)
    theirs.composer, theirs.user = composer, User(pk=theirs.user.pk, is_superuser=True, is_staff=True, is_active=True)
    theirs.session = {}
    theirs._messages = default_storage(theirs)
    with switched_on():
        yield Pair(
            ours=partial(performance_list, ours, composer=composer.slug),
            bare=partial(administration_list, theirs),
            before=forget_pages,
        )


HEADING = Heading.PAGES
BENCHES = (
    Bench(
        "page of performances beside the framework's administration, performances in the catalogue",
        "the framework's administration lists the same 50 rows with three filters",
        (1_000, 100_000, 1_000_000),
        beside_administration,
        aim=0.33,
        stored=True,
    ),
)
