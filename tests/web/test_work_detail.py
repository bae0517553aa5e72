"""/c/<composer>/works/<work>/"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.actions.works import save_work, set_movements
from catalogue.models import Composer, Edition, Movement, Work
from catalogue.timing import Duration, read_date
from tests.conftest import Clock
from tests.makers import NOW, make_performance, make_recording, make_venue, make_work
from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")


def address(work: Work) -> str:
    return f"/c/ilka-marovand/works/{work.pk}/"


def page_of(browser: Client, work: Work) -> Page:
    return Page(browser.get(address(work)))


def test_title_block_shows_each_script_in_its_language(browser: Client, composer: Composer) -> None:
    work = make_work(
        "Állo fos", composer=composer, title_language="el-Latn", original_title="Άλλο φως", original_language="el",
        translated_title="Other Light", catalogue_number="RO 47", completed="2025",
    )  # fmt: skip

    page = page_of(browser, work)

    block = with_class("titleblock")
    assert page.texts(f"{block}/*[self::p or self::h1]") == ["RO 47 · 2025", "Άλλο φως", "Állo fos", "Other Light"]
    assert page.values(f"{block}/*/@lang") == ["el", "el-Latn"]


def test_instrumentation_is_drawn_and_read_in_words(browser: Client, composer: Composer) -> None:
    work = make_work("Thread", composer=composer, instrumentation="fl, pf, vc")

    page = page_of(browser, work)

    assert page.text("//section[@id='instrumentation']//p[@class='reads']") == "flute; piano; cello"
    assert page.text("//*[local-name()='svg'][@role='img']/*[local-name()='title']") == "flute; piano; cello"
    assert "3 players" in page.texts(f"{with_class('facts')}/li")


def test_instrumentation_that_cannot_be_read_stands_as_typed(browser: Client, composer: Composer) -> None:
    work = make_work("Drone", composer=composer, instrumentation_typed="any seven blorps")

    assert "any seven blorps" in page_of(browser, work).text("//section[@id='instrumentation']")


def test_movements_that_do_not_add_up_are_pointed_out(browser: Client, composer: Composer) -> None:
    work = make_work("Weirs", composer=composer, duration="10′")
    set_movements(work=work, movements=[Movement(title="I", duration=Duration(400)), Movement(duration=Duration(350))])

    page = page_of(browser, work)

    assert page.texts(f"{with_class('programme')}/li/span") == ["I", "6′40″", "2.", "5′50″"]
    assert page.wrong == ["The duration from the movements is 12′30″, 25 % longer than the stated 10′."]


def test_numbers_stand_as_typed_with_their_usual_form_or_what_is_wrong_with_them(
    browser: Client, composer: Composer
) -> None:
    page = page_of(browser, make_work("Weirs", composer=composer, iswc="T-034.524.680-2", ismn="M-060-11561-5"))

    assert page.texts("//section[@id='origin']//dl/div") == [
        "ISWC T-034.524.680-2 The check digit of this ISWC would be 1, not 2: a digit was mistyped.",
        "ISMN M-060-11561-5 usually written 979-0-060-11561-5",
    ]


def test_performances_are_listed_with_what_they_were_the_first_of(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer)
    hall = make_venue("Old Granary", composer=composer)
    make_performance(work, date="2025-05-16", venue=hall, performers=("Kestrel Ensemble",))
    make_performance(work, date="2026-02-01", venue=hall)
    make_performance(work, date="2026-05-01", venue=hall, status="confirmed")

    page = page_of(browser, work)

    assert page.texts(f"{with_class('facts')}/li") == ["2 performances, 1 to come"]
    assert page.texts("//section[@id='performances']//ul[contains(@class, 'dated')]/li") == [
        "Old Granary, Zurich1 May 2026",
        "Old Granary, Zurich second performance in these records1 February 2026",
        "Kestrel Ensemble · Old Granary, Zurich world premiere16 May 2025",
    ]


def test_reader_is_not_offered_to_change_anything(browser: Client, composer: Composer) -> None:
    page = page_of(browser, make_work(composer=composer))

    assert page.texts("//main//button | //main//a[contains(@href, 'edit')]") == []


def test_changes_say_when_who_and_what(signed_in: Callable[[User], Client], owner: User, composer: Composer) -> None:
    work = make_work("Ebb", composer=composer)
    work.title, work.dedication = "Rope Tables", "for Edda Krohn"
    save_work(work=work, now=NOW)

    page = Page(signed_in(owner).get(address(work)))

    assert [line.partition("9 Mar")[0] for line in page.texts("//section[@id='changes']//li")] == [
        "Title, Dedicated to",
        "Added",
    ]


def test_notes_are_shown_as_text(browser: Client, composer: Composer) -> None:
    work = make_work("</title><script>x()</script>", composer=composer, notes="<img src=x onerror=y()>")

    page = page_of(browser, work)

    assert page.values("//script[not(@src)] | //img | //@onerror") == []
    assert "<img src=x onerror=y()>" in page.text("//section[@id='notes']")


def test_number_of_queries_does_not_grow_with_the_performances(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, movements=("I",), commissioned_by=("Vikkammeret",))
    make_performance(work, performers=("Kestrel Ensemble",))
    with CaptureQueriesContext(connection) as with_one:
        browser.get(address(work))
    for day in ("2025-05-17", "2025-05-18"):
        make_performance(work, make_work("Other " + day, composer=composer), date=day, performers=("A", "B"))

    with CaptureQueriesContext(connection) as with_three:
        browser.get(address(work))

    assert (len(with_one), len(with_three)) == (23, 23)


def test_life_of_a_work_is_a_picture_a_sentence_and_a_table(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, begun="2012", completed="2014")
    make_performance(work, date="2015-03-03")
    make_performance(work, date="2027-05-01", status="confirmed")
    make_recording(work, released=read_date("2016"))
    Edition.objects.create(work=work, published=read_date("2017"))

    page = page_of(browser, work)

    sentence = "Composed 2012 to 2014; first performed 3 March 2015; one performance; one to come; recorded 2016; "
    sentence += "published 2017."
    assert page.texts("//section[@id='years']//*[local-name()='title']") == [sentence, sentence]
    assert page.texts("//section[@id='years']/header/p") == [sentence]
    assert page.texts("//section[@id='years']//tbody/tr/td[2]") == [
        "begun", "completed", "first performance", "recording", "published", "performance to come",
    ]  # fmt: skip


def test_life_within_one_year_is_not_drawn(browser: Client, composer: Composer) -> None:
    work = make_work("Rope Tables", composer=composer, completed="2015")
    make_performance(work, date="2015-03-03")

    assert page_of(browser, work).texts("//section[@id='years']") == []


def test_changes_of_rows_stand_among_those_of_the_work(browser: Client, composer: Composer, clock: Clock) -> None:
    work = make_work("Rope Tables", composer=composer, movements=("Lento", "Vivo"))
    clock.goes_on(minutes=5)
    save_work(work=work, now=clock.moment, movements=list(work.movements.order_by("number"))[:1])

    assert page_of(browser, work).texts("//section[@id='changes']//li/span") == [
        "Movements", "9 Mar 2026, 10:05 UTC", "Added", "9 Mar 2026, 10:00 UTC",
    ]  # fmt: skip
