"""/sign-in/ and /sign-out/"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.hashers import get_hashers
from django.contrib.auth.models import User
from django.test import Client

from tests.web.pages import Page

PASSWORD = "Hushed-Reed-7"
WRONG = "This name and password do not belong together. Both tell capitals from small letters."

LEADING_AWAY = [
    "https://elsewhere.example/", "//elsewhere.example/", "///elsewhere.example", "/\\elsewhere.example",
    "\\\\elsewhere.example", "https:elsewhere.example", "http:///elsewhere.example", "javascript:alert(1)",
    "data:text/html,x", " //elsewhere.example", "\t//elsewhere.example", "http://127.0.0.1@elsewhere.example/",
    "https://testserver.elsewhere.example/", "//testserver@elsewhere.example", "ftp://testserver/x", "h\x00ttp://x",
]  # fmt: skip


@pytest.fixture
def person(owner: User) -> User:
    owner.set_password(PASSWORD)
    owner.save()
    return owner


def sign_in(client: Client, **typed: str) -> Any:
    return client.post("/sign-in/", {"username": "rana", "password": PASSWORD, **typed})


def test_right_name_and_password_open_the_catalogue(client: Client, person: User) -> None:
    response = sign_in(client)

    assert response.headers["Location"] == "/"
    assert client.get("/").headers["Location"] == "/c/ilka-marovand/"


def test_one_goes_on_to_the_page_that_was_asked_for(client: Client, person: User) -> None:
    asked = client.get("/c/ilka-marovand/works/?q=tidal").headers["Location"]
    page = Page(client.get(asked))

    response = sign_in(client, next=page.field("next"))

    assert response.headers["Location"] == "/c/ilka-marovand/works/?q=tidal"


@pytest.mark.parametrize("address", LEADING_AWAY)
def test_address_that_leads_away_is_not_followed(client: Client, person: User, address: str) -> None:
    assert sign_in(client, next=address).headers["Location"] == "/"


@pytest.mark.parametrize("typed", [{"password": "Hushed-Reed-8"}, {"username": "nobody"}, {"username": "RANA"}])
def test_wrong_name_and_wrong_password_are_told_alike(client: Client, person: User, typed: dict[str, str]) -> None:
    page = Page(sign_in(client, **typed))

    assert page.texts("//*[@role='alert']//li") == [WRONG]
    assert page.field("password") == ""


def test_sixth_wrong_password_closes_the_door_for_this_person_alone_and_for_a_while(
    client: Client, person: User, editor: User, clock: Any
) -> None:
    editor.set_password(PASSWORD)
    editor.save()
    for _attempt in range(5):
        sign_in(client, password="wrong")

    locked = sign_in(client)

    assert (locked.status_code, Page(locked).text("//h1")) == (429, "Signing in is closed for a quarter of an hour")
    assert sign_in(Client(), username="edda").status_code == 302
    clock.goes_on(minutes=16)
    assert sign_in(client).status_code == 302


def test_signing_out_ends_the_session_for_whoever_has_its_cookie(client: Client, person: User) -> None:
    sign_in(client)
    cookie = client.cookies["sessionid"].value

    left = client.post("/sign-out/")
    client.cookies["sessionid"] = cookie

    assert left.headers["Clear-Site-Data"] == '"cache"'
    assert client.get("/c/ilka-marovand/works/").status_code == 302


def test_signing_in_gives_a_session_that_nobody_knew_before(client: Client, person: User) -> None:
    client.session.save()
    client.cookies["sessionid"] = before = client.session.session_key

    sign_in(client)

    assert client.cookies["sessionid"].value not in ("", before)
    assert len(client.cookies["sessionid"].value) >= 32


def test_somebody_who_may_no_longer_sign_in_is_out_at_once(client: Client, person: User) -> None:
    sign_in(client)
    User.objects.update(is_active=False)

    assert client.get("/c/ilka-marovand/works/").status_code == 302


@pytest.mark.parametrize("password", ["  with blanks around  ", "x" * 100, "ünï ✓ cødé", "no-capitals-no-digits"])
def test_password_is_taken_as_it_is_typed(client: Client, person: User, password: str) -> None:
    person.set_password(password)
    person.save()

    assert "alert" in sign_in(client, password=password.strip()[:60] + "?").content.decode()
    assert sign_in(client, password=password).status_code == 302


def test_password_may_be_pasted_and_kept_by_the_browser(client: Client, db: None) -> None:
    page = Page(client.get("/sign-in/"))
    field = "//input[@name='password']"

    assert page.values(f"{field}/@type") == ["password"]
    assert page.values(f"{field}/@autocomplete") == ["current-password"]
    assert page.values(f"{field}/@maxlength | {field}/@onpaste") == []


def test_kept_text_that_somebody_else_made_up_is_not_offered(client: Client, person: User) -> None:
    response = sign_in(client, kept="eyJh:made:up")

    assert response.headers["Location"] == "/"


def test_what_somebody_else_typed_is_not_offered_by_an_address(client: Client, person: User) -> None:
    refused = Client().post("/c/ilka-marovand/profile/members/", {"user_name": "mallory", "role": "owner"})
    kept = Page(refused).field("kept")

    assert "kept" not in client.get("/sign-in/", {"kept": kept}).content.decode()


@pytest.mark.parametrize("who", ["nobody", "rana", "without a password", "inactive"])
def test_a_name_that_nobody_has_costs_as_much_as_a_wrong_password(
    client: Client, person: User, who: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    User.objects.create_user("without a password")
    User.objects.create_user("inactive", password=PASSWORD, is_active=False)
    scrambled: list[str] = []
    for scheme in get_hashers():
        monkeypatch.setattr(type(scheme), "encode", counted(type(scheme).encode, scrambled))
        monkeypatch.setattr(type(scheme), "verify", counted(type(scheme).verify, scrambled))

    sign_in(client, username=who, password="wrong")

    assert len(scrambled) == 1


def counted(scramble: Callable[..., Any], into: list[str]) -> Callable[..., Any]:
    """Do as before, and keep how often: a verification that encodes anew counts once."""

    def counting(self: Any, *told: Any, **named: Any) -> Any:
        before = len(into)
        answer = scramble(self, *told, **named)
        del into[before:]
        into.append(type(self).__name__)
        return answer

    return counting
