"""An errand: a works list and a pasted list are looked over, stored and taken out again; a tour is entered at once."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Open
from tests.browser.errands import add_work, begin_catalogue, go_to, save

LIST = "Title,Year,Length,Mood\nSlack Rope,1998,12,calm\nBore,2001,9,\n"
WORDS = "Selected works\n2024  Dune Ledger (flute, viola, harp) 11'\n2020  Moss Cantata (SATB choir, organ) 16'"


def open_import(page: Page) -> None:
    go_to(page, "Works")
    page.get_by_role("link", name="Import").first.click()
    page.get_by_role("heading", level=1, name="Import").wait_for()


def see_what_came_of_it(page: Page) -> None:
    """Go on from the page that grows while a list is done, where there is one."""
    go_on = page.get_by_role("link", name="Done. See what came of it")
    if go_on.count():
        go_on.click()


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_a_list_is_looked_over_stored_and_undone(open_browser: Open, founder_address: str, scripts: bool) -> None:
    page = open_browser(scripts=scripts)
    begin_catalogue(page, founder_address)
    open_import(page)

    page.get_by_label("Spreadsheet").set_input_files(
        {"name": "works.csv", "mimeType": "text/csv", "buffer": LIST.encode()}
    )
    page.get_by_role("button", name="Look it over").click()
    see_what_came_of_it(page)
    expect(page.get_by_text("2 durations are numbers without a unit.")).to_be_visible()
    page.get_by_label("minutes", exact=True).check()
    page.get_by_role("button", name="Read them this way").click()
    see_what_came_of_it(page)
    page.get_by_role("button", name="Store all of it").click()
    see_what_came_of_it(page)
    expect(page.locator("#made li")).to_have_count(2)
    kept = page.url
    go_to(page, "Works")
    expect(page.get_by_role("link", name="Slack Rope")).to_be_visible()

    page.goto(kept)
    page.get_by_role("button", name="Undo this import").click()
    see_what_came_of_it(page)
    expect(page.locator("#made li").first).to_contain_text("taken out again")
    go_to(page, "Works")
    expect(page.get_by_role("link", name="Slack Rope")).to_have_count(0)


def test_a_pasted_list_is_corrected_and_stored(open_browser: Open, founder_address: str) -> None:
    page = open_browser()
    begin_catalogue(page, founder_address)
    open_import(page)
    page.get_by_role("link", name="Paste a list").click()

    page.get_by_label("Your list").fill(WORDS)
    page.get_by_role("button", name="Read it").click()
    expect(page.get_by_label("Instrumentation").first).to_have_value("flute, viola, harp")
    page.get_by_label("Title", exact=True).first.fill("Dune Ledgers")
    page.get_by_role("button", name="Store all of it").click()
    see_what_came_of_it(page)

    expect(page.locator("#made li")).to_have_count(2)
    expect(page.get_by_role("link", name="Dune Ledgers")).to_be_visible()


def test_a_tour_is_entered_at_once(open_browser: Open, founder_address: str) -> None:
    page = open_browser()
    begin_catalogue(page, founder_address)
    add_work(page, Title="Ash Ferry")
    go_to(page, "Performances")
    page.get_by_role("link", name="Add a tour").click()

    page.get_by_label("Dates and places").fill("12 May 2027 19:30 Old Granary, Zurich\n14 May 2027 20:00 Kiln, Linz")
    page.get_by_label("Works", exact=True).fill("Ash Ferry")
    page.get_by_label("Performers").fill("Kestrel Ensemble")
    save(page)

    expect(page.get_by_text("2 performances are saved.")).to_be_visible()


@pytest.mark.slow
def test_a_line_fills_the_form_and_two_spellings_become_one(open_browser: Open, founder_address: str) -> None:
    page = open_browser()
    begin_catalogue(page, founder_address)
    add_work(page, Title="Ash Ferry")
    for line in ("12 May 2027 19:30 Old Granary, Zurich", "14 May 2027 20:00 The Old Granary, Zurich"):
        go_to(page, "Performances")
        page.get_by_label("One in a line").fill(f"{line}: Kestrel Ensemble, Ash Ferry")
        page.get_by_role("button", name="Fill in the form").click()
        expect(page.get_by_label("City")).to_have_value("Zurich")
        expect(page.get_by_label("Performers", exact=True)).to_have_value("Kestrel Ensemble")
        expect(page.get_by_label("Work", exact=True).first).to_have_value("Ash Ferry")
        save(page)

    open_import(page)
    page.get_by_role("link", name="See likely duplicates").click()
    page.get_by_role("button", name="Keep this one").filter(has_text=": Old Granary").click()
    expect(page.get_by_text("“The Old Granary, Zurich” is now “Old Granary, Zurich”.")).to_be_visible()
    page.get_by_role("button", name="Undo").first.click()
    expect(page.get_by_text("“The Old Granary, Zurich” and “Old Granary, Zurich” are two again.")).to_be_visible()
