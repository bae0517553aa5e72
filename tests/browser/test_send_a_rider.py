"""An errand: technical needs to a presenter, from a work with electronics to answers given without an account."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page, expect

from catalogue.actions.composers import create_composer
from catalogue.actions.entry import make_entry_key
from catalogue.models import EntryPurpose
from tests.browser.conftest import NARROW, Open
from tests.browser.errands import go_to
from tests.conftest import CLOCK
from tests.makers import make_performance, make_user, make_venue, make_work

SETUP = {
    "Name": "As meant",
    "Input list": "1; piano; small condenser; under the lid; 48 V; to live; presenter",
    "Equipment": "2 loudspeakers; full range; presenter\nlaptop; composer",
}


@pytest.fixture
def way_in(transactional_db: None) -> str:
    """The address that signs in to a catalogue with a work for piano and electronics, and its performance."""
    owner = make_user("ilka")
    composer = create_composer(name="Ilka Marovand", owner=owner)
    work = make_work("Slow Ferry", composer=composer, instrumentation="pf, live electronics")
    make_performance(work, venue=make_venue("Dock Hall", composer=composer), date="2030-05-16")
    return f"/enter/{make_entry_key(EntryPurpose.DEMO, now=CLOCK.moment, user=owner)}/"


@pytest.mark.parametrize(
    "scripts",
    [pytest.param(True, id="with scripts"), pytest.param(False, id="without scripts", marks=pytest.mark.slow)],
)
def test_a_rider_is_sent_answered_on_a_phone_and_the_answers_are_seen(
    open_browser: Open, way_in: str, scripts: bool
) -> None:
    page = open_browser(scripts=scripts)
    page.goto(way_in)
    add_setup(page)
    add_rider(page)
    page.get_by_role("link", name="Send it").click()
    page.get_by_label("To whom", exact=True).fill("Kit Arran, stage manager")
    page.get_by_role("button", name="Make the address").click()
    address = page.locator("#address").input_value()

    phone = open_browser(scripts=scripts, size=NARROW)
    phone.goto(address)
    answer(phone)
    expect(phone.get_by_role("main")).to_contain_text("your answers are kept")

    page.get_by_role("link", name="Done").click()
    sent = page.locator("#sent")
    expect(sent).to_contain_text("by Kit Arran")
    expect(sent).to_contain_text("two small ones")
    expect(sent).to_contain_text("not quite")


def add_setup(page: Page) -> None:
    go_to(page, "Works")
    page.get_by_role("link", name="Slow Ferry").first.click()
    page.get_by_role("link", name="technical setup").click()
    for label, text in SETUP.items():
        page.get_by_label(label, exact=True).fill(text)
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_have_text("As meant")


def add_rider(page: Page) -> None:
    go_to(page, "Works")
    page.get_by_role("link", name="Slow Ferry").first.click()
    page.get_by_role("link", name="technical rider", exact=True).click()
    page.get_by_label("Performance", exact=True).select_option(index=1)
    page.get_by_label("Technical setup", exact=True).select_option(label="As meant")
    page.get_by_label("Name", exact=True).fill("Ilka Marovand")
    page.get_by_label("E-mail", exact=True).fill("ilka@example.org")
    page.get_by_role("button", name="Save", exact=True).click()


def answer(phone: Page) -> None:
    """Answer the loudspeakers with a remark, and sign."""
    need = phone.get_by_role("group", name="2 loudspeakers")
    need.get_by_label("Not quite").check()
    need.get_by_label("What instead, or a remark").fill("two small ones")
    phone.get_by_label("Your name").fill("Kit Arran")
    phone.get_by_role("button", name="Send answers").click()
