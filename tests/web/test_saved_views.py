"""Lists as somebody likes to see them: columns to choose, and views that are kept under a name."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.models import Composer, SavedView
from tests.makers import make_performance, make_work
from tests.web.pages import Page, with_class

ROOT = "/c/ilka-marovand"
HEADS = "//thead//th"


def keep(browser: Client, name: str, query: str, table: str = "works") -> Page:
    return Page(browser.post(f"{ROOT}/views/{table}/keep/", {"name": name, "query": query}, follow=True))


def test_usual_columns_are_shown_and_others_on_request(browser: Client, composer: Composer) -> None:
    make_work("Rope Tables", composer=composer, publisher="Pennywort Editions")

    usual = Page(browser.get(f"{ROOT}/works/"))
    asked = Page(browser.get(f"{ROOT}/works/?column=publisher&column=year&column=no-such"))

    assert usual.texts(HEADS) == [
        "Work", "Instrumentation", "Players", "Year", "Duration", "Performances", "Last performed",
    ]  # fmt: skip
    assert asked.texts(HEADS) == ["Work", "Year", "Publisher"]
    assert asked.texts("//tbody/tr/td") == ["", "Pennywort Editions"]
    assert asked.values("//input[@name='column'][@checked]/@value") == ["year", "publisher"]


def test_order_holds_by_a_column_that_is_not_shown(browser: Client, composer: Composer) -> None:
    make_work("Old", composer=composer, completed="2001")
    make_work("New", composer=composer, completed="2021")

    assert Page(browser.get(f"{ROOT}/works/?column=players")).texts("//tbody//th/a") == ["New", "Old"]
    assert Page(browser.get(f"{ROOT}/works/?column=players&sort=year")).texts("//tbody//th/a") == ["Old", "New"]


@pytest.mark.parametrize("order", ["category", "-status", "publisher"])
def test_works_are_ordered_by_columns_on_request(browser: Client, composer: Composer, order: str) -> None:
    make_work("Old", composer=composer)

    assert Page(browser.get(f"{ROOT}/works/?column={order.strip('-')}&sort={order}")).texts("//tbody//th/a") == ["Old"]


def test_performances_have_columns_on_request_too(browser: Client, composer: Composer) -> None:
    make_performance(composer=composer, presenter_name="Night Orchard", status="planned", kind="broadcast")

    page = Page(browser.get(f"{ROOT}/performances/?column=presenter&column=status&column=kind&sort=kind"))

    assert page.texts(HEADS) == ["Works", "Kind", "What has become of it", "Presented by"]
    assert page.texts("//tbody/tr/td") == ["Broadcast", "Planned", "Night Orchard"]


def test_view_is_kept_without_its_page_and_found_again(browser: Client, composer: Composer) -> None:
    make_work("Short", composer=composer, duration="5′")
    make_work("Long", composer=composer, duration="50′")

    page = keep(browser, "Short ones", "sort=-year&page=4&length=-10&q=")

    assert "“Short ones” is kept." in page.text()
    assert page.texts("//tbody//th/a") == ["Short"]
    assert page.values("//nav[@aria-label='Kept views']/a[@aria-current]/@href") == [
        f"{ROOT}/works/?length=-10&sort=-year"
    ]
    assert page.texts(f"{with_class('views')}//button") == ["Delete the view “Short ones”"]


def test_name_that_is_there_is_given_anew(browser: Client, composer: Composer) -> None:
    make_work("Short", composer=composer)
    keep(browser, "Mine", "length=-10")
    keep(browser, "Mine", "length=20-")

    assert [(view.name, view.query) for view in SavedView.objects.all()] == [("Mine", "length=20-")]


@pytest.mark.parametrize("name", ["", "   ", "x" * 61])
def test_view_without_a_usable_name_is_not_kept(browser: Client, composer: Composer, name: str) -> None:
    page = keep(browser, name, "length=-10")

    assert page.status == 200
    assert SavedView.objects.count() == 0


def test_view_is_let_go_of(browser: Client, composer: Composer) -> None:
    view = SavedView.objects.create(composer=composer, table="works", name="Mine", query="length=-10")

    browser.post(f"{ROOT}/views/{view.pk}/drop/")

    assert SavedView.objects.count() == 0


def test_address_of_a_view_stays_on_the_site(browser: Client, composer: Composer) -> None:
    make_work("Short", composer=composer)
    response = browser.post(f"{ROOT}/views/works/keep/", {"name": "Mine", "query": "//else.example/?<b>=1"})

    assert response.headers["Location"].startswith(f"{ROOT}/works/?")
    assert Page(browser.get(f"{ROOT}/works/")).tree.xpath("//main//b[not(ancestor::p)]") == []


def test_lists_of_others_and_lists_that_are_none_are_not_there(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    foreign = SavedView.objects.create(composer=other_composer, table="works", name="Theirs", query="q=a")

    assert browser.post(f"{ROOT}/views/{foreign.pk}/drop/").status_code == 404
    assert browser.post(f"{ROOT}/views/nothing/keep/", {"name": "x"}).status_code == 404
    assert "Theirs" not in Page(browser.get(f"{ROOT}/works/")).text()


def test_viewer_sees_kept_views_and_keeps_none(
    signed_in: Callable[[User], Client], viewer: User, composer: Composer
) -> None:
    make_work("Short", composer=composer)
    SavedView.objects.create(composer=composer, table="works", name="Mine", query="length=-10")

    page = Page(signed_in(viewer).get(f"{ROOT}/works/?q=s"))

    assert page.texts("//nav[@aria-label='Kept views']/a") == ["Mine"]
    assert page.texts(f"{with_class('views')}//button") == []
