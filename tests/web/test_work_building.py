"""/c/<composer>/works/new/, its instrumentation read in another way or built by buttons, without scripts."""

from __future__ import annotations

import pytest
from django.test import Client

from catalogue.models import Work
from tests.web.pages import Page, with_class
from tests.web.test_work_new import ADDRESS, filled_in

NUMBERED = "3(3pic).3.3.3 – 4.3.3.1 – str"


def pressed(browser: Client, text: str, **buttons: str) -> Page:
    return Page(browser.post(ADDRESS, filled_in(instrumentation_typed=text, **buttons)))


def test_both_readings_stand_side_by_side_with_their_conventions(browser: Client) -> None:
    page = pressed(browser, NUMBERED, build="none")

    assert page.texts(f"{with_class('reading')}//*[@class='lead']") == [
        "Reads as · dotted, numbered chairs",
        "Or · 3 players double",
    ]
    assert [one.split(";")[0] for one in page.texts(with_class("reads"))] == [
        "3 flutes, the third doubling piccolo",
        "3 flutes, all doubling piccolo",
    ]
    assert page.texts("//mark[contains(@class, 'code')]") == ["(3pic)"]


def test_the_other_reading_is_chosen_and_nothing_is_saved(browser: Client) -> None:
    page = pressed(browser, NUMBERED, read_as="convention:counted doublings", title="Ash Ferry")

    assert page.field("instrumentation_typed") == "3(I,II,III=picc).3.3.3 – 4.3.3.1 – str"
    assert page.field("title") == "Ash Ferry"
    assert page.texts(with_class("otherwise")) == []
    assert Work.objects.count() == 0


@pytest.mark.parametrize(
    ("text", "buttons", "written"),
    [
        ("", {"build": "add", "build_number": "2", "build_instrument": "flute"}, "2fl"),
        (
            "str",
            {"build": "add", "build_number": "1", "build_instrument": "piano", "build_solo": "on"},
            "solo pf – str",
        ),
        ("two flutes", {"build": "double", "build_seat": "0:2", "build_second": "piccolo"}, "2fl(II=picc)"),
        ("2fl – hp", {"build": "whole:strings"}, "2fl – hp – str"),
        ("2fl – hp", {"build": "more:1:harp"}, "2fl – 2hp"),
        ("2fl – hp", {"build": "fewer:0:flute"}, "fl, hp"),
        ("2fl – hp", {"build": "away:0:flute"}, "hp"),
    ],
)
def test_a_button_writes_the_text_anew(browser: Client, text: str, buttons: dict[str, str], written: str) -> None:
    page = pressed(browser, text, **buttons)

    assert page.field("instrumentation_typed").replace(" – ", ", ") == written.replace(" – ", ", ")
    assert "open" in page.tree.xpath(with_class("builder"))[-1].attrib
    assert Work.objects.count() == 0


@pytest.mark.parametrize(
    "buttons",
    [
        {"build": "away:0:oboe"},
        {"build": "more:7:flute"},
        {"build": "fly:0:flute"},
        {"build": "add", "build_number": "x", "build_instrument": "flute"},
        {"build": "add", "build_number": "2", "build_instrument": "kazoo quartet"},
        {"build": "double"},
        {"read_as": "convention:no such"},
        {"read_as": "nothing"},
    ],
)
def test_a_button_that_is_not_there_changes_nothing(browser: Client, buttons: dict[str, str]) -> None:
    page = pressed(browser, "2fl – hp", **buttons)

    assert (page.status, page.field("instrumentation_typed")) == (200, "2fl – hp")
    assert Work.objects.count() == 0


def test_a_text_that_cannot_be_read_is_left_as_it_is(browser: Client) -> None:
    page = pressed(browser, "soon, perhaps 12 (", build="whole:strings")

    assert page.field("instrumentation_typed") == "soon, perhaps 12 ("
    assert page.texts(with_class("lead")) == ["Cannot be read"]
