"""A real browser against the served pages; every fault that the browser itself reports fails the errand."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from django.db import connection
from django.db.backends.signals import connection_created
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from catalogue.actions.entry import make_entry_key
from catalogue.models import EntryPurpose
from tests.conftest import CLOCK, NOW

# The synchronous driver keeps an event loop in this thread, which Django takes for asynchronous code.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")

ARGUMENTS = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-default-apps",
    "--disable-domain-reliability",
    "--metrics-recording-only",
    "--no-pings",
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE localhost, EXCLUDE 127.0.0.1",
    "--font-render-hinting=none",
    "--force-color-profile=srgb",
]
PATIENCE = 30_000  # milliseconds that an errand waits for what it looks for
WIDE, NARROW = {"width": 1280, "height": 900}, {"width": 360, "height": 780}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    program = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if program is None:
        pytest.skip("No Chromium is installed, so nothing was tried in a browser.")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=program, args=ARGUMENTS)
        yield browser
        browser.close()


def read_beside_writers(connection: Any, **_signal: Any) -> None:
    """Let pages be read while another is saved, as a file's readers wait: the tests' database lies in memory.

    There SQLite refuses a reader at once where somebody writes the table (its shared cache knows no patience), unless
    the reader takes what is not committed yet.
    """
    if connection.vendor == "sqlite":
        connection.connection.execute("PRAGMA read_uncommitted = 1")


@pytest.fixture(scope="session", autouse=True)
def patient_readers() -> Iterator[None]:
    connection_created.connect(read_beside_writers)
    if connection.connection is not None:
        read_beside_writers(connection)
    yield
    connection_created.disconnect(read_beside_writers)


@pytest.fixture(autouse=True)
def real_clock() -> Iterator[None]:
    """The browser's clock cannot be set, and it drops cookies that ran out: the program takes the real time here."""
    CLOCK.moment = datetime.now(UTC)
    yield
    CLOCK.moment = NOW


Open = Callable[..., Page]
MISSING = "/no-such-page/"
ICON = "/favicon.ico"  # asked for by the browser where a page names none, as a part of a page does that is asked alone


def is_fault(message: ConsoleMessage, shut: tuple[str, ...] = ()) -> bool:
    """Whether the browser complains; that a page which is asked for as missing, or shut, is so is no complaint."""
    url = message.location["url"]
    return message.type == "error" and not url.endswith((MISSING, ICON)) and not any(part in url for part in shut)


@pytest.fixture
def open_browser(chromium: Browser, live_server: LiveServer, settings: Any) -> Iterator[Open]:
    """Return a function that opens a window of its own: ``open_browser(scripts=False, size=NARROW)``.

    ``shut`` are parts of addresses that whoever looks there is to find shut.

    A window is shut once nothing is under way, so that no answer is being made while the database is emptied.
    """
    settings.SITE_URL = live_server.url
    contexts: list[BrowserContext] = []
    faults: list[str] = []

    def open_window(
        *, scripts: bool = True, size: dict[str, int] = WIDE, scheme: str = "light", shut: tuple[str, ...] = ()
    ) -> Page:
        context = chromium.new_context(
            base_url=live_server.url,
            viewport=size,
            java_script_enabled=scripts,
            color_scheme=scheme,
            reduced_motion="reduce",
            locale="en-GB",
            timezone_id="UTC",
            accept_downloads=True,
        )
        context.set_default_timeout(PATIENCE)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: faults.append(message.text) if is_fault(message, shut) else None)
        page.on("pageerror", lambda fault: faults.append(str(fault)))
        return page

    yield open_window
    for context in contexts:
        for page in context.pages:
            page.wait_for_load_state("networkidle")
        context.close()
    assert faults == []


@pytest.fixture
def founder_address(transactional_db: None) -> str:
    """The address that a first start prints."""
    return f"/start/{make_entry_key(EntryPurpose.OWNER, now=CLOCK.moment)}/"
