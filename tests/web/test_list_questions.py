"""The questions above the lists of works and performances: drawn once, and anew once they would look different."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.gathering.once import forget_all
from catalogue.models import Composer
from catalogue.web import asked
from tests.makers import make_performance, make_work
from tests.web.pages import Page

LISTS = ("/c/ilka-marovand/works/", "/c/ilka-marovand/performances/")
FORM = "//form[@role='search']"


@pytest.fixture
def browser(signed_in: Callable[[User], Client], viewer: User) -> Client:
    forget_all()
    return signed_in(viewer)


@pytest.fixture
def weirs(composer: Composer) -> Any:
    made = make_work("Weirs", composer=composer)
    make_performance(made, date="2024-02-01", city="Lyon", country="FR")
    return made


def names(browser: Client, field: str) -> list[str]:
    return Page(browser.get(LISTS[1])).texts(f"{FORM}//select[@name='{field}']/option")


@pytest.mark.parametrize("address", LISTS)
def test_each_field_holds_what_was_typed_and_nothing_afterwards(browser: Client, weirs: Any, address: str) -> None:
    for typed in ("weirs", "", "lyon", "weirs", ""):
        assert Page(browser.get(address, {"q": typed})).field("q") == typed


def test_mistake_is_told_where_it_was_typed_and_nowhere_else(browser: Client, weirs: Any) -> None:
    for _time in range(2):
        assert Page(browser.get(LISTS[1], {"since": "soon"})).wrong
        assert not Page(browser.get(LISTS[1])).wrong


def test_what_is_offered_follows_what_is_saved(browser: Client, composer: Composer, weirs: Any) -> None:
    assert (names(browser, "country"), names(browser, "work")) == (["All countries", "France"], ["All works", "Weirs"])

    make_performance(make_work("Tides", composer=composer), date="2025-02-01", city="Oslo", country="NO")
    weirs.title = "Sluices"
    weirs.save()

    assert names(browser, "country") == ["All countries", "France", "Norway"]
    assert names(browser, "work") == ["All works", "Sluices", "Tides"]


def test_another_catalogue_has_its_own(
    signed_in: Callable[[User], Client], browser: Client, weirs: Any, other_composer: Composer, stranger: User
) -> None:
    make_performance(make_work("Serenade", composer=other_composer), date="2025-02-01", city="Oslo", country="NO")
    names(browser, "work")

    theirs = Page(signed_in(stranger).get(f"/c/{other_composer.slug}/performances/"))

    assert theirs.texts(f"{FORM}//select[@name='work']/option") == ["All works", "Serenade"]


@pytest.mark.parametrize(("address", "filtering"), [(LISTS[0], "WorkFilter"), (LISTS[1], "PerformanceFilter")])
def test_drawn_questions_are_not_made_again_where_nothing_is_asked(
    browser: Client, weirs: Any, address: str, filtering: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = Page(browser.get(address)).texts(FORM)

    def refuse(*_told: Any, **_more: Any) -> None:
        raise AssertionError("made again")

    monkeypatch.setattr(getattr(asked, filtering), "__init__", refuse)

    assert Page(browser.get(address, {"page": "1", "q": ""})).texts(FORM) == first
