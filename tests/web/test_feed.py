"""/feeds/<token>/<name>.ics: the calendar that programs subscribe to"""

from __future__ import annotations

from datetime import time
from typing import Any
from urllib.robotparser import RobotFileParser

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from icalendar import Calendar

from catalogue.actions.calendars import make_address
from catalogue.actions.records import save_record
from catalogue.gathering.once import forget_all
from catalogue.models import CalendarAddress, Composer, LeadTimes, Return, Session, SocietyDeadline, Step
from catalogue.models.journeys import COLUMN_OF
from catalogue.rules.journey import Lead
from catalogue.terms import CalendarHolds
from catalogue.web import kept_calendars
from catalogue.web.kept_calendars import forget_calendars, forget_everywhere
from tests.conftest import NOW
from tests.makers import make_performance, make_venue, make_work
from tests.record_makers import make_record

pytestmark = pytest.mark.django_db


@pytest.fixture
def address(composer: Composer, owner: User) -> str:
    token = make_address(composer=composer, keeper=owner, label="Telephone", now=NOW)
    return f"/feeds/{token}/ilka-marovand.ics"


@pytest.fixture
def of_performances(composer: Composer, owner: User) -> str:
    token = make_address(composer=composer, keeper=owner, label="Wall", now=NOW, holds=CalendarHolds.PERFORMANCES)
    return f"/feeds/{token}/ilka-marovand.ics"


@pytest.fixture
def program() -> Client:
    """A calendar: it is not signed in and keeps no cookies."""
    return Client()


def events(response: Any) -> list[Any]:
    return list(Calendar.from_ical(response.content).walk("VEVENT"))


def test_calendar_holds_what_comes_and_the_last_twelve_months(
    program: Client, of_performances: str, composer: Composer
) -> None:
    hall = make_venue(composer=composer)
    for title, day in (("Old", "2025-03-01"), ("Lately", "2025-03-20"), ("Tides", "2026-03-28")):
        make_performance(make_work(title, composer=composer), date=day, venue=hall, status="confirmed")

    found = events(program.get(of_performances))

    assert sorted(str(one["summary"]) for one in found) == ["Lately", "Tides"]


def test_event_says_when_where_and_what_it_is_the_first_of(
    program: Client, of_performances: str, composer: Composer
) -> None:
    performance = make_performance(
        make_work("Tides", composer=composer), date="2026-03-28", venue=make_venue(composer=composer),
        status="confirmed", notes="Secret fee: 900",
    )  # fmt: skip

    response = program.get(of_performances)

    (event,) = events(response)
    assert event["dtstart"].dt.isoformat() == "2026-03-28T18:30:00+00:00"
    assert str(event["uid"]).startswith(str(performance.uid))
    assert "to be the world premiere" in str(event["description"])
    assert str(event["url"]) == f"http://127.0.0.1:8000/c/ilka-marovand/performances/{performance.pk}/"
    assert b"Secret fee" not in response.content


def test_answer_has_the_headers_of_a_calendar(program: Client, address: str, composer: Composer) -> None:
    response = program.get(address)

    shown = ("Content-Type", "Content-Disposition", "Cache-Control", "X-Robots-Tag", "Referrer-Policy")
    assert [response.headers[name] for name in shown] == [
        "text/calendar; charset=utf-8",
        'inline; filename="ilka-marovand.ics"',
        "private, max-age=900",
        "noindex, nofollow",
        "no-referrer",
    ]
    assert response.headers["X-Content-Type-Options"] == "nosniff"
    assert not response.cookies
    assert Calendar.from_ical(response.content)["X-WR-CALNAME"] == "Performances of Ilka Marovand"


@pytest.mark.parametrize("accept", [None, "text/calendar", "image/png", "*/*"])
def test_calendar_is_given_whatever_the_program_accepts(program: Client, address: str, accept: str | None) -> None:
    headers = {"accept": accept} if accept else {}

    answers = [program.get(address, headers=headers), program.head(address, headers=headers)]

    assert [answer.status_code for answer in answers] == [200, 200]
    assert answers[0].content.startswith(b"BEGIN:VCALENDAR\r\n")
    assert answers[1].content == b""


def test_calendar_that_has_not_changed_is_not_sent_again(
    program: Client, address: str, composer: Composer, clock: Any
) -> None:
    work = make_work("Tides", composer=composer)
    make_performance(work, date="2026-03-28")
    first = program.get(address)
    clock.goes_on(hours=1)

    again = program.get(address, headers={"if-none-match": first.headers["ETag"]})
    make_performance(work, date="2026-03-29")
    changed = program.get(address, headers={"if-none-match": first.headers["ETag"]})

    assert (again.status_code, again.content) == (304, b"")
    assert changed.status_code == 200
    assert changed.headers["ETag"] != first.headers["ETag"]


def test_token_that_is_not_in_use_finds_nothing(program: Client, address: str, composer: Composer) -> None:
    unknown = "/feeds/" + "x" * 43 + "/ilka-marovand.ics"
    opened = program.get(address.replace("ilka-marovand", "any-name"))
    CalendarAddress.objects.all().delete()

    answers = [program.get(path) for path in (unknown, address, "/feeds/x/y.ics")]

    assert opened.status_code == 200
    assert [(answer.status_code, answer.content) for answer in answers] == [(404, b"")] * 3
    assert all(not answer.cookies for answer in answers)


def test_address_without_a_token_has_no_calendar(program: Client, composer: Composer, owner: User) -> None:
    assert program.get("/feeds//ilka-marovand.ics").status_code == 404


def test_calendar_is_shut_when_its_keeper_may_not_sign_in(program: Client, address: str, owner: User) -> None:
    owner.is_active = False
    owner.save()

    assert program.get(address).status_code == 404


def test_two_keepers_get_the_same_calendar(program: Client, address: str, composer: Composer, viewer: User) -> None:
    make_performance(make_work("Tides", composer=composer), date="2026-03-28")
    other = f"/feeds/{make_address(composer=composer, keeper=viewer, label='Desk', now=NOW)}/ilka-marovand.ics"

    assert program.get(address).content == program.get(other).content


def test_robots_that_fetch_calendars_are_let_in(program: Client, address: str) -> None:
    told = RobotFileParser()
    told.parse(program.get("/robots.txt").content.decode().splitlines())

    paths = (address, "/calendars/ilka-marovand.ics", "/c/ilka-marovand/")
    assert [told.can_fetch("Calendar-Importer", f"http://127.0.0.1:8000{path}") for path in paths] == [
        True,
        True,
        False,
    ]


def test_other_catalogues_are_left_out(
    program: Client, address: str, composer: Composer, other_composer: Composer
) -> None:
    make_performance(make_work("Serenade", composer=other_composer), date="2026-03-28")

    assert events(program.get(address)) == []


def test_number_of_queries_does_not_grow_with_the_performances(
    program: Client, address: str, composer: Composer
) -> None:
    def queries() -> int:
        forget_everywhere()
        forget_all()
        with CaptureQueriesContext(connection) as asked:
            program.get(address)
        return len(asked)

    work = make_work("Tides", composer=composer)
    make_performance(work, date="2026-03-28", performers=("A",))
    queries()  # notes the day
    with_one = queries()
    for day in ("2026-04-01", "2026-04-02"):
        make_performance(work, make_work(f"Other {day}", composer=composer), date=day, performers=("A", "B"))

    assert with_one == queries()
    assert 20 < with_one <= 29


def test_private_calendar_holds_sessions_and_what_is_due(program: Client, address: str, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)
    performance = make_performance(work, date="2026-03-28", venue=make_venue(composer=composer), status="confirmed")
    columns = {"date": "2026-03-27", "time": time(10), "until": time(13), "notes": "Secret door code"}
    made = {"work": work, "performance": performance}
    make_record(Session, **made, **columns)
    make_record(Session, **made, kind="talk", date="2026-03-28", place="Foyer")
    make_record(Step, **made, kind="travel", label="", due="2026-03-12", notes="Secret seat")
    make_record(Step, **made, kind="contract", label="", state="done", due=None)
    others = [column for column in COLUMN_OF.values() if column != "travel"]
    LeadTimes.objects.create(composer=composer, **dict.fromkeys(others, Lead(None)))

    response = program.get(address)

    assert [(str(one["summary"]), str(one["dtstart"].dt), str(one["dtend"].dt)) for one in events(response)] == [
        ("Due: Travel booked: Tides", "2026-03-12", "2026-03-13"),
        ("Get-in: Tides", "2026-03-27 09:00:00+00:00", "2026-03-27 12:00:00+00:00"),
        ("Talk: Tides", "2026-03-28", "2026-03-29"),
        ("Tides", "2026-03-28 18:30:00+00:00", "2026-03-28 20:30:00+00:00"),
    ]
    assert b"Secret" not in response.content
    assert "Foyer" in str(events(response)[2]["location"])


def test_due_entry_keeps_its_identity_and_is_revised_when_its_day_moves(
    program: Client, address: str, composer: Composer
) -> None:
    make_performance(make_work("Tides", composer=composer), date="2026-05-28", status="confirmed")
    leads = make_record(LeadTimes, work=make_work("Weirs", composer=composer), contract="")
    before = {str(one["uid"]): one for one in events(program.get(address))}
    leads.travel = Lead(60)
    save_record(record=leads, now=NOW)

    after = {str(one["uid"]): one for one in events(program.get(address))}

    assert before.keys() == after.keys()
    (moved,) = [one for one in after.values() if "Travel" in one["summary"]]
    earlier = before[str(moved["uid"])]
    assert (str(earlier["dtstart"].dt), str(moved["dtstart"].dt)) == ("2026-04-30", "2026-03-29")
    assert moved["sequence"] > earlier["sequence"]


def test_event_keeps_its_identity_and_leads_elsewhere_where_the_house_moves(
    program: Client, of_performances: str, composer: Composer, settings: Any
) -> None:
    make_performance(make_work("Tides", composer=composer), date="2026-03-28")

    [before] = events(program.get(of_performances))
    settings.SITE_URL = "https://elsewhere.example"
    forget_everywhere()
    [after] = events(program.get(of_performances))

    assert after["uid"] == before["uid"]
    assert (after["url"] != before["url"], str(after["url"])[:26]) == (True, "https://elsewhere.example/")


def test_deadline_of_a_society_is_due_on_its_day_until_the_return_is_filed(
    program: Client, address: str, composer: Composer
) -> None:
    work = make_work("Tides", composer=composer)
    performance = make_performance(work, date="2026-02-20", venue=make_venue(composer=composer), country="NO")
    deadline = {"scope": "outside this country", "country": "FI", "rule": "12 months"}
    make_record(SocietyDeadline, work=work, **deadline)
    make_record(SocietyDeadline, work=work, **deadline | {"country": "NO", "rule": "3 weeks"})

    due = [(str(one["summary"]), str(one["dtstart"].dt)) for one in events(program.get(address))]
    make_record(Return, work=work, performance=performance)

    assert ("Due: Return filed with Quay Society: Tides", "2027-02-20") in due
    assert not [one for one in events(program.get(address)) if "Return" in one["summary"]]


@pytest.mark.parametrize(
    ("holds", "summaries"),
    [
        (CalendarHolds.PERFORMANCES, {"Get-in: Tides", "Tides"}),
        (CalendarHolds.DEADLINES, {"Due: Travel booked: Tides"}),
    ],
)
def test_part_of_it_is_what_was_chosen(
    program: Client, composer: Composer, owner: User, holds: CalendarHolds, summaries: set[str]
) -> None:
    work = make_work("Tides", composer=composer)
    performance = make_performance(work, date="2026-03-28", status="confirmed")
    make_record(Session, work=work, performance=performance)
    others = [column for column in COLUMN_OF.values() if column != "travel"]
    LeadTimes.objects.create(composer=composer, **dict.fromkeys(others, Lead(None)))
    token = make_address(composer=composer, keeper=owner, label="Wall", now=NOW, holds=holds)

    found = events(program.get(f"/feeds/{token}/x.ics"))

    assert {str(one["summary"]) for one in found} == summaries


# ---- not built again


@pytest.mark.parametrize("method", ["get", "head"])
def test_unchanged_calendar_is_answered_with_one_query_and_not_built(
    program: Client, address: str, composer: Composer, method: str, clock: Any
) -> None:
    make_performance(make_work("Tides", composer=composer), date="2026-03-28")
    clock.goes_on(minutes=11)  # until nothing is under way where many write
    first = program.get(address)
    ask = getattr(program, method)

    with CaptureQueriesContext(connection) as asked:
        again = ask(address, headers={"if-none-match": first.headers["ETag"]})
        whole = ask(address)

    assert len(asked) == 2
    assert (again.status_code, again.content, whole.status_code) == (304, b"", 200)
    shown = ("ETag", "Cache-Control", "X-Robots-Tag", "Referrer-Policy")
    assert [again.headers[name] for name in shown] == [first.headers[name] for name in shown]
    assert whole.content == (first.content if method == "get" else b"")


@pytest.mark.parametrize("public", [False, True])
def test_calendar_that_another_process_has_built_is_not_built_again(
    program: Client, address: str, composer: Composer, clock: Any, public: bool
) -> None:
    composer.feed_is_public = True
    save_record(record=composer, now=NOW)
    make_performance(make_work("Tides", composer=composer), date="2026-03-28", status="confirmed")
    clock.goes_on(minutes=11)
    path = "/calendars/ilka-marovand.ics" if public else address
    first = program.get(path)
    forget_calendars()  # a process that was asked for nothing yet

    with CaptureQueriesContext(connection) as asked:
        again = program.get(path)
        unchanged = program.get(path, headers={"if-none-match": first.headers["ETag"]})

    assert len(asked) == 2
    assert (again.content, unchanged.status_code) == (first.content, 304)


def test_process_that_has_an_older_calendar_takes_the_newer_that_another_has_built(
    program: Client, address: str, composer: Composer
) -> None:
    older = program.get(address)
    remembered = dict(kept_calendars._kept)
    make_performance(make_work("Tides", composer=composer), date="2026-03-28")
    newer = program.get(address)
    kept_calendars._kept.update(remembered)

    with CaptureQueriesContext(connection) as asked:
        again = program.get(address)

    assert older.content != newer.content == again.content
    assert len(asked) < 10


def test_kept_calendar_is_shut_with_its_address_and_with_its_keeper(program: Client, address: str, owner: User) -> None:
    assert program.get(address).status_code == 200
    owner.is_active = False
    owner.save()

    assert program.get(address).status_code == 404


def test_kept_calendar_is_of_its_day(program: Client, address: str, composer: Composer, clock: Any) -> None:
    make_performance(make_work("Tides", composer=composer), date="2025-03-09")
    before = program.get(address)
    clock.goes_on(days=1)

    after = program.get(address, headers={"if-none-match": before.headers["ETag"]})

    assert b"SUMMARY:Tides" in before.content
    assert (after.status_code, b"SUMMARY:Tides" in after.content) == (200, False)
