"""The typefaces that a page asks for: their sheet, one slice, and nothing at any other address."""

from __future__ import annotations

import re

import pytest
from django.test import Client

pytestmark = pytest.mark.django_db


def sheet_of_a_page() -> str:
    page = Client().get("/help/").content.decode()
    return re.findall(r'href="(/faces/\w+/faces\.css)"', page)[0]


def test_page_leads_to_the_sheet_and_the_sheet_to_a_font() -> None:
    sheet = sheet_of_a_page()
    rules = Client().get(sheet)
    last = re.findall(r'url\("([^"]+)"\)', rules.content.decode())[-1]

    font = Client().get(sheet.replace("faces.css", last))

    assert (rules.headers["Content-Type"], font.headers["Content-Type"]) == ("text/css; charset=utf-8", "font/otf")
    assert font.content.startswith(b"OTTO")


@pytest.mark.parametrize("missing", ["none/faces.css", "none/ja/serif/30.otf", "{}/ja/serif/none.otf"])
def test_other_addresses_are_not_found(missing: str) -> None:
    release = sheet_of_a_page().split("/")[2]

    assert Client().get(f"/faces/{missing.format(release)}").status_code == 404
