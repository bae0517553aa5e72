"""/account/second-step/ and /sign-in/code/: a code after the password"""

from __future__ import annotations

from collections.abc import Callable
from io import StringIO
from math import log2
from typing import Any

import pyotp
import pytest
from django.contrib.auth.models import User
from django.core.management import call_command
from django.test import Client

from catalogue.actions.second_factors import LETTERS, begin, begun_by, confirm, factor_of, secret_of
from catalogue.models import RecoveryCode, SecondFactor
from catalogue.web.forms.sign import CodeForm
from tests.conftest import CLOCK, NOW
from tests.web.pages import Page

PASSWORD = "Hushed-Reed-7"
TOLD = {"username": "rana", "password": PASSWORD}
HOME = "/c/ilka-marovand/works/"
WRONG = "This code is wrong, was used already, or has run out; take the one that is shown now."


@pytest.fixture
def person(owner: User) -> User:
    owner.set_password(PASSWORD)
    owner.save()
    return owner


@pytest.fixture
def codes(person: User) -> tuple[str, ...]:
    """The recovery codes of an owner who has switched the second step on, a while ago."""
    begin(user=person, now=NOW)
    codes = confirm(user=person, code=shown(person), now=NOW)
    SecondFactor.objects.update(last_step=0)
    return codes


def shown(user: User) -> str:
    """The code that the telephone shows now."""
    return pyotp.TOTP(secret_of(SecondFactor.objects.get(user=user))).at(int(CLOCK.moment.timestamp()))


def tried(client: Client, code: str, **more: str) -> Any:
    return client.post("/sign-in/code/", {"code": code, **more})


def test_it_is_switched_on_by_a_code_and_shows_recovery_codes_once(
    signed_in: Callable[[User], Client], person: User
) -> None:
    browser = signed_in(person)
    begun = Page(browser.post("/account/second-step/begin/", follow=True))
    typed = {"code": shown(person), "password": PASSWORD}

    wrong = Page(browser.post("/account/second-step/confirm/", {**typed, "code": "000000"}))
    unknown = Page(browser.post("/account/second-step/confirm/", {**typed, "password": "guessed"}))
    response = browser.post("/account/second-step/confirm/", typed)

    assert begun.values("//img/@src")[0].startswith("data:image/svg+xml")
    assert begun.text("//p[@class='code']") == secret_of(SecondFactor.objects.get())
    assert WRONG in wrong.text("//main")
    assert "This is not your password." in unknown.text("//main")
    told = Page(response).texts("//li[@class='code']")
    assert (len(set(told)), response.headers["Cache-Control"]) == (10, "private, no-store")
    assert not any(code in str(list(RecoveryCode.objects.values())) for code in told)
    assert "10 recovery codes are left." in Page(browser.get("/account/second-step/")).text("//main")


def test_recovery_codes_are_longer_than_a_plain_hash_needs(codes: tuple[str, ...]) -> None:
    """From 112 bits on, says OWASP's verification standard 5.0.0 at 6.5.2."""
    letters = ["".join(code.split("-")) for code in codes]

    assert {set(one) <= set(LETTERS) for one in letters} == {True}
    assert min(map(len, letters)) * log2(len(LETTERS)) >= 112
    assert len(set(LETTERS)) == len(LETTERS)
    assert {CodeForm({"code": code.upper()}).is_valid() for code in codes} == {True}


def test_the_password_alone_lets_nobody_in(client: Client, person: User, codes: tuple[str, ...]) -> None:
    asked = client.post("/sign-in/", {**TOLD, "next": HOME})
    outside = client.get(HOME)
    page = Page(asked)

    response = tried(client, shown(person), next=page.field("next"))

    assert "The second step" in page.text("//h1")
    assert (outside.status_code, response.headers["Location"]) == (302, HOME)
    assert client.get(HOME).status_code == 200


def test_a_code_is_taken_once_and_a_recovery_code_too(client: Client, person: User, codes: tuple[str, ...]) -> None:
    answers = []
    for code in (shown(person), shown(person), codes[0], codes[0], codes[1].upper().replace("-", " ")):
        client.post("/sign-in/", TOLD)
        answers.append(tried(client, code).status_code)

    assert answers == [302, 200, 302, 200, 302]


def test_wrong_codes_shut_it_for_a_quarter_of_an_hour(
    client: Client, person: User, codes: tuple[str, ...], clock: Any
) -> None:
    client.post("/sign-in/", TOLD)
    for _time in range(5):
        tried(client, "000000")
    shut = Page(tried(client, codes[0]))
    clock.goes_on(minutes=16)
    client.post("/sign-in/", TOLD)

    assert "The code was wrong too often; try again in a quarter of an hour." in shut.text("//main")
    assert tried(client, codes[0]).status_code == 302


def test_whoever_waits_too_long_or_has_no_password_told_begins_again(
    client: Client, person: User, codes: tuple[str, ...], clock: Any
) -> None:
    unasked = tried(client, shown(person))
    client.post("/sign-in/", TOLD)
    clock.goes_on(minutes=6)
    late = tried(client, shown(person))

    assert {unasked.headers["Location"], late.headers["Location"]} == {"/sign-in/"}


def test_a_house_may_ask_its_owners_for_it(
    signed_in: Callable[[User], Client], person: User, viewer: User, settings: Any
) -> None:
    settings.OWNERS_NEED_SECOND_STEP = True
    owners, readers = signed_in(person), signed_in(viewer)

    before = owners.get(HOME).headers["Location"]
    owners.post("/account/second-step/begin/")
    owners.post("/account/second-step/confirm/", {"code": shown(person), "password": PASSWORD})
    owners.post("/account/second-step/off/", {"password": PASSWORD})

    assert before == "/account/second-step/"
    assert [browser.get(HOME).status_code for browser in (owners, readers)] == [200, 200]
    assert factor_of(person) is not None


def test_it_is_switched_off_with_the_password_or_on_the_machine(
    signed_in: Callable[[User], Client], person: User, codes: tuple[str, ...]
) -> None:
    browser, out = signed_in(person), StringIO()
    browser.post("/account/second-step/off/", {"password": "guessed"})
    kept = factor_of(person) is not None
    fresh = Page(browser.post("/account/second-step/codes/", {"password": PASSWORD})).texts("//li[@class='code']")
    call_command("second_step", "rana", stdout=out)
    browser.post("/account/second-step/off/", {"password": PASSWORD})
    call_command("second_step", "rana", "--off", stdout=out)

    assert (kept, set(fresh) & set(codes), begun_by(person), factor_of(person)) == (True, set(), None, None)
    assert out.getvalue() == "The second step of “rana” is on.\nThe second step of “rana” is off.\n"


def test_under_another_secret_key_a_recovery_code_lets_in_and_it_is_set_up_anew(
    client: Client, person: User, codes: tuple[str, ...], settings: Any
) -> None:
    before = shown(person)
    settings.SECRET_KEY = "another key of this site, as after a restore elsewhere"
    client.post("/sign-in/", TOLD)

    answers = [tried(client, before).status_code, tried(client, codes[0]).status_code]
    told = Page(client.get("/account/second-step/")).text("//main")
    client.post("/account/second-step/begin/")
    confirmed = client.post("/account/second-step/confirm/", {"code": shown(person), "password": PASSWORD})

    assert (answers, confirmed.status_code, factor_of(person) is not None) == ([200, 302], 200, True)
    assert "It has to be set up anew" in told


def test_a_key_that_the_site_had_before_opens_it_once_more_and_then_may_go(
    client: Client, person: User, codes: tuple[str, ...], settings: Any
) -> None:
    settings.SECRET_KEY_FALLBACKS, settings.SECRET_KEY = [settings.SECRET_KEY], "the key that follows it"
    client.post("/sign-in/", TOLD)
    entered = tried(client, shown(person)).status_code

    settings.SECRET_KEY_FALLBACKS = []

    assert (entered, secret_of(SecondFactor.objects.get()) is not None) == (302, True)
