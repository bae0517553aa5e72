"""The pages for what went wrong."""

from __future__ import annotations

import errno
from collections.abc import Callable
from urllib.parse import urlencode

import pytest
from django.contrib.auth.models import User
from django.db import DatabaseError, OperationalError
from django.http import HttpRequest
from django.test import Client, RequestFactory

from catalogue.models import Composer
from catalogue.terms import Role
from catalogue.web import errors
from tests.conftest import member
from tests.web.pages import Page

pytestmark = pytest.mark.django_db


def test_address_of_nothing_says_so(client: Client) -> None:
    page = Page(client.get("/no/such/page/"))

    assert (page.status, page.text("//h1")) == (404, "There is nothing at this address")


def test_who_may_bring_back_what_was_deleted_is_led_there(
    signed_in: Callable[[User], Client], editor: User, viewer: User, composer: Composer
) -> None:
    found = [Page(signed_in(user).get("/c/ilka-marovand/works/999/")) for user in (editor, viewer)]

    assert [page.values("//main//p/a[not(@class)]/@href") for page in found] == [["/c/ilka-marovand/deleted/"], []]


def test_reader_who_asks_to_change_something_is_told_whom_to_ask(
    signed_in: Callable[[User], Client], viewer: User
) -> None:
    page = Page(signed_in(viewer).get("/c/ilka-marovand/works/new/"))

    assert (page.status, page.text("//h1")) == (403, "You may read this catalogue, not change it")


@pytest.mark.parametrize(
    ("role", "page", "heading"),
    [
        (Role.EDITOR, "profile/members/", "This is for the owners of the catalogue"),
        (Role.LIBRARIAN, "profile/", "You keep the material of this catalogue, not the rest"),
    ],
)
def test_every_role_is_told_what_it_leaves_to_others(
    signed_in: Callable[[User], Client], composer: Composer, role: Role, page: str, heading: str
) -> None:
    found = Page(signed_in(member("tove", composer, role)).get(f"/c/ilka-marovand/{page}"))

    assert (found.status, found.text("//h1")) == (403, heading)


@pytest.mark.parametrize("address", ["/sign-in/?next=%00", "/c/%00/works/"])
def test_address_with_a_nul_byte_is_refused(client: Client, address: str) -> None:
    assert client.get(address).status_code == 400


def test_page_of_a_fault_needs_no_database(rf: RequestFactory, django_db_blocker: object) -> None:
    request: HttpRequest = rf.get("/")
    request.user = property(lambda _self: (_ for _ in ()).throw(DatabaseError()))  # type: ignore[assignment]

    response = errors.server_error(request)

    assert (response.status_code, Page(response).text("//h1")) == (500, "Something went wrong here")


def refused_form(owner: User, **headers: str) -> Page:
    browser = Client(enforce_csrf_checks=True)
    browser.force_login(owner, "django.contrib.auth.backends.ModelBackend")
    typed = {"title": "Rope Tables", "notes": "One\nTwo", "password": "Hushed-Reed-7"}
    return Page(browser.post("/c/ilka-marovand/works/new/", typed, headers=headers))


def test_form_that_was_open_too_long_is_offered_again_with_all_that_was_typed(owner: User) -> None:
    page = refused_form(owner, **{"Sec-Fetch-Site": "same-origin"})

    assert page.values("//main//form/@action") == ["/c/ilka-marovand/works/new/"]
    assert (page.field("title"), page.field("notes")) == ("Rope Tables", "One\nTwo")
    assert page.texts("//main//button") == ["Send it again"]


def test_form_from_elsewhere_is_shown_to_be_copied_and_cannot_be_sent(owner: User) -> None:
    page = refused_form(owner, **{"Sec-Fetch-Site": "cross-site"})

    assert page.texts("//main//button") == []
    assert page.texts("//dl/div") == ["TitleRope Tables", "NotesOneTwo"]
    assert "Hushed-Reed-7" not in page.text()


@pytest.mark.parametrize(
    ("fault", "status", "says"),
    [
        (OperationalError("database or disk is full"), 507, "The disk that holds the catalogue is full."),
        (OSError(errno.ENOSPC, "No space left on device"), 507, "The disk that holds the catalogue is full."),
        (OperationalError("attempt to write a readonly database"), 503, "may not be written to"),
        (OperationalError("database is locked"), 503, "Somebody else was storing something"),
    ],
)
def test_what_could_not_be_stored_is_offered_again_with_the_reason(
    rf: RequestFactory, fault: Exception, status: int, says: str
) -> None:
    request = rf.post("/c/ilka-marovand/works/new/", {"title": "Rope Tables"})
    try:
        raise fault
    except type(fault):
        response = errors.server_error(request)

    page = Page(response)
    assert (page.status, page.text("//h1"), page.field("title")) == (status, "Nothing was stored", "Rope Tables")
    assert says in page.text()
    assert page.texts("//main//button") == ["Send it again"]


@pytest.mark.parametrize("at", ["/c/ilka-marovand/works/?sort=%00", "/c/ilka-marovand/works/%00/"])
def test_address_with_a_character_that_cannot_be_stored_is_answered_on_a_page(owner: User, at: str) -> None:
    browser = Client()
    browser.force_login(owner, "django.contrib.auth.backends.ModelBackend")
    page = Page(browser.get(at))

    assert (page.status, page.text("//h1")) == (400, "This request cannot be read")


@pytest.mark.parametrize("typed", [{"notes": "y" * 3_000_000}, {f"row-{number}": "1" for number in range(1200)}])
def test_form_with_more_than_is_taken_at_once_says_so(owner: User, typed: dict[str, str]) -> None:
    browser = Client(enforce_csrf_checks=True)
    browser.force_login(owner, "django.contrib.auth.backends.ModelBackend")
    body, kind = urlencode(typed), "application/x-www-form-urlencoded"
    page = Page(browser.post("/c/ilka-marovand/works/new/", body, content_type=kind))

    assert (page.status, page.text("//h1")) == (413, "This is more than can be taken at once")
