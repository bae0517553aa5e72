"""/c/<composer>/calendar/ and what hangs on it: the addresses of one's own, the public one, one performance alone"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from icalendar import Calendar

from catalogue.actions.calendars import make_address
from catalogue.actions.calls import note_submission, propose_call
from catalogue.models import CalendarAddress, Composer, Performance
from catalogue.terms import SubmissionStatus
from tests.conftest import NOW
from tests.makers import make_performance, make_venue, make_work
from tests.web.pages import Page

pytestmark = [pytest.mark.django_db, pytest.mark.signed_in_as("viewer")]
ADDRESS = "/c/ilka-marovand/calendar/"
HOST = "http://127.0.0.1:8000"


@pytest.fixture
def owners(signed_in: Callable[[User], Client], owner: User) -> Client:
    return signed_in(owner)


def made(browser: Client, **typed: str) -> str:
    """Make an address on the page and return its path."""
    response = browser.post(f"{ADDRESS}make/", {"label": "Telephone", "holds": "everything", **typed})
    return Page(response).values("//input[@readonly]/@value")[0].removeprefix(HOST)


def summaries(content: bytes) -> list[str]:
    return sorted(str(event["summary"]) for event in Calendar.from_ical(content).walk("VEVENT"))


def test_address_is_shown_once_when_it_is_made(browser: Client, composer: Composer) -> None:
    response = browser.post(f"{ADDRESS}make/", {"label": "Telephone", "holds": "everything"})

    page = Page(response)
    shown = page.values("//input[@readonly]/@value")[0]
    assert page.values("//a[starts-with(@href, 'webcal:')]/@href") == [shown.replace("http:", "webcal:")]
    assert (response.headers["Cache-Control"], response.headers["Referrer-Policy"]) == (
        "private, no-store",
        "same-origin",
    )
    assert Client().get(shown.removeprefix(HOST)).status_code == 200
    listed = Page(browser.get(ADDRESS)).text()
    assert "Telephone" in listed
    assert shown.split("/")[-2] not in listed


def test_label_is_asked_for_and_what_was_typed_stays(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(f"{ADDRESS}make/", {"label": " ", "holds": "deadlines", "query": "country=NO"}))

    assert page.values("//select[@name='holds']/option[@selected]/@value") == ["deadlines"]
    assert page.values("//input[@name='query']/@value") == ["country=NO"]
    assert not CalendarAddress.objects.exists()


def test_address_of_a_list_holds_what_the_list_shows(browser: Client, composer: Composer) -> None:
    hall = make_venue(composer=composer)
    for title, place in (("Tides", {"venue": hall}), ("Slack Rope", {"city": "Lyon", "country": "FR"})):
        make_performance(make_work(title, composer=composer), date="2026-03-28", **place)
    path = made(browser, holds="performances", query="country=FR&page=2&sort=-when")

    content = Client().get(path).content

    assert summaries(content) == ["Slack Rope"]
    assert Calendar.from_ical(content)["X-WR-CALNAME"] == "Performances of Ilka Marovand (Telephone)"
    make_performance(make_work("Ebb", composer=composer), date="2026-04-28", city="Lille", country="FR")
    assert summaries(Client().get(path).content) == ["Ebb", "Slack Rope"]


def test_address_of_a_part_never_shows_more_than_that_part(browser: Client, composer: Composer) -> None:
    performance = make_performance(
        make_work("Slack Rope", composer=composer), date="2026-03-28", city="Lyon", country="FR"
    )
    make_performance(make_work("Tides", composer=composer), date="2026-03-29", city="Oslo", country="NO")
    path = made(browser, holds="performances", query="country=FR")

    Performance.objects.filter(pk=performance.pk).update(country="BE")

    assert summaries(Client().get(path).content) == []


def test_address_of_deadlines_holds_no_performance(browser: Client, composer: Composer) -> None:
    make_performance(make_work("Tides", composer=composer), date="2026-03-28")

    found = summaries(Client().get(made(browser, holds="deadlines")).content)
    assert [one for one in found if not one.startswith("Due: ")] == []


def test_a_call_leaves_the_calendar_once_it_is_answered_and_says_when_it_was_sent(
    browser: Client, composer: Composer
) -> None:
    names = ("Lowmarsh Winds", "Two Bells", "Kestrel")
    calls = [propose_call(composer=composer, text=f"{name}\nDeadline: 20 June 2026.", now=NOW) for name in names]
    path = made(browser, holds="deadlines")
    before = Calendar.from_ical(Client().get(path).content).walk("VEVENT")

    for call, status in zip(calls, ("sent", "not chosen", "draft"), strict=True):
        note_submission(
            call=call, status=SubmissionStatus(status), sent_on=None, outcome="", feedback="", saves=0, now=NOW
        )  # fmt: skip
    after = Calendar.from_ical(Client().get(path).content).walk("VEVENT")

    told = [{str(one["summary"]): one["sequence"] for one in events} for events in (before, after)]
    assert set(told[0]) == {f"Closes: {call.title}" for call in calls}
    assert set(told[1]) == {f"Sent; closes: {calls[0].title}", f"Closes: {calls[2].title}"}
    assert told[1][f"Sent; closes: {calls[0].title}"] > told[0][f"Closes: {calls[0].title}"]


def test_page_says_when_an_address_was_last_fetched(browser: Client, composer: Composer) -> None:
    path = made(browser)
    before = Page(browser.get(ADDRESS)).text()

    Client().get(path)

    assert "not fetched yet" in before
    assert "last fetched on 9 March 2026" in Page(browser.get(ADDRESS)).text()


def test_addresses_are_seen_and_shut_by_whoever_made_them_and_by_the_owner(
    browser: Client, owners: Client, composer: Composer, editor: User, signed_in: Callable[[User], Client]
) -> None:
    path = made(browser)
    make_address(composer=composer, keeper=editor, label="Desk", now=NOW)
    mine, theirs = CalendarAddress.objects.order_by("pk")

    seen = [Page(one.get(ADDRESS)).texts("//section[@id='addresses']//li//b") for one in (browser, owners)]
    refused = browser.post(f"{ADDRESS}{theirs.pk}/shut/").status_code
    shut = browser.post(f"{ADDRESS}{mine.pk}/shut/").status_code
    by_owner = owners.post(f"{ADDRESS}{theirs.pk}/shut/").status_code

    assert seen == [["Telephone"], ["Desk", "Telephone"]]
    assert (refused, shut, by_owner) == (403, 302, 302)
    assert Client().get(path).status_code == 404
    assert not CalendarAddress.objects.exists()


def test_public_calendar_is_shut_until_the_owner_opens_it(owners: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)
    for day, columns in (
        ("2026-03-28", {"status": "confirmed"}), ("2026-03-29", {"status": "planned"}),
        ("2026-03-30", {"status": "confirmed", "audience": "private", "notes": "Secret fee"}),
    ):  # fmt: skip
        make_performance(work, date=day, **columns)
    before = Client().get("/calendars/ilka-marovand.ics")

    owners.post(f"{ADDRESS}public/", {"open": "yes"})
    opened = Client().get("/calendars/ilka-marovand.ics")
    owners.post(f"{ADDRESS}public/", {"open": "no"})

    (event,) = Calendar.from_ical(opened.content).walk("VEVENT")
    assert (before.status_code, before.content) == (404, b"")
    assert event.decoded("dtstart").isoformat()[:10] == "2026-03-28"
    assert "url" not in event
    assert opened.headers["Cache-Control"] == "public, max-age=900"
    assert opened.headers["X-Robots-Tag"] == "noindex, nofollow"
    assert Client().get("/calendars/ilka-marovand.ics").status_code == 404


def test_performances_without_a_day_are_listed_as_left_out(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)
    for day, city in (("2026-05", "Lyon"), ("2026-05-02", "Oslo"), ("c. 2026-05-03", "Riga"), ("2019", "Kyiv")):
        make_performance(work, date=day, city=city, status="planned")

    left_out = " ".join(Page(browser.get(ADDRESS)).texts("//section[@id='left-out']//li"))

    assert [city in left_out for city in ("Lyon", "Oslo", "Riga", "Kyiv")] == [True, False, True, False]


def test_one_performance_can_be_put_into_a_calendar_whenever_it_was(browser: Client, composer: Composer) -> None:
    performance = make_performance(make_work("Tides", composer=composer), date="2019-03-28", city="Oslo")
    make_performance(make_work("Other", composer=composer), date="2026-03-28", city="Oslo")
    vague = make_performance(make_work("Ebb", composer=composer), date="2026-05", city="Oslo")
    room = "/c/ilka-marovand/performances/"

    response = browser.get(f"{room}{performance.pk}/event.ics")
    page = Page(browser.get(f"{room}{performance.pk}/"))

    assert summaries(response.content) == ["Tides"]
    assert response.headers["Content-Disposition"].startswith('attachment; filename="')
    assert f"{room}{performance.pk}/event.ics" in page.values("//a/@href")
    assert browser.get(f"{room}{vague.pk}/event.ics").status_code == 404
    assert f"{room}{vague.pk}/event.ics" not in Page(browser.get(f"{room}{vague.pk}/")).values("//a/@href")


def test_number_of_queries_does_not_grow(owners: Client, composer: Composer, owner: User) -> None:
    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            owners.get(ADDRESS)
        return len(asked)

    work = make_work("Tides", composer=composer)
    counted = []
    for number in (1, 2, 3):
        make_address(composer=composer, keeper=owner, label=f"Number {number}", now=NOW)
        make_performance(work, date=f"2026-0{number + 3}", performers=("A", "B"))
        counted.append(queries())

    assert counted[0] == counted[2]


def test_list_of_performances_offers_to_subscribe_to_it(browser: Client, composer: Composer) -> None:
    make_performance(make_work("Tides", composer=composer), date="2026-03-28", city="Lyon", country="FR")

    page: Any = Page(browser.get("/c/ilka-marovand/performances/?country=FR&sort=when"))

    assert f"{ADDRESS}?country=FR" in page.values("//a/@href")
