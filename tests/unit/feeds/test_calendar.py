"""What a subscriber's program gets: the rules of RFC 5545 and 7986, and what common programs are known to need."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from catalogue.facts import CatalogueFacts, PerformanceFacts, PerformerFacts, ProgrammedFacts
from catalogue.feeds.calendar import calendar_bytes, event_bytes
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import Audience, Extent, PerformanceKind, PerformanceStatus, PerformerRole, WorkStatus
from catalogue.timing import PartialDate, moment_at
from tests.fact_makers import make_catalogue, make_event, make_venue, make_work

NOW = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)


def timed(id_: int, day: date, clock: time, zone: str, **fields: Any) -> PerformanceFacts:
    moment = moment_at(day, clock, zone)
    return make_event(id_, PartialDate.of(day), time=clock, zone=zone, starts_at=moment, **fields)


EVENING = timed(1, date(2026, 7, 1), time(19, 30), "Europe/Vienna")


def feed(*events: PerformanceFacts, catalogue: CatalogueFacts | None = None, **options: Any) -> bytes:
    return calendar_bytes(catalogue or make_catalogue(*events), **{"name": "Ada Quill", "now": NOW, **options})


def lines(content: bytes) -> list[str]:
    """Return the unfolded lines, by the rule of the standard and without the library."""
    return content.replace(b"\r\n ", b"").decode().split("\r\n")[:-1]


def property_of(content: bytes, name: str) -> str:
    [line] = [line for line in lines(content) if re.match(rf"{name}[;:]", line)]
    return line


def uids(content: bytes) -> list[int]:
    return [UUID(line[4:40]).int - 1000 for line in lines(content) if line.startswith("UID:")]


def test_a_timed_performance_is_said_in_universal_time() -> None:
    event = timed(
        1,
        date(2026, 7, 1),
        time(19, 30),
        "Europe/Vienna",
        venue=make_venue("Kornspeicher, grosser Saal", latitude=48.3069, longitude=14.2858),
        event_title="Summer Nights; II",
        performers=(PerformerFacts("Iva Dorn", PerformerRole.SOLOIST, plays="viola"),),
        presenter="Brücke für Musik",
        sequence=3,
        changed_at=datetime(2026, 5, 1, 8, 0, tzinfo=UTC),
    )

    content = feed(event, page_of=lambda one: f"https://quill.example/performances/{one.uid}", about="Concerts")

    assert lines(content) == [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Ledgerline//Calendar of performances//EN",
        "CALSCALE:GREGORIAN",
        "NAME:Ada Quill",
        "X-WR-CALNAME:Ada Quill",
        "DESCRIPTION:Concerts",
        "X-WR-CALDESC:Concerts",
        "REFRESH-INTERVAL;VALUE=DURATION:PT1H",
        "X-PUBLISHED-TTL:PT1H",
        "COLOR:darkslateblue",
        "X-APPLE-CALENDAR-COLOR:#483d8b",
        "BEGIN:VEVENT",
        "UID:00000000-0000-0000-0000-0000000003e9@ledgerline.invalid",
        "DTSTAMP:20260501T080000Z",
        "LAST-MODIFIED:20260501T080000Z",
        "SEQUENCE:3",
        "DTSTART:20260701T173000Z",
        "DTEND:20260701T193000Z",
        "SUMMARY:Summer Nights\\; II: Slack Rope",
        "STATUS:CONFIRMED",
        "TRANSP:TRANSPARENT",
        "CATEGORIES:Concert",
        "LOCATION:Kornspeicher\\, grosser Saal\\, Linz\\, Austria",
        "DESCRIPTION:19:30 Europe/Vienna\\nAda Quill: Slack Rope\\nIva Dorn (viola)\\nBrücke für Musik\\n"
        "https://quill.example/performances/00000000-0000-0000-0000-0000000003e9",
        "URL:https://quill.example/performances/00000000-0000-0000-0000-0000000003e9",
        "GEO:48.306900;14.285800",
        "END:VEVENT",
        "END:VCALENDAR",
    ]


def test_a_day_without_a_time_lasts_until_the_next_day() -> None:
    content = feed(make_event(1, "2026-12-31"))

    assert property_of(content, "DTSTART") == "DTSTART;VALUE=DATE:20261231"
    assert property_of(content, "DTEND") == "DTEND;VALUE=DATE:20270101"


def test_of_a_day_alone_nothing_is_said_that_is_not_known() -> None:
    content = feed(catalogue=make_catalogue(make_event(1, "2026-12-31", city="", country="", programme=()), works=()))

    names = [re.split("[;:]", line)[0] for line in lines(content)]
    assert names[names.index("UID") :] == [
        "UID", "DTSTAMP", "LAST-MODIFIED", "SEQUENCE", "DTSTART", "DTEND", "SUMMARY", "STATUS", "TRANSP", "CATEGORIES",
        "END", "END",
    ]  # fmt: skip
    assert property_of(content, "SUMMARY") == "SUMMARY:Performance"


def test_a_time_in_an_unknown_zone_is_told_in_words_only() -> None:
    content = feed(make_event(1, "2026-12-31", time=time(20, 0)))

    assert property_of(content, "DTSTART") == "DTSTART;VALUE=DATE:20261231"
    assert "DESCRIPTION:20:00\\n" in content.decode()


@pytest.mark.parametrize(
    ("day", "clock", "zone", "start"),
    [
        (date(2026, 10, 24), time(19, 30), "Europe/Berlin", "20261024T173000Z"),
        (date(2026, 10, 25), time(19, 30), "Europe/Berlin", "20261025T183000Z"),
        (date(2026, 3, 28), time(19, 30), "Europe/London", "20260328T193000Z"),
        (date(2026, 3, 29), time(19, 30), "Europe/London", "20260329T183000Z"),
        (date(2026, 7, 1), time(19, 0), "Asia/Tokyo", "20260701T100000Z"),
        (date(2026, 7, 2), time(8, 0), "Australia/Adelaide", "20260701T223000Z"),
        (date(1970, 7, 1), time(19, 30), "Europe/London", "19700701T183000Z"),
        (date(2037, 7, 1), time(19, 30), "America/New_York", "20370701T233000Z"),
    ],
)
def test_summer_time_is_reckoned_at_the_place(day: date, clock: time, zone: str, start: str) -> None:
    content = feed(timed(1, day, clock, zone), now=datetime(day.year, day.month, day.day, tzinfo=UTC))

    assert property_of(content, "DTSTART") == f"DTSTART:{start}"


def test_vague_dates_are_left_out() -> None:
    whens = ["2026-09", "2026", "c. 2027", "2026/2027", None, "2026-09-02"]

    assert uids(feed(*(make_event(id_, when) for id_, when in enumerate(whens, start=1)))) == [6]


def test_window_is_all_to_come_and_twelve_months_back() -> None:
    whens = ["2025-05-31", "2025-06-01", "2026-06-01", "2039-01-01", "2026-05-31"]

    assert uids(feed(*(make_event(id_, when) for id_, when in enumerate(whens, start=1)))) == [3, 4, 5, 2]


def test_window_of_a_leap_day_begins_on_the_last_day_of_february() -> None:
    events = make_event(1, "2027-02-27"), make_event(2, "2027-02-28")

    assert uids(feed(*events, now=datetime(2028, 2, 29, tzinfo=UTC))) == [2]


@pytest.mark.parametrize(
    ("status", "shown", "summary"),
    [
        (PerformanceStatus.PLANNED, "TENTATIVE", "Slack Rope"),
        (PerformanceStatus.CONFIRMED, "CONFIRMED", "Slack Rope"),
        (PerformanceStatus.GIVEN, "CONFIRMED", "Slack Rope"),
        (PerformanceStatus.CANCELLED, "CANCELLED", "Cancelled: Slack Rope"),
        (PerformanceStatus.POSTPONED, "CANCELLED", "Postponed: Slack Rope"),
    ],
)
def test_status_is_one_of_the_standard(status: PerformanceStatus, shown: str, summary: str) -> None:
    content = feed(make_event(1, "2026-07-01", status=status))

    assert property_of(content, "STATUS") == f"STATUS:{shown}"
    assert property_of(content, "SUMMARY") == f"SUMMARY:{summary}"


def test_records_that_are_no_event_of_their_own_are_left_out() -> None:
    gone = (PerformanceStatus.WITHDRAWN, PerformanceStatus.DUPLICATE, PerformanceStatus.OLD_STYLE_DATE)
    events = [make_event(id_, "2026-07-01", status=status) for id_, status in enumerate(gone, start=2)]

    assert uids(feed(*events, EVENING)) == [1]


def test_public_calendar_shows_what_is_announced_and_open_to_all() -> None:
    events = [
        make_event(1, "2026-07-01"),
        make_event(2, "2026-07-02", status=PerformanceStatus.PLANNED),
        make_event(3, "2026-07-03", audience=Audience.PRIVATE),
        make_event(4, "2026-07-04", audience=Audience.INVITED),
        make_event(5, "2026-07-05", audience=Audience.PUBLIC_REHEARSAL),
        make_event(6, "2026-07-06", ProgrammedFacts(id=6, work_id=2)),
    ]
    catalogue = make_catalogue(*events, works=(make_work(1), make_work(2, status=WorkStatus.WITHDRAWN)))

    assert uids(feed(catalogue=catalogue, public=True)) == [1, 5]
    assert uids(feed(catalogue=catalogue)) == [1, 2, 3, 4, 5, 6]


def test_private_fields_never_reach_the_calendar() -> None:
    secret = "canary-7431"
    item = ProgrammedFacts(id=1, work_id=1, note=secret, billing=secret)
    event = make_event(1, "2026-07-01", item, notes=secret, country_then=secret)
    work = make_work(notes=secret, programme_note=secret, electronics_note=secret, dedication=secret)

    content = feed(catalogue=make_catalogue(event, works=(work,)))

    assert b"Slack Rope" in content
    assert secret.encode() not in content
    assert not re.search(rb"VALARM|ATTENDEE|ORGANIZER|METHOD", content)


def test_what_a_performance_will_be_is_told_beside_the_work() -> None:
    item = ProgrammedFacts(id=1, work_id=1, extent=Extent.PARTIAL, part="Ebb")
    catalogue = make_catalogue(make_event(1, "2026-07-01", item, status=PerformanceStatus.CONFIRMED))

    content = feed(catalogue=catalogue, claims=claims_by_programmed(catalogue, today=NOW.date()))

    expected = "DESCRIPTION:Ada Quill: Slack Rope (Ebb) – to be the first performance of Ebb"
    assert property_of(content, "DESCRIPTION") == expected


def test_same_records_give_the_same_bytes_at_any_time_of_day() -> None:
    first = feed(EVENING)
    event_bytes.cache_clear()

    assert feed(EVENING, now=NOW + timedelta(hours=7)) == first


def test_uid_stays_when_everything_else_changes() -> None:
    moved = make_event(1, "2027-01-01", city="Graz", sequence=4, status=PerformanceStatus.POSTPONED)

    assert property_of(feed(moved), "UID") == property_of(feed(EVENING), "UID")


def test_empty_calendar_holds_the_zone_utc() -> None:
    content = feed()

    assert [one.name for one in Calendar.from_ical(content).walk()] == ["VCALENDAR", "VTIMEZONE", "STANDARD"]
    assert property_of(content, "DTSTART") == "DTSTART:19700101T000000"


def test_long_texts_are_shortened() -> None:
    works = [make_work(id_, f"{id_} " + "Tide " * 30) for id_ in range(1, 21)]
    event = make_event(1, "2026-07-01", *(ProgrammedFacts(id=work.id, work_id=work.id) for work in works))
    url = "https://quill.example/performances/1"

    content = feed(catalogue=make_catalogue(event, works=works), page_of=lambda one: url)

    [shown] = Calendar.from_ical(content).walk("VEVENT")
    assert len(shown["SUMMARY"]) == 200
    assert (len(shown["DESCRIPTION"]), str(shown["DESCRIPTION"]).split("\n")[-1]) == (2000, url)


def test_two_thousand_events_are_the_most_and_stay_below_a_megabyte() -> None:
    first = date(2026, 6, 1)
    events = [timed(id_, first + timedelta(days=id_), time(19, 30), "Europe/Vienna") for id_ in range(1, 2101)]

    content = feed(*events)

    assert uids(content) == list(range(1, 2001))
    assert len(content) < 1_000_000


def test_a_megabyte_is_the_most_and_the_nearest_events_stay() -> None:
    works = [make_work(id_, f"{id_} " + "Tide " * 30) for id_ in range(1, 21)]
    items = [ProgrammedFacts(id=work.id, work_id=work.id) for work in works]
    days = [date(2026, 6, 1) + timedelta(days=number) for number in range(1, 501)]
    events = [make_event(id_, PartialDate.of(day), *items) for id_, day in enumerate(days, start=1)]

    content = feed(catalogue=make_catalogue(*events, works=works))

    assert 990_000 < len(content) < 1_000_000
    assert uids(content) == list(range(1, len(uids(content)) + 1))


KNOWN = {
    "BEGIN", "END", "VERSION", "PRODID", "CALSCALE", "NAME", "X-WR-CALNAME", "DESCRIPTION", "X-WR-CALDESC",
    "REFRESH-INTERVAL", "X-PUBLISHED-TTL", "COLOR", "X-APPLE-CALENDAR-COLOR", "UID", "DTSTAMP", "LAST-MODIFIED",
    "SEQUENCE", "DTSTART", "DTEND", "SUMMARY", "STATUS", "TRANSP", "CATEGORIES", "LOCATION", "URL", "GEO",
    "TZID", "TZOFFSETFROM", "TZOFFSETTO", "TZNAME",
}  # fmt: skip

hostile = st.text(
    st.one_of(st.characters(), st.sampled_from('\r\n\0\t;:,\\"\x0b\x7f\x85\u2028\ud800\U0001d11e')), max_size=120
)


@given(st.lists(st.tuples(hostile, hostile, hostile, hostile, hostile), max_size=4), hostile)
def test_no_text_breaks_out_of_its_field(texts: list[tuple[str, str, str, str, str]], name: str) -> None:
    works = [make_work(id_, one[0]) for id_, one in enumerate(texts, start=1)]
    events = [
        make_event(
            id_,
            "2026-07-01",
            ProgrammedFacts(id=id_, work_id=id_, extent=Extent.EXCERPT, part=part),
            city=city,
            venue=make_venue(hall),
            event_title=evening,
            presenter=part,
            performers=(PerformerFacts(city, PerformerRole.SOLOIST, plays=hall),),
            kind=PerformanceKind.STAGE,
        )
        for id_, (_, part, city, hall, evening) in enumerate(texts, start=1)
    ]

    content = feed(catalogue=make_catalogue(*events, works=works), name=name, about=name)

    raw = content.split(b"\r\n")
    assert len(Calendar.from_ical(content).walk("VEVENT")) == len(texts)
    assert raw.pop() == b""
    assert [line for line in raw if len(line) > 75 or not line.decode()] == []
    assert not re.search("[\x00-\x08\x0a-\x1f\x7f-\x9f\u2028\u2029]", b"".join(raw).decode())
    assert {re.split("[;:]", line)[0] for line in lines(content)} <= KNOWN


days = st.dates(date(2026, 6, 2), date(2037, 1, 1))
clocks = st.builds(time, st.integers(0, 23), st.integers(0, 59))


@given(st.lists(st.tuples(days, clocks, st.sampled_from(["UTC", "Asia/Tokyo", "Asia/Kathmandu"]))))
def test_every_event_reads_back_as_it_was(drawn: list[tuple[date, time, str]]) -> None:
    events = [timed(id_, day, clock, zone) for id_, (day, clock, zone) in enumerate(drawn, start=1)]

    back = Calendar.from_ical(feed(*events)).walk("VEVENT")

    found = [(str(one["UID"])[:36], one["DTSTART"].dt, one["DTEND"].dt, str(one["SUMMARY"])) for one in back]
    wanted = [(str(one.uid), one.starts_at, one.starts_at + timedelta(hours=2), "Slack Rope") for one in events]
    assert sorted(found) == sorted(wanted)
