"""/c/<composer>/duplicates/"""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, Venue
from tests.makers import make_performance, make_venue, make_work
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/duplicates/"


@pytest.fixture
def halls(composer: Composer) -> tuple[Venue, Venue]:
    one, other = (make_venue(name, composer=composer) for name in ("Old Granary", "The Old Granary"))
    make_performance(composer=composer, venue=other)
    return one, other


def pairs(browser: Client) -> list[str]:
    return Page(browser.get(ADDRESS)).texts(with_class("alike") + "/li")


def test_what_looks_like_one_is_offered(browser: Client, halls: tuple[Venue, Venue]) -> None:
    page = Page(browser.get(ADDRESS))

    assert page.text("//h1") == "One likely duplicate"
    assert page.texts(with_class("alike") + "//p") == [
        "Old Granary Zurich; 0 performances",
        "The Old Granary Zurich; one performance",
    ]
    assert page.texts(with_class("apart") + "/span") == ["They differ in case, accents, punctuation or an article."]


def test_one_is_kept_and_there_is_a_way_back(browser: Client, halls: tuple[Venue, Venue]) -> None:
    one, other = halls
    sent = {"sort": "venue", "kept": str(one.pk), "gone": str(other.pk)}

    page = Page(browser.post(f"{ADDRESS}merge/", sent, follow=True))

    assert page.texts(with_class("notice") + "/p") == ["“The Old Granary, Zurich” is now “Old Granary, Zurich”."]
    assert (page.text("//h1"), Venue.objects.count()) == ("No likely duplicates", 1)
    page = Page(browser.post(page.values(with_class("notice") + "/form/@action")[0], follow=True))
    assert page.texts(with_class("notice") + "/p") == [
        "“The Old Granary, Zurich” and “Old Granary, Zurich” are two again."
    ]
    assert Venue.objects.count() == 2


def test_two_that_are_two_are_not_offered_again(browser: Client, halls: tuple[Venue, Venue]) -> None:
    one, other = halls

    for _time in range(2):
        browser.post(f"{ADDRESS}apart/", {"sort": "venue", "one": str(one.pk), "other": str(other.pk)})

    assert pairs(browser) == []


def test_what_cannot_be_merged_is_told(browser: Client, halls: tuple[Venue, Venue]) -> None:
    sent = {"sort": "venue", "kept": str(halls[0].pk), "gone": "98765"}

    page = Page(browser.post(f"{ADDRESS}merge/", sent, follow=True))

    assert page.texts(with_class("notice") + "/p") == ["One of the two is no longer there."]


@pytest.mark.parametrize("sort", ["", "composer", "venue"])
def test_form_that_names_nothing_changes_nothing(browser: Client, halls: tuple[Venue, Venue], sort: str) -> None:
    browser.post(f"{ADDRESS}merge/", {"sort": sort, "kept": "1" if sort != "venue" else "", "gone": "2"})

    assert Venue.objects.count() == 2


def test_works_of_different_numbers_or_years_are_not_offered(browser: Client, composer: Composer) -> None:
    for columns in ({"catalogue_number": "Op. 1"}, {"catalogue_number": "Op. 2"}):
        make_work("Study", composer=composer, **columns)
    for year in ("2001", "2004"):
        make_work("Nocturne", composer=composer, completed=year)

    assert pairs(browser) == []


def test_page_asks_the_database_as_often_for_many_pairs(browser: Client, composer: Composer) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            browser.get(ADDRESS)
        return len(queries)

    for name in ("Old Granary", "old granary"):
        make_venue(name, composer=composer)
    one = asked()
    for number in range(5):
        for name in (f"Barn {number}", f"The Barn {number}"):
            make_venue(name, composer=composer)

    assert (one, asked()) == (11, 11)
