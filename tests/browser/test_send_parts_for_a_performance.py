"""The third errand: what goes into the box for an orchestra, copy by copy."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.browser.conftest import Open
from tests.browser.errands import add_performance, add_work, begin_catalogue

SHORTHAND = "2(II=picc).2.2.2 – 2.2.0.0 – timp – str(9.7.5.4.3)"


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_checklist_counts_a_copy_for_each_chair_and_each_desk(
    open_browser: Open, founder_address: str, tmp_path: Path, scripts: bool
) -> None:
    page = open_browser(scripts=scripts)
    begin_catalogue(page, founder_address)
    add_work(page, Title="Rope Tables", Instrumentation=SHORTHAND)
    add_performance(page, Date="14 June 2027", City="Stavanger", Country="NO", Work="Rope Tables")

    page.locator("#documents").get_by_role("link", name="Make it").click()
    page.get_by_label("Format", exact=True).select_option(label="Plain text")
    with page.expect_download() as download:
        page.get_by_role("button", name="Make it").click()
    download.value.save_as(tmp_path / "parts.txt")
    told = (tmp_path / "parts.txt").read_text(encoding="utf-8")

    copies = {
        name: int(number)
        for name, number in re.findall(r"(Violin I|Violin II|Viola|Cello|Double bass)\b.*?desks?\W+(\d+)", told)
    }
    assert copies == {"Violin I": 5, "Violin II": 4, "Viola": 3, "Cello": 2, "Double bass": 2}
    assert "Flute 2" in told
    assert "also piccolo" in told
