"""/c/<composer>/performances/halls/<venue>/"""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.actions.performances import save_venue
from catalogue.models import Composer, Venue
from tests.makers import NOW, make_performance, make_venue
from tests.web.pages import Page, with_class


@pytest.fixture
def browser(signed_in: Callable[[User], Client], editor: User) -> Client:
    return signed_in(editor)


def address(venue: Venue) -> str:
    return f"/c/ilka-marovand/performances/halls/{venue.pk}/"


def opened(browser: Client, venue: Venue) -> dict[str, str]:
    (form,) = Page(browser.get(address(venue))).tree.xpath("//form[@data-keep]")
    return {name: (value or "").lstrip("\n") for name, value in form.form_values()}


def test_form_sent_back_unchanged_changes_nothing(browser: Client, composer: Composer) -> None:
    hall = make_venue(composer=composer, latitude=47.3769, longitude=-8.5, notes="Back\n\ndoor.")
    performance = make_performance(composer=composer, venue=hall)
    columns = [one.attname for one in Venue._meta.concrete_fields if one.name not in {"saves", "changed_at"}]
    before = Venue.objects.values(*columns).get()

    assert browser.post(address(hall), opened(browser, hall)).status_code == 302

    performance.refresh_from_db()
    assert (Venue.objects.values(*columns).get(), performance.sequence) == (before, 0)


def test_performances_follow_the_clocks_of_their_hall(browser: Client, composer: Composer) -> None:
    hall = make_venue(composer=composer)
    performance = make_performance(composer=composer, venue=hall)

    browser.post(address(hall), {**opened(browser, hall), "zone": "Europe/London", "country": "United Kingdom"})

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

    page = Page(browser.post(address(hall), {**opened(browser, hall), "city": "Bern", name: typed}))

    assert len(page.texts(f"//*[@id='id_{name}_error']/p")) == 1
    assert (page.field(name), page.field("city")) == (typed, "Bern")
    assert page.text("//h1") == "Change Old Granary"
    assert Venue.objects.get().city == "Zurich"


def test_later_save_of_somebody_else_is_shown_beside_ones_own_and_not_overwritten(
    browser: Client, composer: Composer
) -> None:
    hall = make_venue(composer=composer)
    mine = {**opened(browser, hall), "name": "Old Barn", "city": "Bern"}
    hall.name = "The Granary"
    save_venue(venue=hall, now=NOW)

    page = Page(browser.post(address(hall), mine))

    assert Venue.objects.get().name == "The Granary"
    assert page.texts(f"{with_class('versions')}/div") == [
        "Saved The Granary", "Yours Old Barn", "Saved Zurich", "Yours Bern",
    ]  # fmt: skip
    assert (page.field("name"), page.field("city")) == ("Old Barn", "Bern")

    browser.post(address(hall), {**mine, "saves": page.field("saves")})

    assert Venue.objects.values_list("name", "city").get() == ("Old Barn", "Bern")


def test_hall_of_another_catalogue_cannot_be_changed(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    foreign = make_venue(composer=other_composer)

    assert browser.post(address(foreign), {"name": "Mine"}).status_code == 404
