"""The public page of a composer, asked by many, beside a view that answers with nothing.

Both are asked as a browser asks them, through all that requests go through, so many times one after the other; a page
costs what its records cost to fetch, to say and to set, hence no aim against an answer without any.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial

from django.http import HttpRequest, HttpResponse
from django.test import Client
from django.test.utils import override_settings
from django.urls import include, path, reverse

from catalogue.benches.measuring import Bench, Pair
from catalogue.benches.rows import store
from catalogue.models import Composer, Work

ASKED = 20
"""How many requests are measured together."""


def empty_view(_request: HttpRequest) -> HttpResponse:
    return HttpResponse(b"")


urlpatterns = [path("empty/", empty_view), path("", include("config.urls"))]


def asked(browser: Client, address: str) -> int:
    """Ask so many times and return how often there was an answer; a failure is none."""
    answers = [browser.get(address).status_code for _time in range(ASKED)]
    if set(answers) != {200}:
        raise ValueError(f"{address} answered {answers}.")
    return len(answers)


@contextmanager
def of_works(works: int) -> Iterator[Pair]:
    composer = store(works=works, performances=10 * works)
    Composer.objects.filter(pk=composer.pk).update(is_public=True)
    Work.objects.filter(composer=composer).update(is_public=True)
    address = reverse("public-composer", args=[composer.slug])
    browser: Callable[[], Client] = partial(Client, SERVER_NAME="127.0.0.1")
    ours, bare = browser(), browser()
    with override_settings(ROOT_URLCONF=__name__):
        yield Pair(ours=lambda: asked(ours, address), bare=lambda: asked(bare, "/empty/"))


BENCHES = (
    Bench(
        f"public page of a composer, {ASKED} times, works",
        "a view answers with nothing, as often",
        (10, 100),
        of_works,
        stored=True,
    ),
)
