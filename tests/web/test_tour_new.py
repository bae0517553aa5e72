"""/c/<composer>/performances/tour/ and the line above the list of performances"""

from __future__ import annotations

from typing import Any
from uuid import uuid4

import pytest
from django.test import Client

from catalogue.models import Composer, ImportBatch, Performance, Venue
from tests.makers import make_venue, make_work
from tests.web.pages import Page, with_class

LIST = "/c/ilka-marovand/performances/"
ADDRESS = f"{LIST}tour/"
DATES = (
    "12 May 2027 19:30 Grainhall, Linz, Austria\n\n14 May 2027 20:00 Grainhall, Linz\n"
    "15 May 2027, Old Weighhouse, Bergen, Norway: Ebb"
)


@pytest.fixture(autouse=True)
def works(composer: Composer) -> None:
    for title in ("Ebb", "Rope, Lamp, Bank"):
        make_work(title, composer=composer)


def sent(browser: Client, **typed: str) -> Any:
    usual = {"dates": DATES, "works": "rope, lamp, bank", "performers": "Kestrel Ensemble\nconductor: Iva Dorn"}
    return browser.post(ADDRESS, {"uid": str(uuid4()), "kind": "concert", "audience": "public", **usual, **typed})


def test_dates_with_one_programme_are_saved_at_once(browser: Client, composer: Composer) -> None:
    sent(browser, presenter="Nordlyd")

    found = Performance.objects.with_everything_printed().in_date_order()
    assert [(str(one.date), str(one.time)[:5], str(one.venue), one.presented_by) for one in found] == [
        ("2027-05-12", "19:30", "Grainhall, Linz", "Nordlyd"),
        ("2027-05-14", "20:00", "Grainhall, Linz", "Nordlyd"),
        ("2027-05-15", "None", "Old Weighhouse, Bergen", "Nordlyd"),
    ]
    assert [[item.work.title for item in one.programme.all()] for one in found] == [
        ["Rope, Lamp, Bank"], ["Rope, Lamp, Bank"], ["Ebb", "Rope, Lamp, Bank"],
    ]  # fmt: skip
    assert {tuple(credit.name for credit in one.credits.all()) for one in found} == {("Kestrel Ensemble", "Iva Dorn")}
    assert Venue.objects.count() == 2


def test_tour_is_undone_at_once(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(sent(browser).headers["Location"]))
    assert page.texts(with_class("notice") + "/p") == ["3 performances are saved."]

    browser.post(page.values(with_class("notice") + "/form/@action")[0])

    assert (Performance.objects.count(), Venue.objects.count()) == (0, 0)


def test_form_that_is_sent_twice_makes_one_tour(browser: Client, composer: Composer) -> None:
    uid = str(uuid4())
    sent(browser, uid=uid)
    sent(browser, uid=uid)

    assert (Performance.objects.count(), ImportBatch.objects.count()) == (3, 1)


def test_mistake_in_one_line_saves_none(browser: Client, composer: Composer) -> None:
    make_venue("Grainhall", composer=composer, city="Linz", country="AT")
    make_venue("Grainhall", composer=composer, city="Bergen", country="NO")

    page = Page(sent(browser, dates="12 May 2027 Grainhall, Linz\n13 May 2027 Grainhall\n31 May 2027 25:00 Linz"))

    assert page.texts("//*[@id='id_dates_error']/p") == [
        "Line 2, City: There are halls of this name in Bergen and Linz; say which city.",
        "Line 3, Time: A day goes from 00:00 to 23:59.",
    ]
    assert Performance.objects.count() == 0
    assert page.field("works") == "rope, lamp, bank"


@pytest.mark.parametrize(
    ("typed", "reason"),
    [
        ({"dates": " "}, "Write a date and a place in each line."),
        ({"dates": "2027 Linz\n" * 101}, "These are more than 100 dates; enter them in parts."),
        ({"works": "Flood"}, "No work of this catalogue is called “Flood”."),
        ({"performers": "conductor:"}, "Name who was “conductor”."),
    ],
)
def test_mistake_is_told_at_its_field(browser: Client, composer: Composer, typed: dict[str, str], reason: str) -> None:
    page = Page(sent(browser, **typed))

    assert page.texts("//*[contains(@id, '_error')]/p") == [reason]
    assert Performance.objects.count() == 0


def test_hour_that_comes_twice_in_a_tour_is_said_on_its_own_page(browser: Client, composer: Composer) -> None:
    page = Page(sent(browser, dates="31 October 2027 2:30 Lager Elf, Hamburg, DE"))

    assert page.texts("//*[@id='id_dates_error']/p") == [
        "Line 1, Time: On 31 October 2027 the clocks in Europe/Berlin show 02:30 twice, as they go back; "
        "say the first or the second time.",
        "Line 1, Leave its time out here, and say on its own page afterwards which of the two it is.",
    ]
    assert Performance.objects.count() == 0


def test_lines_are_read_while_one_types(browser: Client, composer: Composer) -> None:
    page = Page(browser.post(f"{LIST}reading/tour/", {"dates": "12 May 2027 19:30 Grainhall, Linz, Austria\nLinz"}))

    assert page.texts("//li") == [
        "Wednesday 12 May 2027, 19:30, in 14 months · Grainhall, Linz, Austria A new hall",
        "Line 2: No date is read at the beginning of this line.",
    ]


# ---- one in a line


def test_line_fills_in_the_form(browser: Client, composer: Composer) -> None:
    line = "12 May 2027 19:30 Grainhall, Linz, Austria: Kestrel Ensemble, Iva Dorn (viola), Rope, Lamp, Bank"

    page = Page(browser.get(f"{LIST}new/", {"line": line}))

    names = ("date", "time", "venue", "city", "country", "performers", "programme-0-work")
    assert tuple(page.field(name) for name in names) == (
        "12 May 2027", "19:30", "Grainhall", "Linz", "Austria", "Kestrel Ensemble\nIva Dorn (viola)",
        "Rope, Lamp, Bank",
    )  # fmt: skip
    assert Performance.objects.count() == 0


def test_line_stands_above_the_list_for_those_who_may_add(browser: Client, composer: Composer) -> None:
    sent(browser)
    page = Page(browser.get(LIST))

    assert page.values("//form[.//input[@name='line']]/@action") == [f"{LIST}new/"]
    assert page.values("//a[text()='Add a tour']/@href") == [ADDRESS]


def test_a_line_without_a_date_is_told_and_nothing_is_saved(browser: Client, composer: Composer) -> None:
    make_work("Ash Ferry", composer=composer)
    lines = "12 May 2027 Old Granary, Zurich\n31 June 2027 Old Granary, Zurich"

    page = Page(browser.post(ADDRESS, {"dates": lines, "works": "Ash Ferry"}))

    assert "Line 2, no date is read at its beginning." in page.text("//form")
    assert not Performance.objects.exists()
