"""/c/<composer>/works/reading/…: what a text reads as while one types."""

from __future__ import annotations

import pytest
from django.test import Client

from tests.web.pages import Page, with_class

pytestmark = pytest.mark.signed_in_as("viewer")

ROOT = "/c/ilka-marovand/works/reading"


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("14'30", "Reads as 14 minutes 30 seconds"),
        ("ca. 12½ min", "Reads as about 12 minutes 30 seconds"),
        ("0:14:30", "Reads as 14 minutes 30 seconds"),
    ],
)
def test_duration_is_read_in_words(browser: Client, typed: str, says: str) -> None:
    page = Page(browser.post(f"{ROOT}/duration/", {"duration_typed": typed}))

    assert page.texts(f"{with_class('reading')}/p") == [says]


def test_mistake_in_a_duration_is_marked(browser: Client) -> None:
    page = Page(browser.post(f"{ROOT}/duration/", {"duration_typed": "12 blorps"}))

    assert page.wrong == ["“blorps” is no unit of time; write h, min or s."]
    assert page.texts(f"{with_class('typed')}/mark") == ["blorps"]


def test_instrumentation_is_read_in_words_and_drawn(browser: Client) -> None:
    page = Page(browser.post(f"{ROOT}/instrumentation/", {"instrumentation_typed": "2(II=picc), pf"}))

    assert page.texts(f"{with_class('reads')}") == ["2 flutes, the second doubling piccolo; piano"]
    assert len(page.tree.xpath("//*[local-name()='svg']")) == 1


def test_mistake_in_an_instrumentation_is_marked_and_escaped(browser: Client) -> None:
    page = Page(browser.post(f"{ROOT}/instrumentation/", {"instrumentation_typed": "fl, <b>bcx</b>"}))

    assert page.tree.xpath("//b") == []
    assert page.texts(with_class("typed")) == ["fl, <b>bcx</b>"]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("I. Spring 4:05\nII. Weir 5:15 attacca\nIII. Delta 5:10", "Reads as 3 movements, 14′30″ together"),
        ("I. Spring 4:05\nII. Weir", "Reads as 2 movements, 4′05″ together, one without a duration"),
        ("Spring", "Reads as one movement"),
    ],
)
def test_movements_are_counted_and_added(browser: Client, typed: str, says: str) -> None:
    page = Page(browser.post(f"{ROOT}/movements/", {"movements": typed}))

    assert page.texts(f"{with_class('reading')}/p") == [says]


@pytest.mark.parametrize("what", ["duration", "instrumentation", "movements"])
def test_nothing_typed_gets_no_answer(browser: Client, what: str) -> None:
    assert browser.post(f"{ROOT}/{what}/").content.decode().strip() == ""
