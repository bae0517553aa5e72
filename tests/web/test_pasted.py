"""/c/<composer>/import/pasted/ and /c/<composer>/import/<batch>/words/"""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.models import Composer, ImportBatch, ImportState, Work
from catalogue.timing import Duration
from tests.unit.exchange.test_word_text import docx, paragraph
from tests.web.pages import Page, with_class

ADDRESS = "/c/ilka-marovand/import/pasted/"
LIST = "Chamber music\nAsh Ferry (2019) for flute, viola and harp, 12'\nSallow, clarinet and piano, 2020, 8'"


def pasted(browser: Client, text: str = LIST) -> str:
    return str(browser.post(ADDRESS, {"text": text}).headers["Location"])


def as_shown(page: Page) -> dict[str, str]:
    """Return what the form holds, as a browser would send it."""
    fields = page.tree.xpath("//form[.//*[contains(@class, 'savebar')]]//*[@name and @name != 'go']")
    return {
        field.get("name"): str(field.value or "").lstrip("\n")
        for field in fields
        if field.get("type") != "checkbox" or field.get("checked")
    }


def reviewed(browser: Client, address: str, *, go: str = "store", **typed: str) -> Any:
    return browser.post(address, {**as_shown(Page(browser.get(address))), **typed, "go": go})


def test_each_field_stands_beside_the_words_it_came_from(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(pasted(browser)))

    assert page.texts("//section/header/h2") == LIST.splitlines()[1:]
    assert (page.field("0-title"), page.field("0-instrumentation")) == ("Ash Ferry", "flute, viola and harp")
    assert page.texts("//section[@id='work-0']" + with_class("origin") + "/mark") == [
        "Ash Ferry", "2019", "Chamber music", "flute, viola and harp", "12'",
    ]  # fmt: skip
    assert Work.objects.count() == 0


def test_corrected_works_are_stored_and_undone(browser: Client, composer: Composer) -> None:
    address = pasted(browser)

    response = reviewed(browser, address, **{"0-title": "The Ash Ferry", "1-left_out": "on"})

    work = Work.objects.get()
    assert (work.title, work.category, work.duration) == ("The Ash Ferry", "chamber", Duration(720))
    assert browser.get(address).headers["Location"] == response.headers["Location"]
    assert "Stored on" in Page(browser.get(response.headers["Location"])).text()
    browser.post(response.headers["Location"] + "undo/")
    assert Work.objects.count() == 0


def test_what_would_happen_is_shown_before_it_is_stored(browser: Client, composer: Composer) -> None:
    address = pasted(browser)

    page = Page(browser.get(reviewed(browser, address, go="look").headers["Location"]))

    assert "2 rows of a works list: 2 new" in page.text()
    assert page.values("//main//a[text()='Back to the words']/@href") == [address]
    assert not page.tree.xpath("//*[@id='columns']")


def test_mistakes_are_shown_at_their_fields_and_nothing_is_lost(browser: Client, composer: Composer) -> None:
    page = Page(reviewed(browser, pasted(browser), **{"0-year": "1998-13", "1-title": "", "1-duration": "nine"}))

    assert page.wrong == ["There is no month 13.", "A work needs a title; leave it out if this is none."]
    assert (page.field("0-year"), page.field("1-duration")) == ("1998-13", "nine")
    assert page.values(with_class("summary") + "//a/@href") == ["#id_0-year", "#id_1-title"]
    assert Work.objects.count() == 0


def test_long_list_is_corrected_page_by_page(browser: Client, composer: Composer) -> None:
    address = pasted(browser, "\n".join(f"Piece {number} (2001)" for number in range(45)))

    second = reviewed(browser, address, go="2", **{"0-title": "First"}).headers["Location"]
    third = reviewed(browser, second, go="3", **{"20-title": "Twenty-first"}).headers["Location"]
    reviewed(browser, third, **{"44-title": "Last"})

    assert ImportBatch.objects.get().state == ImportState.KEPT
    assert Work.objects.count() == 45
    assert set(Work.objects.exclude(title__startswith="Piece").values_list("title", flat=True)) == {
        "First", "Twenty-first", "Last",
    }  # fmt: skip


def test_bare_durations_are_asked_about_before_anything_is_stored(browser: Client, composer: Composer) -> None:
    address = pasted(browser)

    page = Page(browser.get(reviewed(browser, address, **{"0-duration": "12"}).headers["Location"]))

    assert "One duration is a number without a unit." in page.text()
    assert Work.objects.count() == 0


@pytest.mark.parametrize(
    ("name", "content"),
    [("works.docx", docx(paragraph("Ash Ferry (2019)"))), ("works.txt", "Ash Ferry (2019)".encode("utf-16"))],
)
def test_file_is_read_as_if_it_were_pasted(browser: Client, composer: Composer, name: str, content: bytes) -> None:
    file = BytesIO(content)
    file.name = name

    page = Page(browser.get(browser.post(ADDRESS, {"text": "", "file": file}).headers["Location"]))

    assert (page.text("//h1"), page.field("0-title"), page.field("0-year")) == (name, "Ash Ferry", "2019")


def test_cells_copied_from_a_spreadsheet_are_a_table(browser: Client, composer: Composer) -> None:
    page = Page(browser.get(pasted(browser, "Title\tForces\nAsh Ferry\tfl, pf\n")))

    assert "One row of a works list: 1 new" in page.text()


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "Paste your list here, or choose a file."),
        ("1998\n1999", "No work has been found in this text."),
        ("Chamber music", "No work has been found in this text."),
    ],
)
def test_text_without_works_is_refused(browser: Client, composer: Composer, text: str, reason: str) -> None:
    assert Page(browser.post(ADDRESS, {"text": text})).wrong == [reason]


def test_file_of_another_kind_is_refused_at_its_field(browser: Client, composer: Composer) -> None:
    file = BytesIO(b"%PDF-1.7")
    file.name = "works.pdf"

    page = Page(browser.post(ADDRESS, {"text": "", "file": file}))

    assert page.values(with_class("summary") + "//a/@href") == ["#id_file"]


def test_control_characters_of_a_text_are_left_behind(browser: Client, composer: Composer) -> None:
    reviewed(browser, pasted(browser, "Ash\x0bFerry\x07 Two (2019)\n\x1b[31mSallow (2020)"))

    assert set(Work.objects.values_list("title", flat=True)) == {"Ash", "Ferry Two", "[31mSallow"}


def test_page_asks_the_database_as_often_for_many_works(browser: Client, composer: Composer) -> None:
    def asked(text: str) -> int:
        address = pasted(browser, text)
        with CaptureQueriesContext(connection) as queries:
            browser.get(address)
        return len(queries)

    assert (asked("Ash Ferry (2019)"), asked("\n".join(f"Piece {number} (2001)" for number in range(60)))) == (4, 4)
