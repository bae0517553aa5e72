"""/c/<composer>/works/"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.gathering.once import forget_all
from catalogue.models import Composer, Work
from catalogue.terms import Category, WorkStatus
from tests.makers import make_performance, make_work
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")

ADDRESS = "/c/ilka-marovand/works/"
TITLES = "//tbody//th/a"


def titles(browser: Client, **asked: Any) -> list[str]:
    return Page(browser.get(ADDRESS, asked)).texts(TITLES)


def make_three(composer: Composer) -> None:
    make_work("Étude for Ærø", composer=composer, completed="2019", duration="8′", instrumentation="hp")
    make_work(
        "Nachtgärten", composer=composer, completed="2024-11", duration="12′",
        instrumentation="1(=picc).1.1.1 – 1.1.1.0", category=Category.LARGE_ENSEMBLE,
        dedication="for Ragna Tolv", catalogue_number="RO 45",
    )  # fmt: skip
    make_work("Tarred Grammar", composer=composer, completed="c. 2023", duration="25′", instrumentation="2.2.2.2 – str")


def test_work_list_shows_the_newest_first_and_no_other_catalogue(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    make_three(composer)
    make_work("Serenade", composer=other_composer)

    assert titles(browser) == ["Nachtgärten", "Tarred Grammar", "Étude for Ærø"]


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"q": "etude aero"}, ["Étude for Ærø"]),
        ({"q": "ragna"}, ["Nachtgärten"]),
        ({"q": "ro 45"}, ["Nachtgärten"]),
        ({"category": "large ensemble"}, ["Nachtgärten"]),
        ({"instrument": "Harp"}, ["Étude for Ærø"]),
        ({"instrument": "piccolo"}, ["Nachtgärten"]),
        ({"instrument": "Querflöte"}, ["Nachtgärten", "Tarred Grammar"]),
        ({"players": "1"}, ["Étude for Ærø"]),
        ({"players": "7"}, ["Nachtgärten", "Étude for Ærø"]),
        ({"forces": "1 1 1 1 - 1 1 1 0"}, ["Nachtgärten"]),
        ({"forces": "1 1 1 1 - 1 1 1 0 - hp"}, ["Nachtgärten", "Étude for Ærø"]),
        ({"forces": "2 2 2 2 - 2 2 0 0 - timp - str(8.6.4.4.2)"}, ["Tarred Grammar"]),
        ({"forces": "hp", "length": "10-20"}, []),
        ({"length": "-10"}, ["Étude for Ærø"]),
        ({"length": "10-20"}, ["Nachtgärten"]),
        ({"length": "20-"}, ["Tarred Grammar"]),
        ({"q": "nothing of the kind"}, []),
    ],
)
def test_work_list_answers_what_it_is_asked(
    browser: Client, composer: Composer, asked: dict[str, str], found: list[str]
) -> None:
    make_three(composer)

    assert titles(browser, **asked) == found


def test_work_list_says_that_an_instrument_is_not_known_and_keeps_what_was_asked(
    browser: Client, composer: Composer
) -> None:
    make_three(composer)

    page = Page(browser.get(ADDRESS, {"instrument": "blorp", "q": "tidal"}))

    assert page.wrong == ["No instrument is called “blorp”."]
    assert (page.field("instrument"), page.field("q")) == ("blorp", "tidal")


@pytest.mark.parametrize(
    ("order", "found"),
    [
        ("title", ["Étude for Ærø", "Nachtgärten", "Plain", "Tarred Grammar"]),
        ("-duration", ["Tarred Grammar", "Nachtgärten", "Étude for Ærø", "Plain"]),
        ("duration", ["Étude for Ærø", "Nachtgärten", "Tarred Grammar", "Plain"]),
        ("year", ["Étude for Ærø", "Tarred Grammar", "Nachtgärten", "Plain"]),
        ("no such column", ["Nachtgärten", "Tarred Grammar", "Étude for Ærø", "Plain"]),
    ],
)
def test_work_list_is_ordered_with_what_is_not_known_last(
    browser: Client, composer: Composer, order: str, found: list[str]
) -> None:
    make_three(composer)
    make_work("Plain", composer=composer)

    assert sorted(titles(browser, sort=order)) == sorted(found)
    assert titles(browser, sort=order) == found


def test_work_list_says_the_order_to_those_who_cannot_see_it(browser: Client, composer: Composer) -> None:
    make_three(composer)

    page = Page(browser.get(ADDRESS, {"sort": "-duration"}))

    assert page.texts("//th[@aria-sort='descending']") == ["Duration"]
    assert page.values("//th[@aria-sort='descending']/a/@href") == ["?sort=duration"]


def test_row_tells_forces_year_duration_and_what_was_performed(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, completed="2021", duration="ca. 8′", instrumentation="fl, vc")
    make_performance(work, date="2025-05-16")
    make_performance(work, date="2026-02-01")
    make_performance(work, date="2026-02-02", status="cancelled")

    page = Page(browser.get(ADDRESS))

    assert page.texts("//tbody//td")[1:] == ["2", "2021", "c. 8′", "2", "1 Feb 2026"]
    assert page.texts("//tbody//*[local-name()='title']") == ["2 players"]


def test_titles_carry_their_language(browser: Client, composer: Composer) -> None:
    make_work(
        "Shlosha she‘arim", composer=composer, title_language="he-Latn", original_title="שלושה שערים",
        original_language="he", translated_title="Three Gates", catalogue_number="RO 43",
    )  # fmt: skip

    page = Page(browser.get(ADDRESS))

    assert page.values("//tbody//bdi/@lang") == ["he-Latn", "he"]
    assert page.texts(with_class("second")) == ["שלושה שערים · Three Gates · RO 43"]


def test_head_counts_works_years_and_those_off_public_lists(browser: Client, composer: Composer) -> None:
    make_three(composer)
    make_work("Early Thing", composer=composer, status=WorkStatus.JUVENILE, completed="1994")

    assert "4 works, 1994 to 2024. One is left off public lists." in Page(browser.get(ADDRESS)).text()


def test_deleted_work_is_left_out(browser: Client, composer: Composer, clock: Any) -> None:
    make_three(composer)
    Work.objects.filter(title="Tarred Grammar").update(deleted_at=clock.moment)

    assert titles(browser) == ["Nachtgärten", "Étude for Ærø"]


def test_second_page_is_named_in_the_title_and_a_page_too_far_is_the_last(browser: Client, composer: Composer) -> None:
    Work.objects.bulk_create(Work(composer=composer, title=f"Piece {number:03}") for number in range(51))

    second = Page(browser.get(ADDRESS, {"page": "2"}))

    assert second.title == "Works, page 2, Ilka Marovand · Ledgerline"
    assert second.texts(TITLES) == ["Piece 050"]
    assert titles(browser, page="99") == ["Piece 050"]
    assert len(titles(browser, page="no number")) == 50


def test_empty_list_teaches_how_to_begin(signed_in: Callable[[User], Client], owner: User) -> None:
    page = Page(signed_in(owner).get(ADDRESS))

    assert page.text("//h1") == "No works yet"
    assert page.values("//main//a/@href") == [f"{ADDRESS}new/", "/c/ilka-marovand/import/"]


def queries(browser: Client) -> int:
    with CaptureQueriesContext(connection) as asked:
        browser.get(ADDRESS)
    return len(asked)


def test_number_of_queries_does_not_grow_with_the_works(browser: Client, composer: Composer) -> None:
    make_performance(make_work("One", composer=composer, instrumentation="fl, vc"))
    with_one = queries(browser)
    make_three(composer)

    assert (with_one, queries(browser)) == (10, 10)


def test_work_list_says_of_how_many_works_it_cannot_be_told(browser: Client, composer: Composer) -> None:
    make_work("Any Number", composer=composer, instrumentation="any instruments")
    make_work("Étude for Ærø", composer=composer, instrumentation="hp")

    page = Page(browser.get(ADDRESS, {"forces": "hp"}))

    assert page.texts(TITLES) == ["Étude for Ærø"]
    assert "Of one work it cannot be told: its instrumentation is open." in page.text()


def test_work_list_says_where_the_players_that_are_there_cannot_be_read(browser: Client, composer: Composer) -> None:
    make_three(composer)

    page = Page(browser.get(ADDRESS, {"forces": "soon"}))

    assert page.wrong == ["“soon” is not a known instrument."]
    assert page.field("forces") == "soon"


def test_players_that_are_there_cost_one_query(browser: Client, composer: Composer) -> None:
    make_three(composer)
    with CaptureQueriesContext(connection) as plainly:
        browser.get(ADDRESS)
    forget_all()
    with CaptureQueriesContext(connection) as asked:
        browser.get(ADDRESS, {"forces": "2.2.2.2 – str"})

    assert len(asked) - len(plainly) == 1
