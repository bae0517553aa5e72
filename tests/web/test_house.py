"""/house/ and what is below it: the lists of all composers together, for whoever keeps several catalogues."""

from __future__ import annotations

import csv
import datetime
import io
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalogue.gathering.once import forget_all
from catalogue.models import Call, Composer, Hire, HireItem, MaterialSet, Membership, Performance, Submission, Work
from catalogue.terms import Role
from catalogue.timing import PartialDate
from catalogue.web import house_room
from catalogue.web.forms import composer_field
from tests.conftest import Clock, member
from tests.makers import NOW, make_composer, make_performance, make_work
from tests.web.pages import Page, with_class
from tests.web.test_private_texts_stay_private import Words, text_of
from tests.whole_catalogue import fill_texts, make_whole_catalogue

pytestmark = pytest.mark.signed_in_as("publisher")

PAGES = ("house-today", "house-works", "house-performances", "house-deadlines", "house-hires", "house-calls")
FILES = (
    "house-work-export", "house-performance-export", "house-deadline-export", "house-hire-export", "house-call-export",
)  # fmt: skip
DAY, ONE_DAY = datetime.date(2026, 3, 9), datetime.timedelta(days=1)


@pytest.fixture
def publisher(owner: User, other_composer: Composer) -> User:
    """Owns one catalogue and reads another."""
    Membership.objects.create(user=owner, composer=other_composer, role=Role.VIEWER)
    return owner


def make_one_of_each(composer: Composer, title: str, *, late: int) -> Work:
    """A work with a performance to come, a call that is open and a set that is overdue by so many days."""
    work = make_work(title, composer=composer, completed="2024")
    make_performance(work, date="2026-03-28", city="Lyon", country="FR", status="confirmed")
    call = Call(composer=composer, title=f"Call for {title}", full_text="A reading.", closes_on=DAY)
    call.save()
    lent = MaterialSet.objects.create(work=work, number="2")
    due = DAY - datetime.timedelta(days=late)
    columns = {"out_on": datetime.date(2026, 1, 5), "due_on": due, "material_set": lent}
    Hire.objects.create(composer=composer, work=work, name=f"Borrower of {title}", **columns)
    return work


@pytest.fixture
def two_catalogues(composer: Composer, other_composer: Composer) -> None:
    make_one_of_each(composer, "Tides", late=3)
    make_one_of_each(other_composer, "Weirs", late=9)
    make_one_of_each(make_composer("Osk Verrin", sort_name="Verrin, Osk"), "Somebody Else's", late=1)


@pytest.mark.usefixtures("two_catalogues")
def test_today_tells_of_all_composers_and_of_nobody_else(browser: Client) -> None:
    page = Page(browser.get("/house/"))

    assert page.texts("//section[@id='coming']//h3") == ["Tides", "Weirs"]
    names = "//section[@id='coming']//p[@class='sans soft']/bdi[1]"
    assert page.texts(names) == ["Ilka Marovand", "Pell Tarrowick"]
    assert page.texts("//section[@id='closing']//h3") == ["Call for Tides", "Call for Weirs"]
    assert page.texts("//section[@id='due-back']//h3") == ["Borrower of Weirs", "Borrower of Tides"]
    assert "Somebody" not in page.text()


@pytest.mark.usefixtures("two_catalogues")
def test_step_is_said_to_be_done_where_one_may_edit_and_leads_back(browser: Client, composer: Composer) -> None:
    steps = Page(browser.get("/house/")).values("//section[@id='coming']//form/@action")
    contract = next(step for step in steps if "/contract/" in step)

    back = browser.post(contract, {"then": "house"})

    assert {step.split("/")[2] for step in steps} == {composer.slug}
    assert back.headers["Location"] == "/house/"
    assert contract not in Page(browser.get("/house/")).values("//section[@id='coming']//form/@action")


@pytest.mark.usefixtures("two_catalogues")
def test_composer_that_is_chosen_is_the_only_one(browser: Client) -> None:
    asked = {"composer": "pell-tarrowick"}

    pages = {name: Page(browser.get(reverse(name), asked)) for name in PAGES}

    assert {name: "Tides" in page.text() for name, page in pages.items()} == dict.fromkeys(PAGES, False)
    assert {name: "Weirs" in page.text() for name, page in pages.items()} == dict.fromkeys(PAGES, True)
    chosen = "//select[@name='composer']/option[@selected]/@value"
    assert {name: page.values(chosen) for name, page in pages.items()} == {name: ["pell-tarrowick"] for name in PAGES}


@pytest.mark.usefixtures("two_catalogues")
def test_lists_name_the_composer_of_each_row_and_lead_to_their_catalogue(browser: Client) -> None:
    works = Page(browser.get("/house/works/", {"sort": "composer"}))
    performances = Page(browser.get("/house/performances/"))

    assert works.texts("//tbody//td[@data-label='Composer']") == ["Ilka Marovand", "Pell Tarrowick"]
    assert [one.split("/")[2] for one in works.values("//tbody//th/a/@href")] == ["ilka-marovand", "pell-tarrowick"]
    assert performances.texts("//tbody//td[@data-label='By these records']") == ["to be the world premiere"] * 2


@pytest.mark.usefixtures("two_catalogues")
def test_lists_are_taken_along_as_they_are_seen(browser: Client) -> None:
    seen = browser.get(reverse("house-performance-export", args=["csv"]), {"composer": "pell-tarrowick"})
    whole = browser.get(reverse("house-work-export", args=["csv"]), {"columns": "all", "sort": "composer"})

    assert rows_of(seen)[0][:3] == ["Date", "Composer", "Works"]
    assert [row[:3] for row in rows_of(seen)[1:]] == [["2026-03-28", "Pell Tarrowick", "Weirs"]]
    assert sorted(row[:2] for row in rows_of(whole)[1:]) == [["Ilka Marovand", "Tides"], ["Pell Tarrowick", "Weirs"]]
    assert 'filename="house-works-all.csv"' in whole.headers["Content-Disposition"]


def rows_of(response: object) -> list[list[str]]:
    return list(csv.reader(io.StringIO(response.content.decode("utf-8-sig"))))  # type: ignore[attr-defined]


@pytest.fixture
def hires(two_catalogues: None, composer: Composer) -> None:
    """Besides the two that are overdue one of each state; their borrowers say which."""
    work, lent = Work.objects.get(title="Tides"), {"composer": composer, "work": Work.objects.get(title="Tides")}
    early, late = datetime.date(2026, 1, 5), datetime.date(2026, 6, 1)
    Hire.objects.create(**lent, name="Waits", due_on=datetime.date(2026, 1, 1), number="17/26")
    Hire.objects.create(**lent, name="Goes out later", out_on=late)
    Hire.objects.create(**lent, name="Is out", out_on=DAY, due_on=late)
    Hire.objects.create(**lent, name="Was extended", out_on=early, due_on=DAY - ONE_DAY, extended_to=DAY)
    back = Hire.objects.create(**lent, name="Came back", out_on=early, due_on=early, back_on=DAY)
    Hire.objects.create(**lent, name="Bought it", out_on=early, due_on=early, purpose="sale")
    HireItem.objects.create(hire=back, name="Flute", expected=1, sent=1, back=0)
    assert work.pk


def told(browser: Client, **asked: str) -> dict[str, str]:
    """Who has what, in their order, and how far it has come."""
    page = Page(browser.get("/house/hires/", asked))
    names = page.texts("//tbody//th")
    return dict(zip(names, page.texts("//tbody//td[@data-label='How far it has come']"), strict=True))


@pytest.mark.usefixtures("hires")
def test_hires_that_are_not_back_stand_by_when_they_are_due(browser: Client) -> None:
    assert list(told(browser).items()) == [
        ("Waits", "not sent yet"),
        ("Borrower of Weirs", "overdue"),
        ("Borrower of Tides", "overdue"),
        ("Was extended", "out"),
        ("Is out", "out"),
        ("Goes out later", "not sent yet"),
    ]
    page = Page(browser.get("/house/hires/"))
    assert page.texts(f"//tbody//td[@data-label='Due back']{with_class('second')}") == [
        "overdue by 9 days", "overdue by 3 days", "today", "in 84 days",
    ]  # fmt: skip


@pytest.mark.usefixtures("hires")
@pytest.mark.parametrize(
    ("asked", "names"),
    [
        ({"state": "overdue"}, ["Borrower of Weirs", "Borrower of Tides"]),
        ({"state": "out"}, ["Was extended", "Is out"]),
        ({"state": "planned"}, ["Waits", "Goes out later"]),
        ({"state": "back"}, ["Came back"]),
        ({"state": "kept"}, ["Bought it"]),
        ({"q": "borrower tides"}, ["Borrower of Tides"]),
        ({"q": "17/26"}, ["Waits"]),
        ({"since": "9 March 2026", "until": "2026-06-01"}, ["Was extended", "Is out"]),
        ({"state": "all", "until": "8 January 2026"}, ["Waits", "Came back"]),
        ({"composer": "pell-tarrowick"}, ["Borrower of Weirs"]),
        ({"sort": "-holder", "state": "overdue"}, ["Borrower of Weirs", "Borrower of Tides"]),
    ],
)
def test_hires_are_asked_for_by_who_has_them_how_far_they_have_come_and_when_they_are_due(
    browser: Client, asked: dict[str, str], names: list[str]
) -> None:
    assert list(told(browser, **asked)) == names


@pytest.mark.usefixtures("hires")
def test_a_day_that_cannot_be_read_is_said_beside_it(browser: Client) -> None:
    page = Page(browser.get("/house/hires/", {"since": "soon", "state": "nowhere"}))

    assert page.status == 200
    assert len(page.wrong) == 2


@pytest.mark.usefixtures("hires")
def test_hires_are_taken_along_with_what_is_missing(browser: Client) -> None:
    rows = rows_of(browser.get(reverse("house-hire-export", args=["csv"]), {"state": "back", "columns": "all"}))

    found = dict(zip(*rows, strict=True))
    assert (found["Due back"], found["Who has it"], found["Back on"]) == ("2026-01-05", "Came back", "2026-03-09")
    assert found["How far it has come"] == "back, not all of it"


@pytest.mark.usefixtures("two_catalogues")
def test_calls_are_asked_for_by_state_deadline_and_kind(browser: Client, composer: Composer) -> None:
    over = Call(composer=composer, title="Gone", closes_on=None, kind="competition", full_text="For oboe.")
    over.terms = {"deadline_day": "2026-02-01", "organiser": "Slate Hall"}
    over.save()
    Call.objects.update(terms=over.terms, closes_on=DAY)
    Call.objects.filter(pk=over.pk).update(closes_on=datetime.date(2026, 2, 1))
    Submission.objects.create(call=Call.objects.get(title="Call for Tides"), status="sent")

    def asked(**questions: str) -> list[str]:
        return Page(browser.get("/house/calls/", questions)).texts("//tbody//th")

    assert asked() == ["Call for Tides", "Call for Weirs"]
    assert asked(state="over") == ["Gone"]
    assert asked(state="all", kind="competition") == ["Gone"]
    assert asked(state="all", until="1 March 2026") == ["Gone"]
    assert asked(since="9 March 2026", sent="sent") == ["Call for Tides"]
    assert asked(sent="nothing") == ["Call for Weirs"]
    assert asked(state="all", q="OBOE") == ["Gone"]
    assert asked(composer="pell-tarrowick") == ["Call for Weirs"]
    seen = rows_of(browser.get(reverse("house-call-export", args=["csv"]), {"state": "over"}))
    assert [row[:4] for row in seen] == [
        ["Closes", "Call", "Composer", "Organiser"], ["2026-02-01", "Gone", "Ilka Marovand", "Slate Hall"],
    ]  # fmt: skip

    Submission.objects.update(status="not chosen")
    assert (asked(), asked(state="over")) == (["Call for Weirs"], ["Gone", "Call for Tides"])
    assert asked(sent="not chosen") == ["Call for Tides"]


@pytest.mark.usefixtures("two_catalogues")
@pytest.mark.parametrize("what", ["hire", "call"])
def test_lists_that_nothing_meets_say_so(browser: Client, what: str) -> None:
    page = Page(browser.get(f"/house/{what}s/", {"q": "trombone"}))

    assert f"No {what} meets all of these conditions. Ask for less." in page.text()


def queries(browser: Client, name: str) -> int:
    """As after a start."""
    forget_all()
    with CaptureQueriesContext(connection) as asked:
        browser.get(reverse(name))
    return len(asked)


@pytest.mark.usefixtures("two_catalogues")
def test_number_of_queries_does_not_grow_with_the_composers(browser: Client, publisher: User) -> None:
    with_two = {name: queries(browser, name) for name in PAGES}
    for name in ("Osric Vane", "Lena Quist"):
        further = make_composer(name, sort_name=name)
        make_one_of_each(further, f"Work of {name}", late=2)
        Membership.objects.create(user=publisher, composer=further, role=Role.EDITOR)

    assert {name: queries(browser, name) for name in PAGES} == with_two
    assert with_two == {
        "house-today": 27, "house-works": 9, "house-performances": 15, "house-deadlines": 22, "house-hires": 9,
        "house-calls": 8,
    }  # fmt: skip


@pytest.mark.usefixtures("two_catalogues")
@pytest.mark.parametrize(("name", "number"), [("house-today", 27), ("house-deadlines", 22)])
def test_after_a_save_the_composer_concerned_is_asked_for_again(
    browser: Client, composer: Composer, name: str, number: int
) -> None:
    browser.get(reverse(name))
    evening = Performance.objects.get(composer=composer)
    evening.event_title, evening.date = "Harbour Night", PartialDate(2026, 4, 2)
    evening.save()
    with CaptureQueriesContext(connection) as asked:
        seen = Page(browser.get(reverse(name)))
        texts = [query["sql"] for query in asked]
    forget_all()

    assert "2 Apr" in seen.text()
    assert seen.text("//main") == Page(browser.get(reverse(name))).text("//main")
    gathered = [text for text in texts if 'FROM "catalogue_performancecredit"' in text]
    assert [f"({evening.pk})" in text for text in gathered] == [True]
    assert len(texts) == number


@pytest.mark.usefixtures("two_catalogues")
def test_pieces_that_are_kept_show_what_was_saved_last(browser: Client, other_composer: Composer) -> None:
    """What each save shows is what is shown after a start."""
    work, evening = Work.objects.get(title="Weirs"), Performance.objects.get(composer=other_composer)
    changes: tuple[tuple[Any, dict[str, Any]], ...] = (
        (work, {"title": "Weirs and Locks"}),
        (evening, {"status": "planned"}),
        (evening, {"date": PartialDate(2026, 3, 10)}),
        (other_composer, {"name": "Pell Tarrowick-Vane"}),
        (evening, {"deleted_at": NOW}),
        (evening, {"deleted_at": None, "status": "given", "date": PartialDate(2026, 3, 1)}),
        (Hire.objects.get(work=work), {"back_on": DAY}),
        (Call.objects.get(composer=other_composer), {"title": "Call for locks"}),
    )
    seen = set()
    for record, columns in changes:
        for column, value in columns.items():
            setattr(record, column, value)
        record.save()
        kept = {name: Page(browser.get(reverse(name))).text("//main") for name in ("house-today", "house-deadlines")}
        forget_all()
        anew = {name: Page(browser.get(reverse(name))).text("//main") for name in kept}
        assert kept == anew
        seen.add(tuple(kept.values()))

    assert len(seen) == len(changes)


@pytest.mark.usefixtures("two_catalogues")
def test_of_many_calls_and_sets_the_next_are_shown(
    browser: Client, composer: Composer, monkeypatch: pytest.MonkeyPatch, clock: Clock
) -> None:
    monkeypatch.setattr(house_room, "MOST_TOGETHER", 1)
    monkeypatch.setattr(house_room, "CLOSING", 2)
    calls = list(Call.objects.filter(composer__in=[composer, *Composer.objects.filter(slug="pell-tarrowick")]))
    for number, call in enumerate(sorted(calls, key=lambda one: one.title)):
        call.closes_at = NOW + datetime.timedelta(hours=1 + number)
        call.save()
    last = Call(composer=composer, title="Call in May", full_text="A reading.", closes_on=datetime.date(2026, 5, 1))
    last.save()

    def closing(now: datetime.datetime) -> tuple[list[str], bool]:
        clock.moment = now
        page = Page(browser.get("/house/"))
        return page.texts("//section[@id='closing']//h3"), "More calls close later." in page.text()

    page = Page(browser.get("/house/"))
    assert page.texts("//section[@id='due-back']//h3") == ["Borrower of Weirs"]
    assert "More sets are due back later." in page.text()
    assert closing(NOW) == (["Call for Tides"], True)
    assert closing(NOW + datetime.timedelta(minutes=90)) == (["Call for Weirs"], True)
    assert closing(NOW + datetime.timedelta(minutes=150)) == (["Call in May"], False)


def test_rooms_of_all_composers_are_offered_to_whoever_keeps_several(browser: Client) -> None:
    page = Page(browser.get("/house/works/"))

    assert page.texts("//nav[@aria-label='Rooms']//a") == [
        "Today", "Works", "Performances", "Deadlines", "Hires", "Calls",
    ]  # fmt: skip
    assert page.texts("//nav[@aria-label='Rooms']//a[@aria-current='page']") == ["Works"]


@pytest.fixture
def many(monkeypatch: pytest.MonkeyPatch) -> None:
    """So many composers that a list of them would be too long."""
    monkeypatch.setattr(composer_field, "MOST_LISTED", 1)


@pytest.mark.usefixtures("two_catalogues", "many")
@pytest.mark.parametrize("typed", ["pell tarrowick", "Tarrowick, Pell", "TARROW", "pell-tarrowick"])
def test_composer_of_many_is_typed(browser: Client, typed: str) -> None:
    pages = {name: Page(browser.get(reverse(name), {"composer": typed})) for name in PAGES}

    assert {name: "Tides" in page.text() for name, page in pages.items()} == dict.fromkeys(PAGES, False)
    shown = "Pell Tarrowick" if typed == "pell-tarrowick" else typed
    assert {name: page.field("composer") for name, page in pages.items()} == dict.fromkeys(PAGES, shown)


@pytest.mark.usefixtures("two_catalogues", "many")
def test_composer_whom_nobody_or_several_are_called_is_said(browser: Client) -> None:
    nobody, several = (Page(browser.get("/house/hires/", {"composer": typed})) for typed in ("verrin", "ro"))

    assert "No composer here is called “verrin”." in nobody.text("//form")
    assert "Several composers here are called so: Ilka Marovand, Pell Tarrowick." in several.text("//form")


def test_role_that_is_taken_away_counts_at_once(browser: Client, publisher: User, other_composer: Composer) -> None:
    make_work("Weirs", composer=other_composer)
    before = "Weirs" in Page(browser.get("/house/works/")).text()
    Membership.objects.filter(user=publisher, composer=other_composer).delete()

    assert (before, "Weirs" in Page(browser.get("/house/works/")).text()) == (True, False)


@pytest.mark.slow
def test_member_of_another_catalogue_is_told_no_word(
    composer: Composer, other_composer: Composer, signed_in: Callable[[User], Client]
) -> None:
    """Every text of a catalogue is a word of its own; the others are filled after their names are put back."""
    words = Words()
    make_whole_catalogue(composer)
    fill_texts(words.word_for)
    Composer.objects.filter(pk=other_composer.pk).update(name="Pell Tarrowick", sort_name="Tarrowick, Pell")
    guest, insider = member("guest", other_composer, Role.OWNER), member("inside", composer, Role.OWNER)

    told = {who: told_to(signed_in(user), words) for who, user in (("guest", guest), ("insider", insider))}

    assert told["guest"] == set()
    assert {"Work.title", "Venue.name", "Composer.name"} <= told["insider"]


def told_to(browser: Client, words: Words) -> set[str]:
    pages = [reverse(name) for name in PAGES] + [reverse(name, args=["csv"]) for name in FILES]
    return {word for page in pages for word in words.told_in(text_of(browser.get(page)))}
