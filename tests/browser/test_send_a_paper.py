"""A works list that goes to somebody: recorded as sent, taken along again, held against the record later."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.browser.conftest import Open
from tests.browser.errands import add_work, begin_catalogue, go_to


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_a_works_list_is_kept_as_it_was_sent_and_compared_with_the_record(
    open_browser: Open, founder_address: str, tmp_path: Path, scripts: bool
) -> None:
    page = open_browser(scripts=scripts)
    begin_catalogue(page, founder_address)
    add_work(page, Title="Rope Tables", Completed="2025")
    go_to(page, "Documents")
    page.get_by_role("button", name="Record as sent").click()
    page.get_by_label("Organisation of the catalogue", exact=True).fill("Kestrel Festival")
    page.get_by_role("button", name="Keep it as sent").click()

    page.get_by_role("heading", level=1, name="Works list: Kestrel Festival").wait_for()
    page.get_by_text("Made again today, it would say the same.").wait_for()
    with page.expect_download() as taken:
        page.get_by_role("link", name="Download what was sent").click()
    taken.value.save_as(tmp_path / "sent.pdf")
    add_work(page, Title="Salt Steps", Completed="2026")
    page.goto("/c/ilka-marovand/records/papers-sent/")

    assert (tmp_path / "sent.pdf").read_bytes().startswith(b"%PDF")
    page.get_by_role("cell", name="says something else").wait_for()
    page.get_by_role("link", name="Works list", exact=True).click()
    page.get_by_text("Salt Steps").first.wait_for()
