"""/c/<composer>/performances/"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.gathering.once import forget_all
from catalogue.models import Composer, Performance
from tests.makers import make_performance, make_venue, make_work
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")

ADDRESS = "/c/ilka-marovand/performances/"
TITLES = "//tbody//th/a"


def titles(browser: Client, **asked: str) -> list[str]:
    return Page(browser.get(ADDRESS, asked)).texts(TITLES)


def make_three(composer: Composer) -> None:
    """Three evenings: Zurich 2019, Lyon 2024, Stavanger next year."""
    tides, weirs, ferry = (make_work(title, composer=composer) for title in ("Tides", "Weirs", "Night Crane"))
    make_performance(
        tides, weirs, date="2019-05-16", venue=make_venue(composer=composer), performers=("Kestrel Ensemble",),
        event_title="Wasserstücke",
    )  # fmt: skip
    make_performance(weirs, date="2024-02", city="Lyon", country="FR", kind="broadcast", performers=("Ilya Vantreux",))
    hall = make_venue("Bøkehallen", composer=composer, city="Stavanger", country="NO", zone="Europe/Oslo")
    make_performance(ferry, date="2027-03-28", venue=hall, status="planned")


def test_latest_stands_first_and_other_catalogues_are_left_out(
    browser: Client, composer: Composer, other_composer: Composer
) -> None:
    make_three(composer)
    make_performance(make_work("Serenade", composer=other_composer))

    assert titles(browser) == ["Night Crane", "Weirs", "Tides and Weirs"]


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ({"q": "bokehallen"}, ["Night Crane"]),
        ({"q": "kestrel wasserstucke"}, ["Tides and Weirs"]),
        ({"q": "weirs"}, ["Weirs", "Tides and Weirs"]),
        ({"since": "2020"}, ["Night Crane", "Weirs"]),
        ({"until": "2023"}, ["Tides and Weirs"]),
        ({"since": "2024", "until": "2024"}, ["Weirs"]),
        ({"country": "CH"}, ["Tides and Weirs"]),
        ({"country": "FR"}, ["Weirs"]),
        ({"kind": "broadcast"}, ["Weirs"]),
        ({"status": "planned"}, ["Night Crane"]),
        ({"q": "nothing of the kind"}, []),
    ],
)
def test_list_answers_what_it_is_asked(
    browser: Client, composer: Composer, asked: dict[str, str], found: list[str]
) -> None:
    make_three(composer)

    assert titles(browser, **asked) == found


def test_list_is_asked_for_one_work(browser: Client, composer: Composer) -> None:
    make_three(composer)
    (work,) = composer.works.filter(title="Tides")

    assert titles(browser, work=str(work.pk)) == ["Tides and Weirs"]


@pytest.mark.parametrize("asked", [{"since": "19"}, {"until": "x"}, {"country": "XX"}, {"kind": "x"}, {"work": "9999"}])
def test_question_that_makes_no_sense_is_pointed_out_and_kept(
    browser: Client, composer: Composer, asked: dict[str, str]
) -> None:
    make_three(composer)

    page = Page(browser.get(ADDRESS, {"q": "weirs", **asked}))

    assert len(page.wrong) == 1
    assert page.field("q") == "weirs"


@pytest.mark.parametrize(
    ("order", "found"),
    [
        ("date", ["Tides and Weirs", "Weirs", "Night Crane", "Plain"]),
        ("-date", ["Night Crane", "Weirs", "Tides and Weirs", "Plain"]),
        ("place", ["Weirs", "Night Crane", "Tides and Weirs", "Plain"]),
        ("no such column", ["Night Crane", "Weirs", "Tides and Weirs", "Plain"]),
    ],
)
def test_list_is_ordered_with_what_is_not_known_last(
    browser: Client, composer: Composer, order: str, found: list[str]
) -> None:
    make_three(composer)
    make_performance(make_work("Plain", composer=composer), date="")

    assert titles(browser, sort=order) == found


def test_row_tells_day_works_performers_place_and_what_the_records_make_of_it(
    browser: Client, composer: Composer
) -> None:
    make_three(composer)

    page = Page(browser.get(ADDRESS))

    assert page.texts("(//tbody/tr)[1]/*") == [
        "28 Mar 2027in 13 months", "Night Craneplanned", "", "BøkehallenStavanger, Norway", "to be the world premiere",
    ]  # fmt: skip
    assert page.texts("(//tbody/tr)[2]/*") == [
        "Feb 2024", "Weirsbroadcast", "Ilya Vantreux", "Lyon, France",
        "first performance in these records (France); first broadcast",
    ]  # fmt: skip
    assert page.texts("(//tbody/tr)[3]/*")[1:] == [
        "Tides and WeirsWasserstücke", "Kestrel Ensemble", "Old GranaryZurich, Switzerland", "world premiere",
    ]  # fmt: skip


def test_what_was_set_by_hand_is_marked_and_settles_the_billing(browser: Client, composer: Composer) -> None:
    tides = make_work("Tides", composer=composer)
    make_performance(tides, date="2024-05-16", city="Lyon", country="FR")
    later = make_performance(tides, date="2025-05-16", city="Nantes", country="FR")
    later.programme.update(
        billing="French premiere", claim_override="French premiere", claim_reason="Lyon was a try-out."
    )

    assert Page(browser.get(ADDRESS)).texts("(//tbody/tr)[1]/*[last()]") == ["French premiere (set by hand)"]


def test_billing_that_the_records_contradict_is_pointed_out(browser: Client, composer: Composer) -> None:
    work = make_work("Tides", composer=composer)
    make_performance(work, date="2024-05-16", city="Lyon", country="FR")
    later = make_performance(work, date="2025-05-16", city="Nantes", country="FR")
    later.programme.update(billing="French premiere")

    assert Page(browser.get(ADDRESS)).texts("(//tbody/tr)[1]/*[last()]") == [
        "first performance in these records (Nantes); billing contradicted"
    ]


def test_head_counts_performances_years_and_those_to_come(browser: Client, composer: Composer) -> None:
    make_three(composer)

    assert "3 performances, 2019 to 2027; one is to come." in Page(browser.get(ADDRESS)).text(with_class("head"))


def test_deleted_performance_and_deleted_work_are_left_out(browser: Client, composer: Composer, clock: Any) -> None:
    make_three(composer)
    Performance.objects.filter(status="planned").update(deleted_at=clock.moment)
    composer.works.filter(title="Tides").update(deleted_at=clock.moment)

    assert titles(browser) == ["Weirs", "Weirs"]


def test_second_page_is_named_in_the_title(browser: Client, composer: Composer) -> None:
    Performance.objects.bulk_create(Performance(composer=composer, city=f"Town {number}") for number in range(51))

    page = Page(browser.get(ADDRESS, {"page": "2"}))

    assert page.title == "Performances, page 2, Ilka Marovand · Ledgerline"
    assert len(page.texts(TITLES)) == 1


def test_empty_list_teaches_how_to_begin(signed_in: Callable[[User], Client], owner: User) -> None:
    page = Page(signed_in(owner).get(ADDRESS))

    assert page.text("//h1") == "No performances yet"
    assert page.values("//main//a/@href") == [f"{ADDRESS}new/", "/c/ilka-marovand/import/", f"{ADDRESS}tour/"]


def queries(browser: Client) -> int:
    with CaptureQueriesContext(connection) as asked:
        browser.get(ADDRESS)
    return len(asked)


def test_number_of_queries_does_not_grow_with_the_performances(browser: Client, composer: Composer) -> None:
    make_performance(make_work("One", composer=composer), performers=("Kestrel Ensemble",))
    with_one = queries(browser)
    make_three(composer)
    forget_all()

    assert (with_one, queries(browser)) == (19, 19)


def test_after_a_save_fewer_questions_are_asked_than_for_counting(browser: Client, composer: Composer) -> None:
    work = make_work("One", composer=composer)
    make_performance(work, performers=("Kestrel Ensemble",))
    queries(browser)
    make_performance(work, performers=("Kestrel Ensemble",))

    assert queries(browser) == 18


def test_places_are_in_order_whatever_their_marks(browser: Client, composer: Composer) -> None:
    ebb = make_work("Ebb", composer=composer)
    for city, country in (("Zürich", "CH"), ("Évora", "PT"), ("Oslo", "NO"), ("élancourt", "FR")):
        make_performance(ebb, city=city, country=country)

    page = Page(browser.get(f"{ADDRESS}?sort=place&column=place"))

    places = page.texts("//tbody//td[@data-label='Place' or contains(@class, 'place')]")
    assert [text.split(",")[0] for text in places] == [
        "élancourt",
        "Évora",
        "Oslo",
        "Zürich",
    ]
