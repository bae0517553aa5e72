"""The public page of a composer, asked by many at once, beside a view that answers with nothing.

Both are asked as browsers ask them, through all that requests go through, by as many threads as a server has, each with
a connection of its own. A page that nothing was saved for is answered as it was kept. One that is made anew costs what
its records cost to fetch, to say and to set, hence no aim against an answer without any.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial

from django.http import HttpRequest, HttpResponse
from django.test import Client
from django.test.utils import override_settings
from django.urls import include, path, reverse

from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.benches.rows import store
from catalogue.benches.subjects.crowds import THREADS, together
from catalogue.models import Composer, Work
from catalogue.web.kept_calendars import forget_everywhere

ASKED = 20
"""How often each of them asks, one time after the other."""


def empty_view(_request: HttpRequest) -> HttpResponse:
    return HttpResponse(b"")


urlpatterns = [path("empty/", empty_view), path("", include("config.urls"))]


def reader(address: str, times: int) -> int:
    """Ask so many times and return the status of the answers, a failure where there was one."""
    browser = Client(SERVER_NAME="127.0.0.1")
    return max(browser.get(address).status_code for _time in range(times))


def asked(address: str, times: int) -> int:
    """Let all readers ask at once; return how many were answered, and raise RuntimeError for a failure."""
    return together([partial(reader, address, times)] * THREADS)


@contextmanager
def of_works(works: int, *, anew: bool) -> Iterator[Pair]:
    """The page of so many works; ``anew``: each reader asks once, and finds nothing that was kept before."""
    composer = store(works=works, performances=10 * works)
    Composer.objects.filter(pk=composer.pk).update(is_public=True)
    Work.objects.filter(composer=composer).update(is_public=True)
    address, times = reverse("public-composer", args=[composer.slug]), 1 if anew else ASKED
    with override_settings(ROOT_URLCONF=__name__):
        ours, bare = partial(asked, address, times), partial(asked, "/empty/", times)
        yield Pair(ours, bare, before=forget_everywhere) if anew else Pair(ours, bare)


HEADING = Heading.SERVING
BENCHES = tuple(
    Bench(
        f"public page of a composer, asked by {THREADS} at once, {state}, works",
        "a view answers with nothing, as often, as many at once",
        (10, 100),
        partial(of_works, anew=anew),
        aim=aim,
        stored=True,
        on_disk=True,
    )
    for state, anew, aim in ((f"{ASKED} times each", False, 2.0), ("nothing kept", True, None))
)
