"""The fourth errand: what is coming, on the first page and in one's own calendar."""

from __future__ import annotations

from datetime import timedelta

import pytest
from icalendar import Calendar
from playwright.sync_api import expect

from tests.browser.conftest import Open
from tests.browser.errands import add_performance, add_work, begin_catalogue, go_to
from tests.conftest import CLOCK


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_a_performance_to_come_stands_on_today_and_in_the_calendar(
    open_browser: Open, founder_address: str, scripts: bool
) -> None:
    day = (CLOCK.moment + timedelta(days=20)).date()
    page = open_browser(scripts=scripts)
    begin_catalogue(page, founder_address)
    add_work(page, Title="Rope Tables")
    add_performance(
        page,
        Date=day.isoformat(),
        Time="19:30",
        Hall_or_place="Bøkehallen",
        City="Stavanger",
        Country="Norway",
        Work="Rope Tables",
    )

    go_to(page, "Today")
    coming = page.locator("#coming")
    expect(coming.get_by_role("link", name="Rope Tables")).to_be_visible()
    expect(coming).to_contain_text("in 20 days")

    go_to(page, "Profile")
    page.get_by_role("link", name="Subscribe to the calendar").click()
    page.get_by_label("What it is for").fill("Telephone")
    page.get_by_role("button", name="Make an address").click()
    answer = page.request.get(page.get_by_label("Secret address").input_value())
    events = Calendar.from_ical(answer.text()).walk("VEVENT")

    assert answer.headers["content-type"] == "text/calendar; charset=utf-8"
    (event,) = [event for event in events if str(event["SUMMARY"]) == "Rope Tables"]
    assert event.decoded("DTSTART").date() == day
    assert "Stavanger" in str(event["LOCATION"])
