"""By which clock pages tell moments: that of whoever reads where it is known, the hall's for what takes place there."""

from __future__ import annotations

from datetime import time

import pytest
from django.test import Client, RequestFactory
from django.utils import timezone

from catalogue.actions.calls import propose_call
from catalogue.models import Composer
from catalogue.web.middleware import ReadersClock
from tests.makers import NOW, make_performance, make_venue, make_work
from tests.web.pages import Page

ROOT = "/c/ilka-marovand"
AMERICAN = {"HTTP_ACCEPT_LANGUAGE": "en-US"}


def told_moment(browser: Client, composer: Composer, **headers: str) -> str:
    """Return how the page of a new work, which is added at 10:00 UTC, tells when."""
    work = make_work("Ash Ferry", composer=composer)
    return Page(browser.get(f"{ROOT}/works/{work.pk}/", **headers)).text("//section[@id='changes']//time")


@pytest.mark.parametrize(
    ("clock", "headers", "told"),
    [
        (None, {}, "9 Mar 2026, 10:00 UTC"),
        ("Europe%2FBerlin", {}, "9 Mar 2026, 11:00"),
        ("America/New_York", AMERICAN, "Mar 9, 2026, 6:00 AM"),
        ("Pacific%2FAuckland", AMERICAN, "Mar 9, 2026, 11:00 PM"),
        ("../../etc/passwd", {}, "9 Mar 2026, 10:00 UTC"),
        ("", {}, "9 Mar 2026, 10:00 UTC"),
    ],
)
def test_moment_is_told_by_the_clock_of_whoever_reads(
    browser: Client, composer: Composer, clock: str | None, headers: dict[str, str], told: str
) -> None:
    if clock is not None:
        browser.cookies["clock"] = clock

    assert told_moment(browser, composer, **headers) == told


@pytest.mark.parametrize(("headers", "told"), [({}, "19:30"), (AMERICAN, "7:30 PM")])
def test_performance_is_told_by_the_clocks_of_its_hall(
    browser: Client, composer: Composer, headers: dict[str, str], told: str
) -> None:
    browser.cookies["clock"] = "America/New_York"
    hall = make_venue(composer=composer, zone="Europe/Berlin")
    performance = make_performance(composer=composer, date="2026-03-28", at=time(19, 30), venue=hall)
    at = f"{ROOT}/performances/{performance.pk}/"

    page, form = Page(browser.get(at, **headers)), Page(browser.get(f"{at}edit/", **headers))

    assert f"{told} (Europe/Berlin)" in page.text("//main").replace("\N{NO-BREAK SPACE}", " ")
    assert form.field("time").replace("\N{NO-BREAK SPACE}", " ") == told


def test_deadline_is_told_by_the_readers_clock_once_that_is_known(browser: Client, composer: Composer) -> None:
    text = "Lowmarsh Reeds: call for scores\nDeadline: 20 March 2026, 17:00, UK time"
    call = propose_call(composer=composer, text=text, now=NOW)
    at = f"{ROOT}/calls/{call.pk}/"

    assert "by your clock" not in Page(browser.get(at)).text()
    browser.cookies["clock"] = "America/New_York"
    assert "by your clock Friday 20 March 2026, 13:00" in Page(browser.get(at)).text().replace(
        "\N{NO-BREAK SPACE}", " "
    )


def test_clock_of_a_stranger_is_not_asked() -> None:
    request = RequestFactory().get("/")
    request.COOKIES["clock"] = "Europe/Berlin"

    found = ReadersClock(lambda _request: timezone.get_current_timezone_name())(request)  # type: ignore[arg-type, return-value]

    assert found == "UTC"


def test_only_who_is_signed_in_is_asked_for_a_clock(browser: Client, composer: Composer) -> None:
    inside = browser.get(f"/c/{composer.slug}/").content
    outside = Client().get("/sign-in/").content

    assert (b"data-told-by-clock" in inside, b"data-told-by-clock" in outside) == (True, False)
