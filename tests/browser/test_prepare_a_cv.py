"""The second errand: works and performances of some years, as an application asks for them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.browser.conftest import Open
from tests.browser.errands import add_performance, add_work, begin_catalogue, go_to, made_document


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_cv_section_tells_the_work_and_its_first_performance(
    open_browser: Open, founder_address: str, tmp_path: Path, scripts: bool
) -> None:
    page = open_browser(scripts=scripts)
    begin_catalogue(page, founder_address)
    add_work(page, Title="Rope Tables", Instrumentation="fl(=picc), cl(=bcl), vn, vc, pf", Completed="2025")
    add_performance(
        page,
        Date="14 June 2025",
        Hall_or_place="Bøkehallen",
        City="Stavanger",
        Country="Norway",
        Performers="Vikkammeret",
        Work="Rope Tables",
    )

    told = made_document(page, "CV section", tmp_path)

    assert "Rope Tables for flute, clarinet, violin, cello and piano" in told
    assert "Rope Tables: Vikkammeret, Bøkehallen, Stavanger, 14 June 2025" in told.replace("\N{NO-BREAK SPACE}", " ")


def test_preview_follows_what_is_asked(open_browser: Open, founder_address: str) -> None:
    page = open_browser()
    begin_catalogue(page, founder_address)
    add_work(page, Title="Rope Tables", Completed="2025")
    go_to(page, "Documents")
    preview = page.locator("#preview")
    preview.get_by_role("heading", name="Works by category").wait_for()

    page.get_by_label("Order", exact=True).select_option(value="year")

    preview.get_by_text("Rope Tables").wait_for()
    preview.get_by_role("heading", name="Works by category").wait_for(state="detached")
    assert page.get_by_label("Order", exact=True).input_value() == "year"
