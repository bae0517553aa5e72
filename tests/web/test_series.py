"""/c/<composer>/performances/series/: a series, a tour or a festival as a whole"""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, LeadTimes, Step
from catalogue.models.journeys import COLUMN_OF
from catalogue.rules.journey import Lead
from tests.makers import make_performance, make_work
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/performances/series/"
QUAYS = f"{ADDRESS}?name=Quays%20%26%20Locks"


@pytest.fixture
def tour(composer: Composer) -> Composer:
    """A tour of three evenings with two works, and one evening that is none of it; only contracts are needed."""
    others = dict.fromkeys(COLUMN_OF.values(), Lead(None))
    LeadTimes.objects.create(composer=composer, **{**others, "contract": Lead(60)})
    tides, weirs = make_work("Tides", composer=composer), make_work("Weirs", composer=composer)
    evenings = (("2026-05-01", (tides,)), ("2026-05-03", (tides, weirs)), ("2026-02-01", (weirs,)))
    for day, works in evenings:
        make_performance(*works, date=day, city="Lyon", series="Quays & Locks", status="confirmed")
    make_performance(tides, date="2026-05-02", status="confirmed")
    make_performance(tides, date="2019-05-02", series="Old Rooms")
    return composer


def contracts() -> list[str]:
    return sorted(Step.objects.values_list("state", flat=True))


def test_every_series_is_listed_the_latest_first(browser: Client, tour: Composer) -> None:
    page = Page(browser.get(ADDRESS))

    assert page.texts("//main//li") == ["Quays & Locks 3 performances, 2026", "Old Rooms one performance, 2019"]


def test_one_shows_its_evenings_its_works_and_what_is_due_for_several(browser: Client, tour: Composer) -> None:
    page = Page(browser.get(QUAYS))

    assert page.text(f"{with_class('head')}//p") == "3 performances, 2 works, 2026."
    assert page.texts("//section[@id='evenings']//li//a") == [
        "Weirs in Lyon",
        "Tides in Lyon",
        "Tides and Weirs in Lyon",
    ]
    assert page.texts("//section[@id='works']//li") == ["Tides 2 times", "Weirs 2 times"]
    assert page.texts("//section[@id='steps']//li/span[1]") == ["Contract signed for 2 performances"]


def test_step_is_done_for_all_of_it_and_undone_for_those(browser: Client, tour: Composer) -> None:
    (done,) = Page(browser.get(QUAYS)).values("//section[@id='steps']//form/@action")

    page = Page(browser.post(done, follow=True))

    assert page.texts(f"{with_class('notice')}/p") == ["Contract signed: done. Said of 2 performances."]
    assert contracts() == ["done", "done"]
    (undo,) = page.values(f"{with_class('notice')}/form/@action")
    browser.post(undo)
    assert contracts() == ["open", "open"]


def test_without_a_name_nothing_is_said_of_anything(browser: Client, tour: Composer) -> None:
    answer = browser.post(f"{ADDRESS}steps/contract/done/")

    assert (answer.status_code, contracts()) == (302, [])


@pytest.mark.parametrize("way", ["waltz/done", "contract/perhaps"])
def test_step_that_is_none_is_not_found(browser: Client, tour: Composer, way: str) -> None:
    assert browser.post(f"{ADDRESS}steps/{way}/?name=Quays%20%26%20Locks").status_code == 404


def test_series_that_is_none_is_not_found_and_empty_list_teaches(browser: Client, composer: Composer) -> None:
    assert browser.get(QUAYS).status_code == 404
    assert "No performance names a series yet." in Page(browser.get(ADDRESS)).text("//main")


def test_tour_is_begun_with_the_name_of_the_series(browser: Client, tour: Composer) -> None:
    (address,) = Page(browser.get(QUAYS)).values(f"{with_class('actions')}//a/@href")

    assert Page(browser.get(address)).values("//input[@name='series']/@value") == ["Quays & Locks"]


def test_number_of_queries_does_not_grow(browser: Client, tour: Composer) -> None:
    with CaptureQueriesContext(connection) as few:
        browser.get(QUAYS)
    for number in range(3):
        work = make_work(f"Work {number}", composer=tour)
        make_performance(work, date="2026-06-01", series="Quays & Locks", performers=("A", "B"))
    with CaptureQueriesContext(connection) as many:
        browser.get(QUAYS)

    assert len(few) == len(many) == 15
