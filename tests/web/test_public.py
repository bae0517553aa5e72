"""/public/<composer>/ and what hangs on it: pages without an account, feeds, site map; opening them in the profile"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.publishing import publish
from catalogue.models import Commission, Composer, Movement, Performance, Work
from catalogue.web.kept_calendars import forget_everywhere
from tests.conftest import NOW
from tests.makers import make_performance, make_venue, make_work
from tests.web.pages import Page

pytestmark = pytest.mark.django_db
ADDRESS = "/public/ilka-marovand/"
ATOM = "{http://www.w3.org/2005/Atom}"


@pytest.fixture
def ferry(composer: Composer) -> Work:
    work = make_work("Ash Ferry", composer=composer, duration="12'30", completed="2021-05", instrumentation="2vn.va.vc")
    hall = make_venue("Dock Hall", composer=composer)
    make_performance(work, venue=hall, status="confirmed", performers=("Kestrel Quartet",))
    make_performance(work, venue=hall, date="2026-06-01", status="planned", event_title="Not announced")
    make_performance(work, venue=hall, date="2026-06-02", audience="private", event_title="At home")
    return work


@pytest.fixture
def opened(composer: Composer, ferry: Work) -> Work:
    make_work("Kept Back", composer=composer)
    publish(composer=composer, is_open=True, works=[ferry.pk], now=NOW)
    return ferry


def graph_in(page: Page) -> list[dict[str, Any]]:
    (told,) = page.texts("//script[@type='application/ld+json']")
    nodes: list[dict[str, Any]] = json.loads(told)["@graph"]
    return nodes


def test_nothing_is_there_until_the_pages_are_opened(ferry: Work) -> None:
    addresses = (ADDRESS, f"{ADDRESS}works/{ferry.pk}/", f"{ADDRESS}works.atom")

    assert [Client().get(address).status_code for address in addresses] == [404, 404, 404]
    assert ADDRESS not in Client().get("/sitemap.xml").content.decode()


def test_composer_page_shows_what_is_public_and_what_is_to_come(opened: Work) -> None:
    page = Page(Client().get(ADDRESS))

    assert page.texts("//section[starts-with(@id, 'works')]//b") == ["Ash Ferry"]
    assert "Kestrel Quartet" in page.text("//section[@id='coming']")
    assert not any(word in page.text() for word in ("Kept Back", "Not announced", "At home"))


def test_a_work_that_is_not_public_and_a_performance_that_is_private_are_not_there(
    composer: Composer, opened: Work
) -> None:
    other = Work.objects.get(title="Kept Back")
    hidden = composer.performances.exclude(status="confirmed") | composer.performances.filter(audience="private")

    answers = [Client().get(f"{ADDRESS}works/{other.pk}/")]
    answers += [Client().get(f"{ADDRESS}performances/{one.pk}/") for one in hidden]

    assert [answer.status_code for answer in answers] == [404, 404, 404]


def test_pages_say_the_same_to_machines(composer: Composer, opened: Work) -> None:
    event = composer.performances.get(status="confirmed", audience="public")
    told = {node["@type"]: node for node in graph_in(Page(Client().get(f"{ADDRESS}performances/{event.pk}/")))}
    work = {node["@type"]: node for node in graph_in(Page(Client().get(f"{ADDRESS}works/{opened.pk}/")))}

    assert told["MusicEvent"]["startDate"] == "2026-05-16T19:30:00+02:00"
    assert told["MusicEvent"]["location"]["address"]["addressCountry"] == "CH"
    assert told["MusicEvent"]["performer"][0]["name"] == "Kestrel Quartet"
    assert told["MusicEvent"]["workPerformed"][0]["@id"] == work["MusicComposition"]["@id"]
    assert (work["MusicComposition"]["timeRequired"], work["MusicComposition"]["dateCreated"]) == (
        "PT12M30S",
        "2021-05",
    )


def test_several_works_of_an_evening_are_joined_as_a_sentence_does(composer: Composer, opened: Work) -> None:
    others = [make_work(title, composer=composer) for title in ("Six Chairs, Five Guests", "Weirs")]
    publish(composer=composer, is_open=True, works=[opened.pk, *(one.pk for one in others)], now=NOW)
    event = make_performance(opened, *others, date="2026-05-16", city="Bern", country="CH", status="confirmed")

    listed = Page(Client().get(ADDRESS)).text()
    named = Page(Client().get(f"{ADDRESS}performances/{event.pk}/")).text("//h1")
    assert "Ash Ferry, Six Chairs, Five Guests and Weirs" in listed
    assert named == "Ash Ferry, Six Chairs, Five Guests, and Weirs"


def test_pages_say_what_is_shown_where_they_are_named_elsewhere(opened: Work) -> None:
    page = Page(Client().get(f"{ADDRESS}works/{opened.pk}/"))
    told = {one.get("property"): one.get("content") for one in page.tree.xpath("//meta[@property]")}

    assert (told["og:title"], told["og:type"]) == ("Ash Ferry, Ilka Marovand", "website")
    assert told["og:url"].endswith(f"{ADDRESS}works/{opened.pk}/")
    assert told["og:image"].endswith("/static/catalogue/card.png")


def test_feeds_of_news_hold_the_same_items(opened: Work) -> None:
    atom = ElementTree.fromstring(Client().get(f"{ADDRESS}works.atom").content)  # noqa: S314 - our own answer
    news = json.loads(Client().get(f"{ADDRESS}works.json").content)

    (entry,) = atom.findall(f"{ATOM}entry")
    (item,) = news["items"]
    assert entry.findtext(f"{ATOM}title") == item["title"] == "Ash Ferry"
    assert entry.findtext(f"{ATOM}id") == item["id"] == f"urn:uuid:{opened.uid}"
    assert news["version"] == "https://jsonfeed.org/version/1.1"
    assert [one["title"] for one in json.loads(Client().get(f"{ADDRESS}performances.json").content)["items"]] == [
        "Ash Ferry"
    ]


def test_site_map_lists_the_public_pages_alone(opened: Work) -> None:
    told = Client().get("/sitemap.xml").content.decode()

    assert told.count("<loc>") == 3
    assert f"/public/ilka-marovand/works/{opened.pk}/</loc>" in told
    assert "Sitemap: http" in Client().get("/robots.txt").content.decode()


def test_site_map_is_gathered_once_for_each_state_and_shows_what_is_saved_at_once(opened: Work) -> None:
    before = len(statements("/sitemap.xml"))
    assert len(statements("/sitemap.xml")) == 1

    make_work("Salt", composer=opened.composer)
    assert len(statements("/sitemap.xml")) == before

    publish(composer=opened.composer, is_open=True, works=Work.objects.values_list("pk", flat=True), now=NOW)
    assert Client().get("/sitemap.xml").content.decode().count("/works/") == 3
    publish(composer=opened.composer, is_open=False, works=[], now=NOW)
    assert "<loc>" not in Client().get("/sitemap.xml").content.decode()


def test_what_has_not_changed_is_not_sent_again(opened: Work) -> None:
    first = Client().get(ADDRESS)

    again = Client().get(ADDRESS, headers={"If-None-Match": first.headers["ETag"]})

    assert (again.status_code, again.content) == (304, b"")


def statements(address: str) -> list[str]:
    """Return what is asked of the database for a page."""
    with CaptureQueriesContext(connection) as asked:
        assert Client().get(address).status_code == 200
    return [each["sql"] for each in asked]


def test_a_page_that_nothing_was_saved_for_costs_the_question_for_its_state(composer: Composer, opened: Work) -> None:
    event = composer.performances.get(status="confirmed", audience="public")
    hanging = ("", f"works/{opened.pk}/", f"performances/{event.pk}/", "works.atom", "performances.json")
    for address in (f"{ADDRESS}{rest}" for rest in hanging):
        first = Client().get(address)
        (asked,) = statements(address)
        assert "is_public" in asked
        assert Client().get(address).content == first.content


def change(record: Any, **told: Any) -> None:
    for name, value in told.items():
        setattr(record, name, value)
    record.save()


def concert(work: Work) -> Performance:
    return work.composer.performances.get(status="confirmed", audience="public")


CHANGES: dict[str, Callable[[Work], None]] = {
    "Weir": lambda work: change(work, title="Weir"),
    "A life": lambda work: change(work.composer, short_biography="A life"),
    "Salt Hall": lambda work: change(concert(work).venue, name="Salt Hall"),
    "Plover": lambda work: change(concert(work).credits.get(), name="Plover"),
    "Slowly": lambda work: change(Movement(work=work, number=1), title="Slowly"),
    "Tern Trust": lambda work: change(Commission(work=work), name="Tern Trust"),
}


@pytest.mark.parametrize("said", CHANGES)
def test_what_is_saved_stands_on_the_pages_at_once(opened: Work, said: str) -> None:
    addresses = (ADDRESS, f"{ADDRESS}works/{opened.pk}/")
    assert all(said not in Client().get(address).content.decode() for address in addresses)

    opened.refresh_from_db()
    CHANGES[said](opened)

    assert any(said in Client().get(address).content.decode() for address in addresses)


def test_pages_that_are_shut_are_gone_at_once(composer: Composer, opened: Work) -> None:
    addresses = (ADDRESS, f"{ADDRESS}works/{opened.pk}/", f"{ADDRESS}works.atom")
    assert [Client().get(address).status_code for address in addresses] == [200, 200, 200]

    publish(composer=composer, is_open=True, works=[], now=NOW)
    assert [Client().get(address).status_code for address in addresses] == [200, 404, 200]

    publish(composer=composer, is_open=False, works=[opened.pk], now=NOW)
    assert [Client().get(address).status_code for address in addresses] == [404, 404, 404]


def test_a_page_for_all_sets_no_cookie_and_one_for_somebody_is_kept_for_nobody_else(
    opened: Work, signed_in: Callable[[User], Client], owner: User
) -> None:
    own = signed_in(owner).get(ADDRESS)
    for_all = Client().get(ADDRESS)

    assert ("Sign out" in own.content.decode(), own.headers["Cache-Control"]) == (True, "private, no-store")
    assert ("Sign out" in for_all.content.decode(), for_all.headers["Cache-Control"]) == (False, "public, max-age=300")
    assert not for_all.cookies


def test_somebody_signed_in_is_given_the_same_content_which_is_set_once(
    composer: Composer, opened: Work, signed_in: Callable[[User], Client], owner: User
) -> None:
    event = composer.performances.get(status="confirmed", audience="public")
    member = signed_in(owner)
    for address in (f"{ADDRESS}{rest}" for rest in ("", f"works/{opened.pk}/", f"performances/{event.pk}/")):
        for_all = Page(Client().get(address))

        with CaptureQueriesContext(connection) as asked:
            own = Page(member.get(address))

        assert own.text("//main") == for_all.text("//main")
        # The session, who it is, the composer, the record where the page is of one, and the state of the catalogue.
        assert len(asked) == (4 if address == ADDRESS else 5)


def test_somebody_signed_in_is_shown_what_was_saved_at_once(
    opened: Work, signed_in: Callable[[User], Client], owner: User
) -> None:
    member = signed_in(owner)
    member.get(ADDRESS)

    change(Work.objects.get(pk=opened.pk), title="Weir")

    assert "Weir" in Page(member.get(ADDRESS)).text("//main")


def test_owner_opens_the_pages_and_says_which_works_stand_on_them(
    composer: Composer, ferry: Work, signed_in: Callable[[User], Client], owner: User
) -> None:
    browser, other = signed_in(owner), make_work("Salt", composer=composer)
    address = "/c/ilka-marovand/profile/public/"

    browser.post(address, {"open": "yes", "work": [str(other.pk), "999999", "x"]})
    page = Page(browser.get(address))
    assert page.values("//input[@name='work'][@checked]/@value") == [str(other.pk)]
    assert "<em>Salt</em>" in page.text("//textarea[@id='to-paste']")
    assert Client().get(ADDRESS).status_code == 200

    browser.post(address, {"every": "yes"})
    assert Work.objects.filter(is_public=True).count() == 2
    assert Client().get(ADDRESS).status_code == 404


def test_pages_ask_the_database_as_often_for_three_works_as_for_one(composer: Composer, opened: Work) -> None:
    addresses = [ADDRESS, f"{ADDRESS}works/{opened.pk}/", f"{ADDRESS}works.atom", f"{ADDRESS}performances.json"]
    before = [len(statements(address)) for address in addresses]

    for title in ("Salt", "Weir"):
        work = make_work(title, composer=composer, movements=("I", "II"))
        make_performance(work, opened, date="2026-07-01", status="confirmed", performers=("Kestrel Quartet",))
    publish(composer=composer, is_open=True, works=Work.objects.values_list("pk", flat=True), now=NOW)
    forget_everywhere()

    assert [len(statements(address)) for address in addresses] == before
