"""The calendar: its bytes from facts, and its address from rows.

A calendar holds at most 2,000 events or a million bytes, so the bound of a larger catalogue has the events that stand
in the file.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial

from django.http import HttpRequest, HttpResponse
from django.test import RequestFactory
from icalendar import Calendar, Event

from catalogue.actions.calendars import make_address
from catalogue.benches.invented import NOW, catalogue
from catalogue.benches.measuring import Bench, Pair
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
def warm(size: int) -> Iterator[Pair]:
    told = catalogue(works=100, performances=size, told=False)
    ours = partial(calendar_bytes, told, name="Measured", now=NOW)
    head, *rest = ours().split(b"BEGIN:VEVENT")
    stored = [head, *(b"BEGIN:VEVENT" + event for event in rest)]
    yield Pair(ours=ours, bare=lambda: b"".join(stored))


def nothing(_request: HttpRequest) -> HttpResponse:
    return HttpResponse(b"", content_type="text/calendar")


@contextmanager
def address(size: int, *, again: bool) -> Iterator[Pair]:
    """The view of the address, asked for the file or, ``again``, whether it has changed."""
    composer = store(works=100, performances=size)
    keeper = composer.memberships.get().user
    token = make_address(composer=composer, keeper=keeper, label="Measured", now=NOW)
    plain_request = RequestFactory().get("/feeds/")
    etag = feed(plain_request, token=token, name="measured").headers.get("ETag", "")
    request = RequestFactory().get("/feeds/", headers={"If-None-Match": etag}) if again else plain_request
    file = feed(plain_request, token=token, name="measured").content
    stored = partial(HttpResponse, file, content_type="text/calendar")
    yield Pair(
        ours=lambda: feed(request, token=token, name="measured"),
        bare=partial(nothing, request) if again else stored,
    )


BENCHES = (
    Bench(
        "calendar, cold, performances", "the library builds and writes the events of the same file", SIZES, cold, 1.3
    ),
    Bench("calendar, warm, performances", "the stored bytes of the same events are joined", SIZES, warm, 1.5),
    Bench(
        "calendar's address, warm, performances",
        "a view answers with the stored file",
        SIZES,
        partial(address, again=False),
        aim=1.5,
        stored=True,
    ),
    Bench(
        "calendar's address, unchanged (304), performances",
        "a view answers with nothing",
        SIZES,
        partial(address, again=True),
        aim=1.3,
        stored=True,
    ),
)
