"""/help/"""

from __future__ import annotations

from django.test import Client

from catalogue.instrumentation import read
from tests.web.pages import Page


def test_help_has_a_section_for_each_entry_of_its_contents() -> None:
    page = Page(Client().get("/help/"))

    assert page.values("//nav[@class='contents']/a/@href") == [f"#{one}" for one in page.values("//section/@id")]


def test_every_shorthand_that_is_shown_is_read() -> None:
    shown = Page(Client().get("/help/")).texts("//dt[@class='code']")

    assert len(shown) == 5
    assert [text for text in shown if read(text).warnings or not read(text).lines] == []
