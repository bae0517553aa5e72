"""/house/deadlines/: every day by which something is due, of all composers together."""

from __future__ import annotations

import datetime
from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalogue.actions.calls import note_submission
from catalogue.gathering.once import forget_all
from catalogue.models import Call, Composer, Hire, Membership, Performance, SocietyDeadline, Step
from catalogue.terms import Role, SubmissionStatus
from tests.conftest import member
from tests.makers import NOW, make_composer, make_performance, make_work
from tests.web.pages import Page
from tests.web.test_house import rows_of

pytestmark = pytest.mark.signed_in_as("publisher")

ADDRESS = "/house/deadlines/"
Seen = list[tuple[str, str, str]]


@pytest.fixture
def publisher(owner: User, other_composer: Composer) -> User:
    """Owns one catalogue and reads another."""
    Membership.objects.create(user=owner, composer=other_composer, role=Role.VIEWER)
    return owner


@pytest.fixture
def due(composer: Composer, other_composer: Composer) -> Performance:
    """Of the first composer an evening that lacks a signed contract alone and a set that is late, of the second a call
    and a return that its society takes; of somebody else another call."""
    evening = make_performance(
        make_work("Tides", composer=composer, instrumentation="pf"),
        date="2026-06-20", city="Lyon", country="FR", status="confirmed", performers=("Kestrel Ensemble",),
        event_title="Evening", zone="Europe/Paris",
    )  # fmt: skip
    work = evening.programme.get().work
    Hire.objects.create(
        composer=composer, work=work, name="Two Bells Orchestra", out_on=datetime.date(2026, 1, 5),
        due_on=datetime.date(2026, 2, 27),
    )  # fmt: skip
    for whose, title in ((other_composer, "Reading in May"), (make_composer("Osk Verrin"), "Somebody Else's")):
        call = Call(composer=whose, title=title, full_text="A reading.", terms={"deadline_day": "2026-05-01"})
        call.clean()
        call.save()
    SocietyDeadline.objects.create(
        composer=other_composer, society="The Alder Society", rule="3 months", scope="everywhere", source="its rules",
        read_on="2026-01-02",
    )  # fmt: skip
    make_performance(
        make_work("Weirs", composer=other_composer), date="2026-02-20", city="Ghent", country="BE", status="given"
    )
    return evening


def seen(browser: Client, **asked: str) -> Seen:
    page = Page(browser.get(ADDRESS, asked))
    cells = (
        page.texts(f"//tbody//{path}") for path in ("th", "td[@data-label='Of what']", "td[@data-label='Composer']")
    )
    return list(zip(*cells, strict=True))


def test_everything_that_is_due_stands_by_its_day_with_its_composer(browser: Client, due: Performance) -> None:
    found = seen(browser)

    assert found[0] == ("Duration as played noted", "Weirs in Ghent, 20 February 2026", "Pell Tarrowick")
    assert ("Set back", "Tides, Two Bells Orchestra", "Ilka Marovand") in found
    assert ("Contract signed", "Tides in Lyon, 20 June 2026", "Ilka Marovand") in found
    assert ("Call closes", "Reading in May", "Pell Tarrowick") in found
    assert ("Return filed with The Alder Society", "Weirs in Ghent, 20 February 2026", "Pell Tarrowick") in found
    assert "Somebody" not in str(found)
    days = Page(browser.get(ADDRESS)).texts("//tbody//td[@data-label='Day']")
    assert (days[0], "27 Feb 2026late by 10 days" in days) == ("21 Feb 2026late by 16 days", True)


def test_a_call_that_was_answered_is_due_no_more(browser: Client, due: Performance) -> None:
    call = Call.objects.get(title="Reading in May")
    shown = [seen(browser, kind="call")]
    for status in (SubmissionStatus.SENT, SubmissionStatus.WITHDRAWN):
        saves = len(shown) - 1
        note_submission(call=call, status=status, sent_on=None, outcome="", feedback="", saves=saves, now=NOW)
        shown.append(seen(browser, kind="call"))

    assert [len(one) for one in shown] == [1, 1, 0]


@pytest.mark.parametrize(
    ("asked", "what"),
    [
        ({"kind": "call"}, ["Call closes"]),
        ({"kind": "set"}, ["Set back"]),
        ({"kind": "return"}, ["Return filed with The Alder Society"]),
        ({"kind": "set", "since": "9 March 2026"}, []),
        ({"kind": "call", "until": "30 April 2026"}, []),
        ({"kind": "call", "since": "1 May 2026", "until": "1 May 2026"}, ["Call closes"]),
        ({"composer": "ilka-marovand", "kind": "call"}, []),
    ],
)
@pytest.mark.usefixtures("due")
def test_it_is_asked_for_by_composer_kind_and_days(browser: Client, asked: dict[str, str], what: list[str]) -> None:
    assert [one[0] for one in seen(browser, **asked)] == what


@pytest.mark.usefixtures("due")
def test_days_that_cannot_be_are_said_and_nothing_is_shown(browser: Client) -> None:
    unread = Page(browser.get(ADDRESS, {"since": "soon"}))
    turned = Page(browser.get(ADDRESS, {"since": "2026-05-02", "until": "2026-05-01", "kind": "moon"}))

    assert (len(unread.wrong), unread.texts("//tbody")) == (1, [])
    assert "This day is before the first one." in turned.text("//form")
    assert len(turned.wrong) == 2


def test_what_is_done_and_what_somebody_sets_a_day_for_counts_at_once(browser: Client, due: Performance) -> None:
    before = seen(browser, kind="step")
    Step.objects.create(composer=due.composer, performance=due, kind="contract", state="done")
    far = make_performance(make_work("Far"), date="2029-01-01", city="Lyon", country="FR", status="confirmed")
    Step.objects.create(composer=far.composer, performance=far, kind="travel", due="2026-04-02")

    after = seen(browser, kind="step")

    assert "Contract signed" in [what for what, _of, _whose in before]
    assert ("Contract signed", "Tides in Lyon, 20 June 2026", "Ilka Marovand") not in after
    assert ("Travel booked", "Far in Lyon, 1 January 2029", "Ilka Marovand") in after


def test_who_reads_is_led_to_the_page_and_who_edits_to_the_form(
    browser: Client, signed_in: Callable[[User], Client], composer: Composer, due: Performance
) -> None:
    Performance.objects.filter(pk=due.pk).update(status="planned")
    asked = {"kind": "record", "composer": "ilka-marovand"}
    reader = signed_in(member("lena", composer, Role.VIEWER))

    addresses = [Page(one.get(ADDRESS, asked)).values("//tbody//th/a/@href") for one in (browser, reader)]

    page = reverse("performance-detail", args=["ilka-marovand", due.pk])
    assert f"{page}edit/#id_status" in addresses[0]
    assert set(addresses[1]) == {page}


@pytest.mark.usefixtures("due")
def test_a_librarian_sees_when_sets_are_due_back_alone(signed_in: Callable[[User], Client], composer: Composer) -> None:
    tove = signed_in(member("tove", composer, Role.LIBRARIAN))

    assert seen(tove) == [("Set back", "Tides, Two Bells Orchestra", "Ilka Marovand")]


@pytest.mark.usefixtures("due")
def test_it_is_taken_along_as_it_is_asked_for(browser: Client) -> None:
    rows = rows_of(browser.get(reverse("house-deadline-export", args=["csv"]), {"kind": "call"}))

    assert rows[0] == ["Day", "Composer", "Kind", "What is due", "Of what", "Address"]
    assert [row[:5] for row in rows[1:]] == [
        ["2026-05-01", "Pell Tarrowick", "Calls that close", "Call closes", "Reading in May"]
    ]
    assert rows[1][5].startswith("http://127.0.0.1:8000/c/pell-tarrowick/calls/")
    sheet = browser.get(reverse("house-deadline-export", args=["xlsx"]))
    assert sheet.content[:2] == b"PK"


def test_number_of_queries_does_not_grow_with_what_is_due(browser: Client, publisher: User, due: Performance) -> None:
    def queries() -> int:
        forget_all()
        with CaptureQueriesContext(connection) as asked:
            browser.get(ADDRESS)
        return len(asked)

    with_one = queries()
    for name in ("Osric Vane", "Lena Quist"):
        further = make_composer(name, sort_name=name)
        Membership.objects.create(user=publisher, composer=further, role=Role.EDITOR)
        make_performance(make_work(f"Of {name}", composer=further), date="2026-06-20", status="confirmed")

    assert (with_one, queries()) == (22, 22)
