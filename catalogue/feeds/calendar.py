"""A catalogue's performances as an iCalendar file (RFC 5545, with the names of RFC 7986) that programs subscribe to.

Times are universal time, so no event needs a description of its zone; an empty calendar, which must hold something,
holds the zone UTC. The moment of asking decides only which events are in its window: stamps come from the
records, and the bytes of an event are kept as long as what it says stays the same.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from itertools import chain, islice

from icalendar import Calendar, Event, Timezone, TimezoneStandard, vDDDTypes, vText
from icalendar.prop import vInline

from catalogue.facts import CatalogueFacts, DeadlineFacts, DueFacts, PerformanceFacts, SessionFacts
from catalogue.feeds.entries import (
    Entry,
    Selection,
    clean,
    deadline_entries,
    due_entries,
    entries,
    one_line,
    session_entries,
)
from catalogue.rules.premieres import Claim

PRODUCT = "-//Ledgerline//Calendar of performances//EN"
SUFFIX = "ledgerline.invalid"
"""What makes a UID whole; it never changes with the host, so that subscribers keep one copy of each event."""

REFRESH = timedelta(hours=1)
USUAL_LENGTH = timedelta(hours=2)
"""How long a calendar shows an evening whose end nobody records (common practice)."""

MOST_EVENTS, MOST_BYTES = 2_000, 1_000_000
COLOUR_NAME, COLOUR_HEX = "darkslateblue", "#483d8b"
END = b"END:VCALENDAR\r\n"


def calendar_bytes(
    catalogue: CatalogueFacts,
    *,
    name: str,
    now: datetime,
    about: str = "",
    public: bool = False,
    since: date | None = None,
    claims: Mapping[int, Claim] | None = None,
    page_of: Callable[[PerformanceFacts], str] = lambda event: "",
    suffix: str = SUFFIX,
    deadlines: Sequence[DeadlineFacts] = (),
    sessions: Sequence[SessionFacts] = (),
    dues: Sequence[DueFacts] = (),
    with_performances: bool = True,
    page_of_call: Callable[[DeadlineFacts], str] = lambda deadline: "",
) -> bytes:
    """Return the whole file.

    ``name`` and ``about`` are what programs show of the calendar; ``now`` is aware. ``claims`` (by the id of a
    programmed work) add their wording, ``page_of`` the absolute address of an event's page. ``since`` is the first day
    that is shown, twelve months ago where none is named. The ``deadlines`` of calls stand at their moment in calendars
    that are not public, as do the ``sessions`` and ``dues`` of performances in the catalogue, whether these stand there
    themselves (``with_performances``) or not. Beyond 2,000 events or 1 MB the farthest past is left out.
    """
    selection = Selection(catalogue, now.astimezone(UTC), public, suffix, claims or {}, page_of, since)
    head = head_bytes(name, about)
    kept: list[bytes] = []
    size = len(head) + len(END)
    private: tuple[Entry, ...] = ()
    if not public:
        closing = deadline_entries(deadlines, selection, page_of_call)
        private = (*closing, *due_entries(dues, selection), *session_entries(sessions, selection))
    told = entries(selection) if with_performances else iter(())
    for entry in islice(chain(private, told), MOST_EVENTS):
        block = event_bytes(entry)
        size += len(block)
        if size > MOST_BYTES:
            break
        kept.append(block)
    return b"".join([head, *(kept or [zone_bytes()]), END])


@lru_cache(maxsize=64)
def head_bytes(name: str, about: str) -> bytes:
    """Write what stands before the events, the interval at which programs ask again among it."""
    calendar = Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", PRODUCT)
    calendar.add("calscale", "GREGORIAN")
    for names, text in ((("name", "x-wr-calname"), name), (("description", "x-wr-caldesc"), about)):
        for each in names if one_line(text) else ():
            calendar.add(each, one_line(text))
    # The library leaves out the value type, without which some programs cannot read the interval.
    calendar.add("refresh-interval", REFRESH, parameters={"VALUE": "DURATION"})
    calendar.add("x-published-ttl", vDDDTypes(REFRESH).to_ical().decode())
    calendar.add("color", COLOUR_NAME)
    calendar.add("x-apple-calendar-color", COLOUR_HEX)
    return bytes(calendar.to_ical(sorted=False)).removesuffix(END)


@lru_cache(maxsize=20_000)
def event_bytes(entry: Entry) -> bytes:
    """Write one event (RFC 5545); the same entry gives the same bytes."""
    event = Event()
    event.add("uid", entry.uid)
    event.add("dtstamp", entry.changed_at)
    event["last-modified"] = event["dtstamp"]
    event.add("sequence", entry.sequence)
    event.add("dtstart", entry.starts_at or entry.day)
    if not entry.is_moment:
        event.add("dtend", end_of(entry))
    event.add("summary", entry.summary)
    event["status"] = word(entry.status)
    event["transp"] = word("TRANSPARENT")
    event.add("categories", [entry.category])
    for field, text in (("location", entry.location), ("description", entry.description), ("url", clean(entry.url))):
        if text:
            event.add(field, text)
    if entry.position:
        event["geo"] = vInline("{:.6f};{:.6f}".format(*entry.position))
    return bytes(event.to_ical(sorted=False))


@lru_cache(maxsize=16)
def word(text: str) -> vText:
    """Return a word of the standard as the library writes it, made once for all events that bear it."""
    return vText(text)


def end_of(entry: Entry) -> date | datetime:
    """Return when an event ends: as noted, else after the usual length, without an hour at the end of its day."""
    if entry.starts_at is None:
        return entry.day + timedelta(days=1)
    return entry.ends_at or entry.starts_at + USUAL_LENGTH


@lru_cache(maxsize=1)
def zone_bytes() -> bytes:
    zone, standard = Timezone(), TimezoneStandard()
    zone.add("tzid", "UTC")
    standard.add("dtstart", datetime(1970, 1, 1))  # wall time of the zone, hence without one
    standard.add("tzoffsetfrom", timedelta(0))
    standard.add("tzoffsetto", timedelta(0))
    standard.add("tzname", "UTC")
    zone.add_component(standard)
    return bytes(zone.to_ical(sorted=False))
