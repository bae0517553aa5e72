"""The calendar: its bytes from facts, and its address from rows.

A calendar holds at most 2,000 events or a million bytes, so the bound of a larger catalogue has the events that stand
in the file. Its address is asked as the view alone, and as a program asks it, through all that requests go through;
beside a view alone that answers with nothing, which takes as long as one call of a function, nothing is aimed at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache, partial

from django.core.handlers.base import BaseHandler
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.test import RequestFactory
from django.urls import path, reverse
from icalendar import Calendar, Event

from catalogue.actions.calendars import make_address
from catalogue.benches.invented import NOW, catalogue
from catalogue.benches.measuring import Bench, Heading, Pair
from catalogue.benches.rows import store
from catalogue.feeds.calendar import calendar_bytes, event_bytes, head_bytes
from catalogue.web.views.feeds import feed

SIZES = (100, 1_000, 10_000)


def forget() -> None:
    event_bytes.cache_clear()
    head_bytes.cache_clear()


def build_again(events: list[list[tuple[str, object]]]) -> bytes:
    """Have the library build and write events that have these properties."""
    calendar = Calendar()
    for properties in events:
        event = Event()
        for name, value in properties:
            event.add(name, value)
        calendar.add_component(event)
    return bytes(calendar.to_ical(sorted=False))


def properties_of(file: bytes) -> list[list[tuple[str, object]]]:
    """Return what each event of a calendar says, as plain values."""
    return [
        [(name, plain(value)) for name, value in event.items()] for event in Calendar.from_ical(file).walk("VEVENT")
    ]


def plain(value: object) -> object:
    return (
        getattr(value, "dt", None) or getattr(value, "cats", None) or (value if isinstance(value, int) else str(value))
    )


@contextmanager
def cold(size: int) -> Iterator[Pair]:
    told = catalogue(works=100, performances=size, told=False)
    ours = partial(calendar_bytes, told, name="Measured", now=NOW)
    events = properties_of(ours())
    yield Pair(ours=ours, bare=lambda: build_again(events), before=forget)


@contextmanager
def again(size: int) -> Iterator[Pair]:
    """A calendar that is built again from facts, with the events remembered that say the same as before."""
    told = catalogue(works=100, performances=size, told=False)
    ours = partial(calendar_bytes, told, name="Measured", now=NOW)
    events = properties_of(ours())
    yield Pair(ours=ours, bare=lambda: build_again(events))


def in_parts(file: bytes) -> list[bytes]:
    """Return a calendar as the head and the events that it is joined of."""
    head, *rest = file.split(b"BEGIN:VEVENT")
    return [head, *(b"BEGIN:VEVENT" + event for event in rest)]


@contextmanager
def address(size: int, *, again: bool, whole: bool = False) -> Iterator[Pair]:
    """The address, asked for the file or, ``again``, whether it has changed; ``whole``: through every middleware."""
    composer = store(works=100, performances=size)
    keeper = composer.memberships.get().user
    token = make_address(composer=composer, keeper=keeper, label="Measured", now=NOW)
    where = reverse("feed", args=[token, "measured"])
    first = feed(RequestFactory().get(where), token=token, name="measured")
    told = {"If-None-Match": first.headers["ETag"]} if again else {}
    parts = [b""] if again else in_parts(first.content)
    request = partial(RequestFactory(SERVER_NAME="127.0.0.1").get, where, headers=told)

    def bare_view(_request: HttpRequest, **_named: str) -> HttpResponse:
        return HttpResponse(b"".join(parts), content_type="text/calendar")

    if whole:
        yield Pair(ours=partial(answer, request, feed), bare=partial(answer, request, bare_view))
    else:
        asked = request()
        yield Pair(ours=lambda: feed(asked, token=token, name="measured"), bare=lambda: bare_view(asked))


def answer(request: Callable[[], HttpRequest], view: Callable[..., HttpResponse]) -> HttpResponseBase:
    """Have a request answered by a view at the address of a calendar, through all that requests go through."""
    asked = request()
    asked.urlconf = (path("feeds/<str:token>/<slug:name>.ics", view, name="feed"),)  # type: ignore[assignment]
    response = handler().get_response(asked)
    response.close()
    return response


@cache
def handler() -> BaseHandler:
    made = BaseHandler()
    made.load_middleware()
    return made


HEADING = Heading.FEEDS
BENCHES = (
    Bench(
        "calendar, cold, performances", "the library builds and writes the events of the same file", SIZES, cold, 1.3
    ),
    Bench(
        "calendar, built again, performances",
        "the library builds and writes the events of the same file",
        SIZES,
        again,
        0.2,
    ),
    *(
        Bench(
            f"calendar's address, {state}{', through every middleware' if whole else ''}, performances",
            f"a view {bound}",
            SIZES,
            partial(address, again=again, whole=whole),
            aim=aim if whole or not again else None,
            stored=True,
        )
        for whole in (False, True)
        for again, state, bound, aim in (
            (False, "warm", "joins the stored bytes of the same events", 1.5),
            (True, "unchanged (304)", "answers with nothing", 1.3),
        )
    ),
)
