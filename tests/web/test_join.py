"""/join/<token>/"""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from catalogue.actions.entry import make_entry_key
from catalogue.actions.members import add_member
from catalogue.models import Composer, EntryPurpose, Membership
from catalogue.terms import Role
from tests.conftest import NOW
from tests.web.pages import Page, with_class

PASSWORD = {"password": "Hushed-Reed-7"}


@pytest.fixture
def address(composer: Composer) -> str:
    return f"/join/{add_member(composer=composer, user_name='noor', role=Role.VIEWER, now=NOW).token}/"


def test_new_member_chooses_a_password_and_is_signed_in(client: Client, address: str) -> None:
    client.post(address, PASSWORD)

    assert client.get("/").headers["Location"] == "/c/ilka-marovand/"
    assert User.objects.get().check_password("Hushed-Reed-7")


def test_looking_at_the_page_uses_nothing_up_and_signs_nobody_in(client: Client, address: str) -> None:
    pages = [Page(client.get(address)) for _visit in range(2)]

    assert [page.text("//h1") for page in pages] == ["Come in"] * 2
    assert "_auth_user_id" not in client.session


def test_page_says_into_which_catalogues_one_is_let(client: Client, address: str, other_composer: Composer) -> None:
    one = Page(client.get(address)).text("//main")
    Membership.objects.create(user=User.objects.get(username="noor"), composer=other_composer, role=Role.VIEWER)
    two = Page(client.get(address)).text("//main")

    assert "You are let in to the catalogue of Ilka Marovand. You sign in as noor;" in one
    assert "You are let in to the catalogues of Ilka Marovand, Pell Tarrowick. You sign in as noor;" in two


def test_code_opens_once(client: Client, address: str) -> None:
    client.post(address, PASSWORD)

    assert [Client().get(address).status_code, Client().post(address, PASSWORD).status_code] == [404, 404]


def test_code_opens_for_a_week(client: Client, address: str, clock: Any) -> None:
    clock.goes_on(days=7)

    assert client.get(address).status_code == 404


@pytest.mark.parametrize("password", ["", "short", "password1234"])
def test_weak_password_is_refused_and_uses_nothing_up(client: Client, address: str, password: str) -> None:
    page = Page(client.post(address, {"password": password}))

    assert page.values(f"{with_class('summary')}//a/@href") == ["#id_password"]
    assert client.post(address, PASSWORD).status_code == 302


def test_code_stands_in_no_header_that_leaves_the_site(client: Client, address: str) -> None:
    response = client.get(address)

    assert response.headers["Referrer-Policy"] == "same-origin"
    assert response.headers["Cache-Control"] == "private, no-store"


@pytest.mark.parametrize("purpose", [EntryPurpose.OWNER, EntryPurpose.DEMO])
def test_other_keys_do_not_fit(client: Client, owner: User, purpose: EntryPurpose) -> None:
    token = make_entry_key(purpose, now=NOW, user=owner)

    assert (client.get(f"/join/{token}/").status_code, client.get("/join/made-up/").status_code) == (404, 404)


def test_somebody_shut_out_does_not_come_in(client: Client, address: str) -> None:
    User.objects.update(is_active=False)

    assert client.get(address).status_code == 404
