"""/c/<composer>/performances/years/ and the same counts on the page of a work"""

from __future__ import annotations

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer
from catalogue.terms import PerformanceStatus
from tests.makers import make_performance, make_work
from tests.web.pages import Page

pytestmark = pytest.mark.signed_in_as("viewer")

ADDRESS = "/c/ilka-marovand/performances/years/"


def counts(page: Page, section: str) -> list[str]:
    return page.texts(f"//section[@id='{section}']//li")


def make_some(composer: Composer) -> int:
    work = make_work("Rope Tables", composer=composer)
    for date, country, status in (
        ("2023-05-01", "NO", PerformanceStatus.GIVEN),
        ("2023-06-01", "FR", PerformanceStatus.GIVEN),
        ("2025-02-03", "NO", PerformanceStatus.GIVEN),
        ("2025-03-03", "", PerformanceStatus.CANCELLED),
        ("2026-02", "NO", PerformanceStatus.GIVEN),
        ("2026-05-02", "FR", PerformanceStatus.CONFIRMED),
        ("2026-06", "", PerformanceStatus.PLANNED),
    ):
        make_performance(work, date=date, country=country, status=status)
    return work.pk


def test_performances_are_counted_by_year_country_and_coming_month(browser: Client, composer: Composer) -> None:
    make_some(composer)

    page = Page(browser.get(ADDRESS))

    assert counts(page, "years") == ["2023 2", "2024 0", "2025 1", "2026 1 + 2 to come"]
    assert counts(page, "countries") == ["Norway 3", "France 1 + 1 to come", "country not known 1 to come"]
    assert counts(page, "ahead")[:4] == ["March 2026 0", "April 2026 0", "May 2026 1 to come", "June 2026 1 to come"]
    assert page.values("//section[@id='years']//a/@href") == [
        f"/c/ilka-marovand/performances/?since={year}&until={year}" for year in (2023, 2025, 2026)
    ]


def test_the_page_of_a_work_counts_its_own(browser: Client, composer: Composer) -> None:
    pk = make_some(composer)
    make_performance(make_work("Salt", composer=composer), date="2024-01-01", country="NO")

    page = Page(browser.get(f"/c/ilka-marovand/works/{pk}/"))

    found = page.texts("//section[@id='performances']//*[contains(@class, 'two')]//li")
    assert found[:3] == ["2023 2", "2025 1", "2026 1 + 2 to come"]


def test_few_performances_are_no_picture(browser: Client, composer: Composer) -> None:
    work = make_work("Salt", composer=composer)
    make_performance(work, date="2024-01-01", country="NO")

    page = Page(browser.get(f"/c/ilka-marovand/works/{work.pk}/"))

    assert page.texts("//ul[@class='bars']") == []


def test_nothing_to_count_teaches_how_to_begin(browser: Client) -> None:
    assert "No performance is noted yet" in Page(browser.get(ADDRESS)).text()


def test_number_of_queries_does_not_grow(browser: Client, composer: Composer) -> None:
    make_some(composer)
    with CaptureQueriesContext(connection) as few:
        browser.get(ADDRESS)
    for _more in range(3):
        make_some(composer)
    with CaptureQueriesContext(connection) as many:
        browser.get(ADDRESS)

    assert len(few) == len(many)
