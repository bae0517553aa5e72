"""/account/recover/ and what leads there: mails that bring a way in or a way back, and tell strangers nothing."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.core.mail import EmailMessage
from django.core.mail.backends.base import BaseEmailBackend
from django.test import Client

from catalogue.models import AskedMail, Composer
from catalogue.web.views.recovery import recover
from tests.web.pages import Page, closed_quietly

OLD, NEW = "slack-rope-and-lamp", "copper-hymn-at-four"
MEMBERS = "/c/ilka-marovand/profile/members/"


class ShutBackend(BaseEmailBackend):
    """A mail server that takes nothing."""

    def send_messages(self, email_messages: list[EmailMessage]) -> int:
        raise ConnectionRefusedError


@pytest.fixture(autouse=True)
def with_mail(settings: Any) -> None:
    settings.SENDS_MAIL, settings.DEFAULT_FROM_EMAIL = True, "catalogue@house.example"


@pytest.fixture
def person(owner: User) -> User:
    owner.set_password(OLD)
    owner.email = "Rana@house.example"
    owner.save()
    return owner


def address_in(message: EmailMessage) -> str:
    (address,) = re.findall(r"^http://127\.0\.0\.1:8000(/\S+)$", str(message.body), re.MULTILINE)
    return address


def asked(client: Client, email: str, **headers: str) -> tuple[int, str]:
    response = client.post("/account/recover/", {"email": email}, headers={"host": "localhost", **headers})
    return response.status_code, response.headers.get("Location", "")


def test_a_forgotten_password_is_set_anew_by_mail_once(client: Client, person: User) -> None:
    assert asked(client, "rana@house.example") == (302, "/account/recover/sent/")

    (message,) = mail.outbox
    assert (message.to, message.subject) == (["Rana@house.example"], "A new password for your catalogue")
    assert message.extra_headers == {"Auto-Submitted": "auto-generated"}
    form = client.get(address_in(message), follow=True)
    assert form.headers["Cache-Control"] == "private, no-store"
    client.post(form.redirect_chain[-1][0], {"new_password1": NEW, "new_password2": NEW})
    person.refresh_from_db()
    assert person.check_password(NEW)
    assert "This address opens nothing" in Page(Client().get(address_in(message))).text("//main")


def test_whoever_is_not_here_gets_the_same_answer_and_no_mail(client: Client, person: User) -> None:
    User.objects.create_user("noor", "noor@house.example")  # has not chosen a password yet

    answers = {asked(client, email) for email in ("rana@house.example", "nobody@house.example", "noor@house.example")}

    assert answers == {(302, "/account/recover/sent/")}
    assert [message.to for message in mail.outbox] == [["Rana@house.example"]]
    assert "house.example" not in str(list(AskedMail.objects.values()))


def test_who_is_here_is_looked_up_only_once_the_answer_has_left(rf: Any, person: User) -> None:
    request = rf.post("/account/recover/", {"email": "rana@house.example"})
    response = recover(request)

    before = len(mail.outbox)
    closed_quietly(response)
    assert (before, len(mail.outbox)) == (0, 1)


def test_no_address_is_flooded_and_nobody_asks_for_many(client: Client, person: User, clock: Any) -> None:
    for _time in range(5):
        asked(client, "rana@house.example")
    for number in range(12):
        asked(client, f"somebody-{number}@house.example")
    asked_for = AskedMail.objects.count()

    clock.goes_on(hours=25)
    asked(client, "rana@house.example")

    assert (len(mail.outbox), asked_for, AskedMail.objects.count()) == (4, 10, 1)


def test_the_address_of_whoever_asks_is_believed_of_known_proxies_alone(
    client: Client, person: User, settings: Any
) -> None:
    for number in range(11):
        asked(client, f"a-{number}@house.example", **{"x-forwarded-for": f"198.51.100.{number}"})
    without = AskedMail.objects.count()
    settings.PROXIES = 1
    for number in range(3):
        asked(client, f"b-{number}@house.example", **{"x-forwarded-for": f"made-up, 198.51.100.{number}"})

    assert (without, AskedMail.objects.count()) == (10, 13)


def test_without_mail_the_page_says_what_to_do(client: Client, settings: Any) -> None:
    settings.SENDS_MAIL = False

    page = Page(client.get("/account/recover/"))

    assert "This catalogue sends no mails" in page.text("//main")
    assert page.values("//main//form/@action") == []


def test_one_notes_an_address_of_ones_own_with_the_password(signed_in: Callable[[User], Client], person: User) -> None:
    browser = signed_in(person)

    wrong = browser.post("/account/address/", {"email": "r@house.example", "password": "wrong"})
    person.refresh_from_db()
    before = person.email
    browser.post("/account/address/", {"email": "r@house.example", "password": OLD})

    person.refresh_from_db()
    assert "This is not your password." in Page(wrong).text("//main")
    assert (before, person.email) == ("Rana@house.example", "r@house.example")


def test_somebody_new_is_invited_by_mail(signed_in: Callable[[User], Client], person: User, composer: Composer) -> None:
    typed = {"user_name": "noor", "role": "editor", "email": "noor@house.example"}

    page = Page(signed_in(person).post(MEMBERS, typed, follow=True))

    (message,) = mail.outbox
    assert "The way in is sent to noor@house.example." in page.text("//main")
    assert (message.to, message.subject) == (["noor@house.example"], "You are let in to the catalogue of Ilka Marovand")
    visitor = Client()
    visitor.post(address_in(message), {"password": NEW})
    assert visitor.get("/c/ilka-marovand/works/new/").status_code == 200


@pytest.mark.parametrize("name", ["Ilka\rBcc: all@house.example", "Ilka\r\nBcc: all@house.example", "Ilka\nSubject: x"])
def test_no_name_becomes_a_header_of_a_mail(
    signed_in: Callable[[User], Client], person: User, composer: Composer, name: str
) -> None:
    Composer.objects.filter(pk=composer.pk).update(name=name)
    typed = {"user_name": "noor", "role": "editor", "email": "noor@house.example"}

    signed_in(person).post(MEMBERS, typed)

    (message,) = mail.outbox
    headers = message.message()
    assert (headers["Bcc"], headers.get_all("To"), message.recipients()) == (None, *[["noor@house.example"]] * 2)
    assert len(headers.get_all("Subject")) == 1
    assert not set("\r\n") & set(message.subject)


def test_what_cannot_be_sent_is_shown_to_be_handed_over(
    signed_in: Callable[[User], Client], person: User, composer: Composer, settings: Any
) -> None:
    settings.EMAIL_BACKEND = "tests.web.test_recovery.ShutBackend"
    typed = {"user_name": "noor", "role": "editor", "email": "noor@house.example"}

    page = Page(signed_in(person).post(MEMBERS, typed))

    assert "The mail could not be sent; hand the address over." in page.text("//main")
    assert page.values("//input[@id='address']/@value")[0].startswith("http://127.0.0.1:8000/join/")
