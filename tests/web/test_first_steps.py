"""What pages of an empty catalogue say comes first: nothing offers a choice among none."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.models import Composer
from tests.makers import make_work
from tests.web.pages import Page

pytestmark = pytest.mark.django_db
ROOT = "/c/ilka-marovand/"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], editor: User) -> Client:
    return signed_in(editor)


def ways(page: Page) -> list[str]:
    return page.values("//p[@class='soft']/a/@href")


@pytest.mark.parametrize(
    ("at", "way"),
    [
        ("records/riders/", "works/new/"),
        ("records/riders/new/", "works/new/"),
        ("records/contributors/new/", "works/new/"),
        ("records/sessions/", "performances/new/"),
        ("records/sessions/new/", "performances/new/"),
        ("documents/parts-checklist/", "works/new/"),
        ("documents/rider/", "works/new/"),
        ("documents/delivery-note/", "records/hires/new/"),
    ],
)
def test_what_needs_a_work_says_so_where_there_is_none(browser: Client, composer: Composer, at: str, way: str) -> None:
    page = Page(browser.get(ROOT + at))

    assert ways(page) == [ROOT + way]
    assert page.tree.xpath("//form[@data-keep]") == []


@pytest.mark.parametrize("at", ["records/riders/", "records/riders/new/", "documents/parts-checklist/"])
def test_nothing_comes_first_once_a_work_is_there(browser: Client, composer: Composer, at: str) -> None:
    make_work("Tides", composer=composer)

    assert ways(Page(browser.get(ROOT + at))) == []


def test_whoever_only_reads_is_shown_no_way(
    signed_in: Callable[[User], Client], viewer: User, composer: Composer
) -> None:
    page = Page(signed_in(viewer).get(f"{ROOT}records/riders/"))

    assert page.texts("//p[@class='soft']") == ["It is of a work, and no work is here yet."]
    assert ways(page) == []


def test_what_needs_no_work_is_added_at_once(browser: Client, composer: Composer) -> None:
    assert Page(browser.get(f"{ROOT}records/people/new/")).tree.xpath("//form[@data-keep]")
