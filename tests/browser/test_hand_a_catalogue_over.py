"""An errand: a composer's catalogue leaves one house as a file, with what was uploaded, and goes on in another."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from catalogue.actions.composers import create_composer
from catalogue.models import Composer, Edition, Performance, Work
from tests.browser.conftest import NARROW, Open
from tests.browser.errands import PASSWORD, go_to, sign_in
from tests.makers import make_performance, make_user, make_work
from tests.unit.exchange.hostile_uploads import pdf_with
from tests.web.test_hand_over import remove_all_of

pytestmark = pytest.mark.slow


@pytest.fixture
def two_houses(transactional_db: None, settings: Any, tmp_path: Path, no_files: None) -> Composer:
    """A catalogue with an edition's score, and the owner of another house's."""
    settings.DATA = tmp_path
    composer = create_composer(name="Ilka Marovand", owner=make_user("ilka", password=PASSWORD))
    work = make_work("Slow Ferry", composer=composer, instrumentation="fl, cl, vn, vc, pf")
    make_performance(work, date="2030-05-16", city="Lyon", country="FR")
    Edition.objects.create(work=work, number="SF 1")
    create_composer(name="Pell Tarrowick", owner=make_user("second", password=PASSWORD))
    return composer


def add_score(page: Page) -> None:
    """Keep a score with the edition of the work."""
    go_to(page, "Works")
    page.get_by_role("link", name="Slow Ferry").first.click()
    page.get_by_role("link", name="SF 1").first.click()
    page.get_by_label("Add a file").set_input_files(
        {"name": "Slow Ferry.pdf", "mimeType": "application/pdf", "buffer": pdf_with(lambda _pdf: None)}
    )
    page.get_by_role("button", name="Keep this file").click()


def handed_over(page: Page, folder: Path) -> Path:
    """Hand the catalogue over, first to nobody, then to two; return the second file."""
    sign_in(page, "ilka")
    add_score(page)
    go_to(page, "Profile")
    page.get_by_role("link", name="Hand the catalogue over").click()
    page.get_by_role("button", name="Hand over", exact=True).click()
    expect(page.get_by_role("main")).to_contain_text("This field is required.")
    for house in ("A house that declined", "The second house"):
        page.get_by_label("To whom").fill(house)
        with page.expect_download(timeout=20_000) as download:
            page.get_by_role("button", name="Hand over", exact=True).click()
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    with page.expect_download():
        page.get_by_role("button", name="Hand over", exact=True).click()
    page.goto(page.url)
    expect(page.locator("#given").get_by_text("The second house")).to_have_count(2)
    return path


def send(page: Page, file: Path, button: str) -> None:
    page.get_by_label("The file").set_input_files(file)
    page.get_by_role("button", name=button).click()


@pytest.mark.parametrize("scripts", [True, False])
def test_a_catalogue_is_handed_over_looked_into_and_taken_over(
    open_browser: Open, two_houses: Composer, tmp_path: Path, scripts: bool
) -> None:
    page, phone = open_browser(scripts=scripts), open_browser(scripts=scripts, size=NARROW, scheme="dark")
    file = handed_over(page, tmp_path)
    identity = Work.objects.get().uid
    Performance.objects.all().delete()
    remove_all_of(two_houses)
    (tmp_path / "not-it.zip").write_bytes(b"not it")

    sign_in(phone, "second")
    phone.goto("/composers/")
    phone.get_by_role("link", name="Take a catalogue over").click()
    send(phone, tmp_path / "not-it.zip", "Look into it")
    expect(phone.get_by_role("main")).to_contain_text("is no catalogue that was handed over")
    send(phone, file, "Look into it")
    expect(phone.locator("#found")).to_contain_text("Ilka Marovand")
    assert not Work.objects.exists()
    send(phone, file, "Take it over")
    expect(phone.get_by_role("main")).to_contain_text("The catalogue of Ilka Marovand is yours now.")

    go_to(phone, "Works")
    phone.get_by_role("link", name="Slow Ferry").first.click()
    phone.get_by_role("link", name="SF 1").first.click()
    expect(phone.locator("#files")).to_contain_text("Slow Ferry.pdf")
    assert Work.objects.get().uid == identity
    phone.goto("/house/take-over/")
    send(phone, file, "Take it over")
    expect(phone.get_by_role("main")).to_contain_text("This catalogue is here already")
