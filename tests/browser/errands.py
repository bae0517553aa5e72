"""What every errand does at the keyboard: begin a catalogue, enter a work and a performance, have a document made."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page

COMPOSER = "Ilka Marovand"
PASSWORD = "a long enough sentence"


def begin_catalogue(page: Page, address: str) -> None:
    """Open the address that the first start prints, and found the catalogue."""
    page.goto(address)
    page.get_by_label("The composer’s name").fill(COMPOSER)
    page.get_by_label("Name to sign in with").fill("ilka")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Begin").click()
    page.get_by_role("heading", level=1, name=f"The catalogue of {COMPOSER} is empty").wait_for()


def sign_in(page: Page, name: str, password: str = PASSWORD) -> None:
    page.goto("/sign-in/")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Password", exact=True).fill(password)
    page.get_by_role("button", name="Sign in").click()


def go_to(page: Page, room: str) -> None:
    page.get_by_role("navigation", name="Rooms").get_by_role("link", name=room, exact=True).click()


def add_work(page: Page, **typed: str) -> None:
    """Enter a work by the labels of its fields, with spaces for underscores."""
    go_to(page, "Works")
    page.get_by_role("link", name="Add a work").first.click()
    fill(page, typed)


def add_performance(page: Page, **typed: str) -> None:
    go_to(page, "Performances")
    page.get_by_role("link", name="Add a performance").first.click()
    fill(page, typed)


def fill(page: Page, typed: dict[str, str]) -> None:
    for label, text in typed.items():
        page.get_by_label(label.replace("_", " "), exact=True).first.fill(text)
    save(page)


def save(page: Page) -> None:
    page.locator(".savebar").get_by_role("button", name="Save").click()


def made_document(page: Page, kind: str, folder: Path, **asked: str) -> str:
    """Have a document made as plain text and return what it says."""
    go_to(page, "Documents")
    page.get_by_role("navigation", name="Documents").get_by_role("link", name=kind).click()
    for label, option in {**asked, "Format": "Plain text"}.items():
        page.get_by_label(label, exact=True).select_option(label=option)
    with page.expect_download() as download:
        page.get_by_role("button", name="Make it").click()
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    return path.read_text(encoding="utf-8")
