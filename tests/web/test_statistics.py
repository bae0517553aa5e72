"""/c/<composer>/performances/statistics/ and its tables"""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, PerformanceCredit, Work
from catalogue.timing import Duration
from tests.makers import make_performance, make_work
from tests.web.pages import Page

pytestmark = pytest.mark.signed_in_as("viewer")

ADDRESS = "/c/ilka-marovand/performances/statistics/"


@pytest.fixture
def works(composer: Composer) -> dict[str, Work]:
    """Three works, of which one was played twice, one long ago, one never."""
    found = {title: make_work(title, composer=composer, duration="10′") for title in ("Tides", "Weirs", "Locks")}
    make_performance(found["Tides"], date="2023-05-01", country="NO", performers=("Kestrel",))
    make_performance(found["Tides"], date="2025-05-01", country="FR", performers=("Kestrel",))
    excerpt = make_performance(found["Weirs"], date="2018-05-01", country="NO", performers=("Nord",))
    excerpt.programme.update(extent="excerpt")
    PerformanceCredit.objects.update(role="ensemble")
    timed = make_performance(found["Weirs"], date="2018-06-01", country="NO")
    timed.programme.update(duration=Duration(630))
    make_performance(found["Tides"], date="2025-06-01", country="NO", status="cancelled")
    make_performance(found["Locks"], date="2026-05-01", country="NO", status="confirmed")
    return found


def lines(page: Page, section: str) -> list[str]:
    return page.texts(f"//section[@id='{section}']//li")


def test_page_adds_up_minutes_countries_ensembles_and_works(browser: Client, works: dict[str, Work]) -> None:
    page = Page(browser.get(ADDRESS))

    assert page.text("//div[@class='head']//p") == (
        "4 performances, 31 minutes of music, in 2 countries. Of one playing nobody knows how long it "
        "lasted; it is counted without minutes."
    )
    assert [one for one in lines(page, "minutes") if not one.endswith(" 0")] == [
        "2018 11", "2023 10", "2025 10", "2026 10 to come",
    ]  # fmt: skip
    assert lines(page, "countries") == ["Norway 21", "France 10"]
    assert lines(page, "ensembles") == ["Kestrel 2", "Nord 1"]
    assert lines(page, "again") == ["Weirs 31 days later", "Tides 2 years later"]
    assert [text.replace("\xa0", " ") for text in lines(page, "silent")] == ["Weirs 1 June 2018"]
    assert lines(page, "never") == ["Locks to come"]


def test_years_of_silence_are_chosen(browser: Client, works: dict[str, Work]) -> None:
    assert lines(Page(browser.get(f"{ADDRESS}?years=10")), "silent") == []


@pytest.mark.parametrize("asked", ["4", "x", "99999999999999999999", ""])
def test_years_that_are_not_offered_are_as_usual(browser: Client, works: dict[str, Work], asked: str) -> None:
    assert len(lines(Page(browser.get(f"{ADDRESS}?years={asked}")), "silent")) == 1


def test_empty_catalogue_says_what_would_stand_here(browser: Client, composer: Composer) -> None:
    assert "adds them up" in Page(browser.get(ADDRESS)).text("//main")


def test_catalogue_in_which_all_is_to_come_says_so(browser: Client, composer: Composer) -> None:
    make_performance(make_work("Tides", composer=composer, duration="12′"), date="2026-06-12", status="confirmed")

    page = Page(browser.get(ADDRESS))

    assert page.text("//div[@class='head']//p") == "Nothing has been played yet."
    assert [page.text(f"//section[@id='{one}']//div") for one in ("countries", "works", "again")] == [
        "Nothing has been played yet.",
        "No work has been played yet.",
        "No work has been played yet.",
    ]


def test_one_performance_in_one_country_is_told_as_one(browser: Client, composer: Composer) -> None:
    make_performance(make_work("Tides", composer=composer, duration="61′"), date="2025-06-12", country="NO")

    page = Page(browser.get(ADDRESS))

    assert page.text("//div[@class='head']//p") == "One performance, one hour and one minute of music, in one country."
    assert "Of one work that was played, none was played again." in page.text("//section[@id='again']")


def test_page_shows_the_tables_in_words(browser: Client, works: dict[str, Work]) -> None:
    page = Page(browser.get(ADDRESS))

    assert page.texts("//section[@id='take']//summary") == ["Years", "Countries", "Ensembles", "Works"]
    countries = "//section[@id='take']/div/details[2]"
    assert page.texts(f"{countries}//thead//th") == [
        "Country", "Performances", "Works", "Minutes", "Length not known", "Minutes to come", "First", "Last", "Years",
    ]  # fmt: skip
    row = [text.replace("\xa0", " ") for text in page.texts(f"{countries}//tbody/tr[1]/*")]
    assert row == ["Norway", "3", "2", "21", "1", "10", "1 May 2018", "1 May 2023", "2"]


def test_tables_are_taken_along(browser: Client, works: dict[str, Work]) -> None:
    found = browser.get(f"{ADDRESS}works/csv/").content.decode("utf-8-sig").splitlines()

    assert found == [
        "work,completed,performances,to come,minutes,first,last,days until played again",
        "Tides,,2,0,20,2023-05-01,2025-05-01,731",
        "Weirs,,2,0,11,2018-05-01,2018-06-01,31",
        "Locks,,0,1,0,,,",
    ]
    for table in ("years", "countries", "ensembles", "works"):
        assert browser.get(f"{ADDRESS}{table}/xlsx/").content.startswith(b"PK")
    assert [browser.get(f"{ADDRESS}{way}/").status_code for way in ("money/csv", "works/pdf")] == [404, 404]


def test_number_of_queries_does_not_grow(browser: Client, works: dict[str, Work]) -> None:
    with CaptureQueriesContext(connection) as few:
        browser.get(ADDRESS)
    for number in range(5):
        make_performance(make_work(f"Work {number}", composer=works["Tides"].composer), performers=("A", "B"))
    with CaptureQueriesContext(connection) as many:
        browser.get(ADDRESS)

    assert len(few) == len(many) == 11
