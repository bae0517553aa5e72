"""A house of up to 1,000 composers: fifty people at work, a thousand programs that read calendars, and all at once.

What one person does must not take longer for how many others are under the same roof, so the bound of a large house is
the same in a house of ten. Every request goes through all that requests go through; programs that have read a calendar
before name its tag, as they do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from itertools import count, cycle
from threading import local
from typing import cast

from django.http import HttpRequest, HttpResponse, HttpResponseNotModified
from django.test import Client
from django.test.utils import override_settings
from django.urls import include, path, reverse

from catalogue.benches.houses import PEOPLE, calendars_of, house_of, people_of
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.benches.subjects.crowds import THREADS, Errand, in_turn, saved_title, saves_of, together
from catalogue.models import Composer, Performance, Work
from catalogue.web.kept_calendars import forget_calendars

SMALL, SIZES = 10, (10, 100, 1_000)
FRESH = 10
"""One in so many programs has not read its calendar before."""


_of_thread = local()


def browser() -> Client:
    """Return the thread's own client, which has made ready all that requests go through."""
    if not hasattr(_of_thread, "browser"):
        _of_thread.browser = Client(headers={"host": "localhost"})
    return cast(Client, _of_thread.browser)


def cookie(session: str) -> dict[str, str]:
    return {"cookie": f"sessionid={session}"}


def asking(address: str, headers: dict[str, str]) -> int:
    return browser().get(address, headers=headers).status_code


def saving(composer: Composer, session: str, work: int, numbers: Iterator[int]) -> int:
    address = reverse("work-edit", args=[composer.slug, work])
    return browser().post(address, saved_title(next(numbers), saves_of(work)), headers=cookie(session)).status_code


# ---- fifty people at work


def work_of_day(composers: int) -> list[Errand]:
    """Return one errand of each of those at work: lists, pages, the lists of all they keep, and a save in five."""
    publisher, _composers = house_of(composers)
    numbers = count()
    return [
        errand_of(composer, session, place, numbers)
        for place, (composer, session) in enumerate(people_of(publisher).at_work)
    ]


def errand_of(composer: Composer, session: str, place: int, numbers: Iterator[int]) -> Errand:
    work = Work.objects.filter(composer=composer).order_by("pk")[0].pk
    evening = Performance.objects.filter(composer=composer).order_by("pk")[0].pk
    ways: tuple[Errand, ...] = (
        partial(asking, reverse("work-list", args=[composer.slug]), cookie(session)),
        partial(asking, reverse("performance-detail", args=[composer.slug, evening]), cookie(session)),
        partial(asking, reverse("today", args=[composer.slug]), cookie(session)),
        partial(asking, reverse("house-performances"), cookie(session)),
        partial(saving, composer, session, work, numbers),
    )
    return ways[place % len(ways)]


@contextmanager
def at_work(size: int) -> Iterator[Pair]:
    ours, bare = work_of_day(size), work_of_day(SMALL)
    yield Pair(ours=partial(in_turn, ours), bare=partial(in_turn, bare))


# ---- the lists of all composers together, for whoever keeps every one


@contextmanager
def page_of_all(size: int, *, name: str) -> Iterator[Pair]:
    ours, bare = (people_of(house_of(composers)[0]).publisher for composers in (size, SMALL))
    address = reverse(name)
    yield Pair(ours=partial(asking, address, cookie(ours)), bare=partial(asking, address, cookie(bare)))


@contextmanager
def page_after_save(size: int, *, name: str) -> Iterator[Pair]:
    """The same page each time just after something was saved, by turns of each composer."""
    houses = [house_of(composers) for composers in (size, SMALL)]
    ours, bare = (people_of(publisher).publisher for publisher, _composers in houses)
    address, saved = reverse(name), [cycle(works_of(composers)) for _publisher, composers in houses]

    def before() -> None:
        for works in saved:
            work = next(works)
            work.notes = f"{work.notes[:100]}."
            work.save()

    yield Pair(partial(asking, address, cookie(ours)), partial(asking, address, cookie(bare)), before=before)


def works_of(composers: Sequence[Composer]) -> list[Work]:
    """Return a work of each composer."""
    return [Work.objects.filter(composer=one).order_by("pk")[0] for one in composers]


# ---- programs that read calendars


def programs(clients: int) -> list[partial[int]]:
    """Return what so many programs ask, each at its own address, a calendar a composer."""
    publisher, composers = house_of(clients)
    return [
        partial(asking, address, {} if place % FRESH == 0 else {"If-None-Match": tag_of(address)})
        for place, address in enumerate(calendars_of(publisher, composers, clients))
    ]


def tag_of(address: str) -> str:
    return browser().get(address).headers["ETag"]


def bare_view(request: HttpRequest, size: int) -> HttpResponse:
    """Answer with so many bytes, or that nothing has changed to whoever names a tag."""
    return HttpResponseNotModified() if "If-None-Match" in request.headers else HttpResponse(b"x" * size)


urlpatterns = [path("bare/<int:size>/", bare_view), path("", include("config.urls"))]


@contextmanager
def feeds(size: int) -> Iterator[Pair]:
    """Every program once, asked of a process that remembers no calendar of theirs."""
    ours = programs(size)
    address = f"/bare/{len(browser().get(ours[0].args[0]).content)}/"
    bare: Sequence[Errand] = [
        partial(asking, address, {} if place % FRESH == 0 else {"If-None-Match": '"x"'}) for place in range(size)
    ]
    with override_settings(ROOT_URLCONF=__name__):
        yield Pair(ours=partial(in_turn, ours), bare=partial(in_turn, bare), before=forget_calendars)


# ---- all of it


@contextmanager
def all_at_once(size: int) -> Iterator[Pair]:
    """As many programs as composers, and everybody's errand among them."""
    errands = mixed(programs(size), work_of_day(size))
    yield Pair(ours=partial(together, errands), bare=partial(in_turn, errands))


def mixed(many: Sequence[Errand], few: Sequence[Errand]) -> list[Errand]:
    """Set the few among the many, evenly.

    >>> mixed("aaaa", "bb")
    ['b', 'a', 'a', 'b', 'a', 'a']
    """
    step = max(1, len(many) // len(few))
    errands = list(many)
    for place, errand in enumerate(few):
        errands.insert(place * (step + 1), errand)
    return errands


OF_TEN = "the same in a house of ten composers"
PAGES = {"Today": "house-today", "works": "house-works", "performances": "house-performances", "hires": "house-hires"}
SAVED_TO = {"Today": "house-today", "deadlines": "house-deadlines"}
HEADING = Heading.SERVING
BENCHES = (
    Bench(f"a house with {PEOPLE} people at work, composers", OF_TEN, SIZES, at_work, aim=1.3, stored=True),
    *(
        Bench(f"a house's {what} of all composers, composers", OF_TEN, SIZES, partial(page_of_all, name=name), 2, True)
        for what, name in PAGES.items()
    ),
    *(
        Bench(
            f"a house's {what} of all composers, after a save, composers",
            OF_TEN,
            SIZES,
            partial(page_after_save, name=name),
            2,
            True,
        )
        for what, name in SAVED_TO.items()
    ),
    Bench(
        "a house's calendars, each read by a program, programs",
        "a view answers with as many bytes, or with nothing to whoever names a tag",
        SIZES,
        feeds,
        aim=1.5,
        stored=True,
    ),
    Bench(
        f"a house with {PEOPLE} people at work and a program a composer, {THREADS} at once, composers",
        "the same requests one after another",
        SIZES,
        all_at_once,
        aim=1.5,
        stored=True,
        on_disk=True,
    ),
)
