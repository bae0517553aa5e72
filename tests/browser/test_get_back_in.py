"""An errand: a forgotten password is set anew by mail; a code is asked after it, and the telephone gets lost."""

from __future__ import annotations

import re
from typing import Any

import pyotp
import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.core.management import call_command
from playwright.sync_api import Page, expect

from catalogue.actions.composers import create_composer
from tests.browser.conftest import NARROW, Open
from tests.browser.errands import PASSWORD, sign_in
from tests.conftest import CLOCK
from tests.makers import make_user

NEW = "copper-hymn-at-four"
WRONG = "This code is wrong, was used already, or has run out; take the one that is shown now."
BOTH_WAYS = [
    pytest.param(True, id="with scripts"),
    pytest.param(False, id="without scripts", marks=pytest.mark.slow),
]


@pytest.fixture
def person(transactional_db: None) -> User:
    owner = make_user("ilka", password=PASSWORD)
    create_composer(name="Ilka Marovand", owner=owner)
    return owner


def switch_on(page: Page) -> tuple[pyotp.TOTP, list[str]]:
    """Switch the second step on; return what the telephone reckons with, and the recovery codes."""
    page.get_by_role("link", name="How you sign in").click()
    page.get_by_role("link", name="Switch it on").click()
    page.get_by_role("button", name="Begin").click()
    telephone = pyotp.TOTP(page.locator("#begun p.code").inner_text())
    confirm(page, "000000", PASSWORD)
    expect(page.get_by_role("main")).to_contain_text(WRONG)
    confirm(page, shown(telephone), "guessed")
    expect(page.get_by_role("main")).to_contain_text("This is not your password.")
    confirm(page, shown(telephone), PASSWORD)
    codes = page.locator("#codes li").all_inner_texts()
    page.get_by_role("link", name="I have kept them").click()
    expect(page.locator("#second-step")).to_contain_text("It is switched on")
    return telephone, codes


def confirm(page: Page, code: str, password: str) -> None:
    page.get_by_label("Code", exact=True).fill(code)
    page.get_by_label("Your password", exact=True).fill(password)
    page.get_by_role("button", name="Switch it on").click()


def shown(telephone: pyotp.TOTP) -> str:
    """What the telephone shows by the program's clock, which stands still."""
    return telephone.at(int(CLOCK.moment.timestamp()))


def sign_out(page: Page) -> None:
    page.get_by_role("button", name="Sign out").click()


def tell_code(page: Page, code: str) -> None:
    page.get_by_label("Code", exact=True).fill(code)
    page.get_by_role("button", name="Sign in").click()


def is_in(page: Page) -> None:
    expect(page.get_by_role("navigation", name="Rooms")).to_be_visible()


@pytest.mark.parametrize("scripts", BOTH_WAYS)
def test_a_code_is_asked_after_the_password_and_each_is_taken_once(
    open_browser: Open, person: User, scripts: bool
) -> None:
    page = open_browser(scripts=scripts, size=NARROW, scheme="dark")
    sign_in(page, "ilka")
    telephone, codes = switch_on(page)
    used = shown(telephone)
    sign_out(page)

    sign_in(page, "ilka")
    tell_code(page, used)
    expect(page.get_by_role("main")).to_contain_text(WRONG)
    CLOCK.goes_on(seconds=30)
    tell_code(page, shown(telephone))
    is_in(page)

    sign_out(page)
    sign_in(page, "ilka")
    tell_code(page, codes[0].upper())
    is_in(page)
    sign_out(page)
    sign_in(page, "ilka")
    tell_code(page, codes[0])
    expect(page.get_by_role("main")).to_contain_text(WRONG)


@pytest.mark.slow
def test_a_lost_telephone_is_replaced_and_lost_codes_are_made_up_for_on_the_machine(
    open_browser: Open, person: User
) -> None:
    page = open_browser()
    sign_in(page, "ilka")
    _lost, codes = switch_on(page)
    sign_out(page)
    sign_in(page, "ilka")
    tell_code(page, codes[3])
    page.get_by_role("link", name="How you sign in").click()
    page.get_by_role("link", name="Recovery codes, and off").click()
    expect(page.get_by_role("main")).to_contain_text("9 recovery codes are left.")

    page.get_by_label("Your password", exact=True).fill(PASSWORD)
    page.get_by_role("button", name="Make fresh recovery codes").click()
    fresh = page.locator("#codes li").all_inner_texts()
    page.get_by_role("link", name="I have kept them").click()
    page.get_by_role("link", name="Recovery codes, and off").click()
    page.get_by_label("Your password", exact=True).fill(PASSWORD)
    page.get_by_role("button", name="Switch it off").click()
    expect(page.get_by_role("main")).to_contain_text("The second step is switched off")
    _new, _codes = switch_on(page)
    sign_out(page)
    sign_in(page, "ilka")
    tell_code(page, fresh[0])
    expect(page.get_by_role("main")).to_contain_text(WRONG)

    call_command("second_step", "ilka", "--off", verbosity=0)
    sign_in(page, "ilka")
    is_in(page)


@pytest.mark.slow
def test_five_wrong_codes_shut_the_second_step_for_a_while(open_browser: Open, person: User) -> None:
    page = open_browser(size=NARROW)
    sign_in(page, "ilka")
    telephone, _codes = switch_on(page)
    sign_out(page)
    sign_in(page, "ilka")
    for number in range(5):
        tell_code(page, f"00000{number}")
        expect(page.get_by_role("main")).to_contain_text(WRONG)
    CLOCK.goes_on(seconds=60)

    tell_code(page, shown(telephone))
    expect(page.get_by_role("main")).to_contain_text("try again in a quarter of an hour")

    CLOCK.goes_on(minutes=15)
    tell_code(page, shown(telephone))
    expect(page.get_by_role("heading", level=1)).to_have_text("Sign in")
    sign_in(page, "ilka")
    tell_code(page, shown(telephone))
    is_in(page)


@pytest.mark.slow
@pytest.mark.parametrize("scripts", [True, False])
def test_a_forgotten_password_is_set_anew_by_mail(
    open_browser: Open, person: User, scripts: bool, settings: Any
) -> None:
    settings.SENDS_MAIL, settings.DEFAULT_FROM_EMAIL = True, "catalogue@house.example"
    page = open_browser(scripts=scripts, size=NARROW)
    sign_in(page, "ilka", "not it")
    expect(page.get_by_role("main")).to_contain_text("This name and password do not belong together.")
    page.get_by_role("link", name="Forgotten the password?").click()
    ask(page, "ilka at example")
    expect(page.get_by_role("main")).to_contain_text("Enter a valid email address.")
    ask(page, "ilka@example.org")
    expect(page.get_by_role("heading", level=1)).to_have_text("Look in your mail")

    (message,) = mail.outbox
    (address,) = re.findall(r"^https?://\S+/account/recover/\S+$", str(message.body), re.MULTILINE)
    page.goto(address)
    choose(page, NEW, "another")
    expect(page.get_by_role("main")).to_contain_text("The two are not the same.")
    choose(page, NEW, NEW)
    expect(page.get_by_role("main")).to_contain_text("Your password is changed; sign in with it.")
    sign_in(page, "ilka", NEW)
    is_in(page)

    sign_out(page)
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_have_text("This address opens nothing")
    page.get_by_role("link", name="Ask for another").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Forgotten the password?")


def ask(page: Page, email: str) -> None:
    page.get_by_label("E-mail address").fill(email)
    page.get_by_role("button", name="Send it").click()


def choose(page: Page, password: str, again: str) -> None:
    page.get_by_label("New password").fill(password)
    page.get_by_label("The new one again").fill(again)
    page.get_by_role("button", name="Change it").click()


@pytest.mark.slow
def test_owners_of_a_house_that_asks_for_it_come_no_further_without_the_second_step(
    open_browser: Open, person: User, settings: Any
) -> None:
    settings.OWNERS_NEED_SECOND_STEP = True
    page = open_browser(size=NARROW)
    sign_in(page, "ilka")
    expect(page.get_by_role("alert")).to_have_text(
        "This house asks its owners for the second step. Switch it on to go on."
    )

    page.get_by_role("button", name="Begin").click()
    confirm(page, shown(pyotp.TOTP(page.locator("#begun p.code").inner_text())), PASSWORD)
    page.get_by_role("link", name="I have kept them").click()
    page.get_by_role("link", name="Recovery codes, and off").click()
    expect(page.get_by_role("button", name="Switch it off")).to_have_count(0)
    page.goto("/")
    is_in(page)
