"""The first errand: from an empty catalogue to a works list that follows every change."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import NARROW, WIDE, Open
from tests.browser.errands import add_work, begin_catalogue, made_document, save

SHORTHAND = "2(II=picc).2.2(II=bcl).2 – 2.2.1.0 – timp.perc(2) – hp – str(8.6.4.4.2)"


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
@pytest.mark.parametrize(
    "size", [pytest.param(WIDE, id="wide"), pytest.param(NARROW, id="narrow", marks=pytest.mark.slow)]
)
def test_a_work_that_is_typed_in_and_changed_stands_so_in_the_list(
    open_browser: Open, founder_address: str, tmp_path: Path, scripts: bool, size: dict[str, int]
) -> None:
    page = open_browser(scripts=scripts, size=size)
    begin_catalogue(page, founder_address)

    add_work(page, Title="Rope Tables", Instrumentation=SHORTHAND, Duration="c. 12'30\"", Completed="March 2024")
    expect(page.get_by_role("heading", level=1, name="Rope Tables")).to_be_visible()
    first = made_document(page, "Works list", tmp_path, Order="By category, in full")

    page.goto("/")
    page.get_by_role("link", name="Works", exact=True).click()
    page.get_by_role("link", name="Rope Tables").click()
    page.get_by_role("link", name="Change this work").click()
    page.get_by_label("Duration", exact=True).fill("14 min")
    save(page)
    second = made_document(page, "Works list", tmp_path, Order="By year, in short")

    assert "Rope Tables" in first
    assert "2.2.1.0" in first
    assert "12′30″" in first
    assert "14′" in second
    assert "12′30″" not in second


def test_instrumentation_is_read_while_it_is_typed_and_a_mistake_is_shown_at_its_place(
    open_browser: Open, founder_address: str
) -> None:
    page = open_browser()
    begin_catalogue(page, founder_address)
    add_work(page, Title="Rope Tables")
    page.get_by_role("link", name="Change this work").click()

    page.get_by_label("Instrumentation", exact=True).press_sequentially("2(II=picc).2.2.2")
    expect(page.locator("#instrumentation-reading")).to_contain_text("2 flutes, the second doubling piccolo")
    page.get_by_label("Duration", exact=True).fill("abc")
    save(page)

    summary = page.get_by_role("alert")
    expect(summary).to_contain_text("abc")
    summary.get_by_role("link").first.click()
    expect(page.get_by_label("Duration", exact=True)).to_be_focused()
    assert page.get_by_label("Duration", exact=True).input_value() == "abc"
    assert page.get_by_label("Instrumentation", exact=True).input_value() == "2(II=picc).2.2.2"
