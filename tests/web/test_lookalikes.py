"""What the forms of works and performances say of what is here already, while one types and without scripts."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client

from catalogue.models import Composer, Work
from tests.makers import make_performance, make_venue, make_work
from tests.web.pages import Page
from tests.web.test_work_new import ADDRESS, filled_in

ROOT = "/c/ilka-marovand"


def links(response: Any) -> list[str]:
    """Return what an answer links to; an answer may be empty."""
    return Page(response).texts("//a") if response.content.strip() else []


def alike(browser: Client, title: str, query: str = "") -> list[str]:
    return links(browser.post(f"{ROOT}/works/reading/title/{query}", {"title": title}))


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("rope tables", ["The Rope Tables"]),
        ("Tables, Rope", ["The Rope Tables"]),
        ("Rope Cables", ["The Rope Tables"]),
        ("Rope Ladders", []),
        ("Rope Table", ["The Rope Tables"]),
        ("Wind Study 2", []),
        ("Nachtgarten", ["Ночной сад"]),
        ("Salt", []),
        ("", []),
        ("<b>", []),
    ],
)
def test_title_that_looks_like_one_is_noticed(
    browser: Client, composer: Composer, other_composer: Composer, typed: str, found: list[str]
) -> None:
    make_work("The Rope Tables", composer=composer, completed="2019")
    make_work("Wind Study 1", composer=composer)
    make_work("Ночной сад", composer=composer, original_title="Nachtgärten")
    make_work("Salt", composer=other_composer)

    assert alike(browser, typed) == found


def test_work_is_not_told_of_itself(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer)

    assert alike(browser, "Rope Tables", f"?besides={work.pk}") == []
    assert alike(browser, "Rope Tables", "?besides=x") == ["Rope Tables"]
    edit = Page(browser.get(f"{ROOT}/works/{work.pk}/edit/"))
    assert edit.values("//input[@name='title']/@data-hx-post") == [f"{ROOT}/works/reading/title/?besides={work.pk}"]


def test_without_scripts_a_likeness_is_said_once_the_work_is_saved(browser: Client, composer: Composer) -> None:
    make_work("Rope Tables", composer=composer)

    page = Page(browser.post(ADDRESS, filled_in(title="The rope tables"), follow=True))

    assert "“The rope tables” is saved. It looks like “Rope Tables”, which was here already." in page.text()
    assert Work.objects.count() == 2


def test_form_that_comes_back_says_what_is_here_already(browser: Client, composer: Composer) -> None:
    make_work("Rope Tables", composer=composer, completed="2019")

    page = Page(browser.post(ADDRESS, filled_in(title="Rope Tables", duration_typed="soon")))

    assert page.texts("//*[@id='title-reading']//p")[0] == "Here already: Rope Tables (2019)."


def test_performances_of_the_same_day_are_noticed(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    work = make_work("Rope Tables", composer=composer)
    performance = make_performance(work, date="2026-05-16", venue=make_venue("Old Granary", composer=composer))
    make_performance(make_work("Salt", composer=other_composer), date="2026-05-16")
    address = f"{ROOT}/performances/reading/when/"

    def same_day(day: str, query: str = "") -> list[str]:
        return links(browser.post(address + query, {"date": day, "time": ""}))

    assert same_day("16 May 2026") == ["Rope Tables in Zurich"]
    assert same_day("17 May 2026") == same_day("May 2026") == same_day("soon") == []
    assert same_day("16 May 2026", f"?besides={performance.pk}") == []


def test_hall_that_looks_like_a_known_one_is_noticed(browser: Client, composer: Composer) -> None:
    make_venue("Old Granary", composer=composer)

    page = Page(
        browser.post(
            f"{ROOT}/performances/reading/where/", {"venue": "The old granery", "city": "Zurich", "country": "CH"}
        )
    )

    assert "It looks like “Old Granary, Zurich”, which is known" in page.text("//div")
