"""/c/<composer>/records/halls/… : what halls have that other records have not"""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from django.test import Client

from catalogue.models import Composer, Venue
from tests.makers import make_performance, make_person, make_venue, make_work
from tests.web.pages import Page

HALLS = "/c/ilka-marovand/records/halls/"


def opened(browser: Client, address: str) -> dict[str, str]:
    (form,) = Page(browser.get(address)).tree.xpath("//form[@data-keep]")
    return {name: (value or "").lstrip("\n") for name, value in form.form_values()}


def test_performances_follow_the_clocks_of_their_hall(browser: Client, composer: Composer) -> None:
    hall = make_venue(composer=composer)
    performance = make_performance(composer=composer, venue=hall)
    address = f"{HALLS}{hall.pk}/edit/"

    browser.post(address, {**opened(browser, address), "zone": "Europe/London", "country": "United Kingdom"})

    hall.refresh_from_db()
    performance.refresh_from_db()
    assert (hall.zone, hall.country) == ("Europe/London", "GB")
    assert performance.starts_at == datetime(2026, 5, 16, 18, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    ("name", "typed"),
    [("name", ""), ("country", "Atlantis"), ("zone", "Mars/Olympus"), ("latitude", "91"), ("longitude", "east")],
)
def test_mistake_is_told_at_its_place_and_nothing_is_stored(
    browser: Client, composer: Composer, name: str, typed: str
) -> None:
    hall = make_venue(composer=composer)
    address = f"{HALLS}{hall.pk}/edit/"

    page = Page(browser.post(address, {**opened(browser, address), "city": "Bern", name: typed}))

    assert len(page.texts(f"//*[@id='id_{name}_error']/p")) == 1
    assert (page.field(name), page.field("city")) == (typed, "Bern")
    assert Venue.objects.get().city == "Zurich"


def test_hall_that_is_there_already_is_not_entered_twice(browser: Client, composer: Composer) -> None:
    make_venue("Old Granary", composer=composer, city="Zurich")

    page = Page(browser.post(f"{HALLS}new/", {"name": "old granary", "city": "ZURICH"}))

    assert page.wrong == ["This hall is in the catalogue already."]
    assert Venue.objects.count() == 1


def test_page_of_a_hall_leads_to_what_takes_place_there(browser: Client, composer: Composer) -> None:
    hall = make_venue("Salt House", composer=composer, region="Rogaland")
    make_performance(composer=composer, venue=hall)

    page = Page(browser.get(f"{HALLS}{hall.pk}/"))

    assert page.texts("//dd")[:3] == ["Salt House", "Zurich", "Rogaland"]
    assert page.values("//a[contains(., 'takes place here')]/@href") == [
        "/c/ilka-marovand/performances/?q=Salt%20House"
    ]


def test_first_performance_in_a_region_is_told(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer)
    make_performance(
        work, composer=composer, venue=make_venue("A", composer=composer, city="Bath", country="GB"), date="2019"
    )
    north = make_venue("B", composer=composer, city="Leith", country="GB", region="Scotland")
    first = make_performance(work, composer=composer, venue=north, date="2020")
    first.programme.update(billing="Scottish premiere")

    page = Page(browser.get(f"/c/ilka-marovand/performances/{first.pk}/"))

    assert "Regional premiere (Scotland)" in page.texts("//ol//span[@class='fine']")


def test_names_that_look_alike_are_noticed_while_typing_and_on_saving(browser: Client, composer: Composer) -> None:
    person = make_person("Noor Halvorsen", composer=composer)
    people = "/c/ilka-marovand/records/people/"

    typed = Page(browser.post(f"{people}alike/", {"name": "Noor Halvorson"}))
    saved = Page(browser.post(f"{people}new/", {"name": "Noor Halvorson"}, follow=True))

    assert typed.values("//a/@href") == [f"{people}{person.pk}/"]
    assert "It looks like “Noor Halvorsen”, which was here already." in saved.text()
